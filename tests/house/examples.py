# SPDX-License-Identifier: MIT
"""Runs the examples in the documents and compares what they show.

    examples.py PROGRAM PROFILES DOCUMENT...

In Markdown an example is a fenced block marked `console`, in a man page a
literal display that begins with "$ ". A line "$ COMMAND" is run by sh, where
`tankcost` is PROGRAM, with PROFILES among the user's own; the lines up to the
next command are its output, standard error included. A line "..." stands for
any lines. A command must end with status 0 unless its line ends in "# exit N".
The examples of a document share a scratch home, in which they begin. An
example whose output holds the present date is refused: it would have to say
--today.

With UPDATE_GOLDEN=1 the output in Markdown is written anew instead (but where
a line "..." stands): look at the difference before you commit it. Exit 1 where
something differs.
"""
import datetime
import glob
import os
import re
import subprocess
import sys
import tempfile


def unroff(line):
    """A line of a literal display as it is read."""
    return line.replace("\\e", "\\").replace("\\-", "-").replace("\\&", "")


def examples(path, lines):
    """(place, lines as they are read) of each example; the place counts from 0."""
    man = not path.endswith(".md")
    begin = None
    for i, line in enumerate(lines):
        if begin is None and (line.startswith(".Bd -literal") if man else line == "```console"):
            begin = i + 1
        elif begin is not None and line == (".Ed" if man else "```"):
            block = [unroff(text) if man else text for text in lines[begin:i]]
            if block and block[0].startswith("$ "):
                yield begin, block
            begin = None


def goes_on(command):
    """Whether a command has a further line."""
    here = re.search(r"<<'(\w+)'", command)
    return command.endswith("\\") or here and here.group(1) not in command.split("\n")[1:]


def commands(block):
    """(place, command, its lines, lines of output shown) of each command of an example."""
    starts = [i for i, line in enumerate(block) if line.startswith("$ ")]
    for start, end in zip(starts, starts[1:] + [len(block)]):
        command, shown = block[start][2:], start + 1
        while goes_on(command):
            command += "\n" + block[shown].removeprefix("> ")
            shown += 1
        yield start, command, block[start:shown], block[shown:end]


def present_date():
    """A pattern for today's date, as people and as files write it; no match where a profile has that date."""
    days = {datetime.date.today(), datetime.datetime.now(datetime.timezone.utc).date()}
    known = "".join(open(path, encoding="utf-8").read() for path in glob.glob("profiles/*/*.ini"))
    forms = [form for day in days for form in (
        day.isoformat(), f"{day.day} {day:%b} {day.year}", f"{day.day} {day:%B} {day.year}",
        f"{day:%b} {day.day}, {day.year}", f"{day:%B} {day.day}, {day.year}") if day.isoformat() not in known]
    return re.compile("|".join(rf"\b{form}\b" for form in forms) or r"(?!)")


PRESENT = present_date()


def run(command, home):
    """(output, fault or None) of a command."""
    wanted = re.search(r"# exit (\d+)$", command)
    wanted = int(wanted.group(1)) if wanted else 0
    done = subprocess.run(["sh", "-c", command], cwd=home, encoding="utf-8", check=False, stdin=subprocess.DEVNULL,
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    output = done.stdout.removesuffix("\n").split("\n") if done.stdout else []
    fault = None if done.returncode == wanted else f"ended with {done.returncode}, not {wanted}: {output[-1:]}"
    return output, fault


def difference(shown, output):
    """Where the output is not as shown, or None."""
    pattern = "".join("(?:.*\n)*?" if line == "..." else re.escape(line) + "\n" for line in shown)
    if re.fullmatch(pattern, "".join(line + "\n" for line in output)):
        return None
    for told, printed in zip(shown + [""] * len(output), output + [""] * len(shown)):
        if told != printed:
            return f"shows  {told}\n    prints {printed}"
    return "prints fewer lines than shown"


def depends_on_day(command, shown, output, update):
    """What is wrong where another day's output would not be as shown, or None."""
    found = None if "--today" in command else PRESENT.search("\n".join(output))
    elsewhen = [PRESENT.sub("another day", line) for line in output]
    if found and (difference(shown, elsewhen) if not update else "..." not in shown):
        return f"prints the present date, {found.group()}: say --today"
    return None


def replay(path, home, update):
    """Runs the examples of a document. Returns how many commands went wrong."""
    with open(path, encoding="utf-8") as file:
        lines = file.read().split("\n")
    faults, renewed, copied = 0, [], 0
    for begin, block in list(examples(path, lines)):
        renewed += lines[copied:begin]
        copied = begin + len(block)
        for place, command, written, shown in commands(block):
            output, fault = run(command, home)
            if not fault and not update:
                fault = difference(shown, output)
            fault = fault or depends_on_day(command, shown, output, update)
            if fault:
                print(f"{path}:{begin + place + 1}: `{command}`\n    {fault}")
                faults += 1
            renewed += written + (shown if "..." in shown else output)
    renewed += lines[copied:]
    if update and path.endswith(".md") and renewed != lines:
        with open(path, "w", encoding="utf-8") as file:
            file.write("\n".join(renewed))
    return faults


def make_home(program, profiles, home):
    """Fills a scratch home: the command, and the profiles as the user's own."""
    os.makedirs(f"{home}/bin")
    os.symlink(os.path.abspath(program), f"{home}/bin/tankcost")
    for profile in glob.glob(f"{profiles}/*/*.ini"):
        link = f"{home}/.local/share/tankcost/{os.path.relpath(profile, profiles)}"
        os.makedirs(os.path.dirname(link), exist_ok=True)
        os.symlink(os.path.abspath(profile), link)


def main(program, profiles, *documents):
    faults, path = 0, os.environ["PATH"]
    update = os.environ.get("UPDATE_GOLDEN") == "1"
    for document in documents:
        with tempfile.TemporaryDirectory() as home:
            make_home(program, profiles, home)
            os.environ.update(HOME=home, PATH=f"{home}/bin:{path}")
            faults += replay(document, home, update)
    if faults and not update:
        print("(UPDATE_GOLDEN=1 tests/house/test_docs.sh writes into README.md what is printed now)")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
