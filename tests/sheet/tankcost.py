# SPDX-License-Identifier: MIT
"""Runs tankcost for the tests of its sheets and reads what it prints."""
import json
import os
import shutil
import subprocess
import sys
from decimal import Decimal

PROGRAM = sys.argv[1]
SCRATCH = os.environ["SCRATCH"]
TODAY = "2026-11-25"
# A long test takes each so-and-so-many-th of its cases where all is slow or done again.
STEP = int(os.environ.get("TEST_STEP", "1"))
failed = 0


def fault(*what):
    global failed
    failed += 1
    print(*what)


def finish():
    sys.exit(1 if failed else 0)


def run(*words, profiles="profiles", today=TODAY, status=0):
    """What the program prints; a fault where it does not exit with status."""
    command = [PROGRAM, "--profiles", profiles, "--today", today, *map(str, words)]
    done = subprocess.run(command, capture_output=True, text=True, encoding="utf-8", check=False)
    if status is not None and done.returncode != status:
        fault(f"exit status {done.returncode}, not {status}, of {' '.join(command)}: {done.stderr}")
    return done


class Sheet:
    """A sheet read from JSON, its figures as exact decimals."""

    def __init__(self, *words, **how):
        done = run(*words, "--format", "json", **how)
        self.json = json.loads(done.stdout, parse_float=Decimal, parse_int=Decimal)
        self.columns = [column["head"] for column in self.json["columns"]]
        self.groups = []  # [heading, [rows]]
        for row in self.json["rows"]:
            if row["kind"] == "group":
                self.groups.append((row["label"], []))
            else:
                if not self.groups:
                    self.groups.append(("", []))
                self.groups[-1][1].append(row)

    def group(self, heading):
        """The rows of the first group whose heading begins so; none where there is no such group."""
        for label, rows in self.groups:
            if label.startswith(heading):
                return rows
        return []

    def row(self, heading, label):
        for row in self.group(heading):
            if row["label"] == label:
                return row
        return None

    def value(self, heading, label, column):
        row = self.row(heading, label)
        return row["cells"][column]["value"] if row else None

    def notes(self, kind=None):
        return [note["text"] for note in self.json["notes"] if kind in (None, note["kind"])]


def amount(cell):
    """The figure of a cell, 0 where it has none."""
    value = cell["value"]
    return value if cell["kind"] in ("money", "number") and value is not None else Decimal(0)


def stock(kind):
    """The names of all items of a kind in the demo."""
    sheet = Sheet("stock", kind)
    return [row["label"] for _, rows in sheet.groups for row in rows if row["kind"] == "line"]


def profiles_with(name, replaced, added=None):
    """A copy of the demo's profiles in which texts of files are replaced once each, and files added."""
    folder = os.path.join(SCRATCH, name)
    shutil.copytree("profiles", folder)
    for path, _, names in os.walk(folder):  # sources may be read-only
        for each in [path, *(os.path.join(path, name) for name in names)]:
            os.chmod(each, 0o700)
    for path, old, new in replaced:
        with open(os.path.join(folder, path), encoding="utf-8") as file:
            text = file.read()
        if text.count(old) != 1:
            fault(f"{path} holds {old!r} {text.count(old)} times")
        with open(os.path.join(folder, path), "w", encoding="utf-8") as file:
            file.write(text.replace(old, new))
    for path, text in (added or {}).items():
        with open(os.path.join(folder, path), "w", encoding="utf-8") as file:
            file.write(text)
    return folder
