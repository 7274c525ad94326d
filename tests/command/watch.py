# SPDX-License-Identifier: MIT
"""tests/command/watch.py PROGRAM: see test_watch.sh. Exit 1 where something is not as it should be."""
import os
import pty
import re
import select
import signal
import subprocess
import sys
import time

WORK = ["--profiles", "profiles", "--today", "2026-11-25", "doubts", "--threads", "1", "--draws"]
PATIENCE = 60  # s for what must happen
faults = []


def fault(text):
    faults.append(text)
    print(text)


def start(program, draws, on_terminal):
    """The program, and what to read its standard error from."""
    reader, writer = pty.openpty() if on_terminal else os.pipe()
    child = subprocess.Popen([program, *WORK, str(draws)], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                             stderr=writer, start_new_session=True)
    os.close(writer)
    return child, reader


def read_until(reader, wanted):
    """What came up to what the pattern finds, or all where it never does."""
    said = b""
    until = time.monotonic() + PATIENCE
    while not re.search(wanted, said) and time.monotonic() < until:
        if not select.select([reader], [], [], 1)[0]:
            continue
        try:
            more = os.read(reader, 4096)
        except OSError:  # the other side of the terminal was closed
            break
        if not more:
            break
        said += more
    return said


def stopped_on_terminal(program):
    child, reader = start(program, 500000, True)
    said = read_until(reader, rb"([4-9]|\d\d) % done")  # 16 chunks of 490 are enough to say something
    if b"% done" not in said:
        fault(f"no progress was told: {said!r}")
    child.send_signal(signal.SIGINT)
    last = read_until(reader, b"never")
    printed = child.communicate(timeout=PATIENCE)[0].decode()
    if child.returncode != -signal.SIGINT:
        fault(f"who started it is told {child.returncode}, not that it was stopped")
    draws = re.search(r"(\d[\d\s]*) draws", printed)
    if not draws or not 16336 <= int(re.sub(r"\s", "", draws[1])) < 500000:
        fault(f"what is known so far is not shown: {printed!r}")
    if "which you stopped" not in printed:
        fault("the sheet does not say that it was stopped")
    if not last.endswith(b"\r"):
        fault(f"the line of progress was left standing: {last[-80:]!r}")


def silent_elsewhere(program):
    child, reader = start(program, 100, False)
    printed = child.communicate(timeout=PATIENCE)[0].decode()
    said = os.read(reader, 4096)
    if said or child.returncode != 0 or "stopped" in printed:
        fault(f"with no terminal: {child.returncode}, {said!r}")
    child, reader = start(program, 10000000, False)
    time.sleep(0.2)
    child.send_signal(signal.SIGINT)
    if child.communicate(timeout=PATIENCE)[0] or child.returncode != -signal.SIGINT:
        fault("with no terminal, Ctrl-C does not end it as any other program")


stopped_on_terminal(sys.argv[1])
silent_elsewhere(sys.argv[1])
sys.exit(1 if faults else 0)
