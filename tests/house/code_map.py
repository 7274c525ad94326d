# SPDX-License-Identifier: MIT
"""Keeps the map of the code in DEVELOPERS.md as the headers have it.

    code_map.py DOCUMENT

Between the comments `<!-- map FOLDER -->` and `<!-- end -->` stands a line for
each header of src/FOLDER: its name, and the first sentence of its comment. With
UPDATE_GOLDEN=1 the map is written anew. Exit 1 where it differs.
"""
import glob
import os
import re
import sys


def summary(path):
    """What the comment at the head of a header says first: "name.h - what it is"."""
    with open(path, encoding="utf-8") as file:
        text = file.read()
    said = re.search(r"/\*\s*(?:\*\s*)?" + re.escape(os.path.basename(path)) + r" - (.*?)\*/", text, re.S)
    if not said:
        return None
    words = " ".join(line.strip(" *") for line in said.group(1).split("\n"))
    return re.split(r"[.?](?:\s|$)| \(internal", words)[0].strip()


def code_map(folder):
    lines = []
    for path in sorted(glob.glob(f"src/{folder}/*.h")):
        said = summary(path)
        if said is None:
            sys.exit(f"{path}: its first comment does not say '{os.path.basename(path)} - what it is'")
        lines.append(f"- `{os.path.basename(path)[:-2]}`: {said}\n")
    return "".join(lines)


def main(document):
    with open(document, encoding="utf-8") as file:
        text = file.read()
    renewed = re.sub(r"(<!-- map ([\w/]+) -->\n).*?(<!-- end -->)",
                     lambda found: found.group(1) + code_map(found.group(2)) + found.group(3), text, flags=re.S)
    if renewed == text:
        return 0
    if os.environ.get("UPDATE_GOLDEN") == "1":
        with open(document, "w", encoding="utf-8") as file:
            file.write(renewed)
        return 0
    had = set(text.split("\n"))
    for line in renewed.split("\n"):
        if line not in had:
            print(f"{document}: the map of the code lacks {line}")
    print("(UPDATE_GOLDEN=1 tests/house/test_docs.sh writes it anew)")
    return 1


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
