# SPDX-License-Identifier: MIT
"""tests/attack/attack.py PROGRAM PRELOAD [short | PART...]: see tests/attack/run. Exit 1 where something fell."""
import json
import os
import random
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time

import pseudo_terminal as pt

PROGRAM = os.path.realpath(sys.argv[1])
PRELOAD = os.path.realpath(sys.argv[2])
SHORT = sys.argv[3:] == ["short"]
WANTED = [] if SHORT else sys.argv[3:]
PROFILES = os.path.realpath("profiles")
DAY = ["--today", "2026-11-25"]
PATIENCE = 60  # s

fallen = []
done = {}


def fell(what):
    fallen.append(what)
    print("FELL:", what, flush=True)


def count(what, n=1):
    done[what] = done.get(what, 0) + n


def some(places, most):
    """The places to try: all of them, or for a short run `most` spread over them."""
    places = list(places)
    if not SHORT or len(places) <= most:
        return places
    return [places[i * (len(places) - 1) // (most - 1)] for i in range(most)]


class Home:
    """A home of its own, with a file that a person has saved and that must stay whole."""

    def __init__(self):
        self.path = tempfile.mkdtemp(prefix="tankcost-attack-")
        self.plan = os.path.join(self.path, "mine.ini")
        with open(os.path.join(PROFILES, "plans", "start.ini")) as file:
            self.old = "# my own words\n" + file.read().replace("[plan start]", "[plan mine]")
        self.renew()

    def renew(self):
        for name in os.listdir(self.path):
            path = os.path.join(self.path, name)
            shutil.rmtree(path) if os.path.isdir(path) and not os.path.islink(path) else os.remove(path)
        with open(self.plan, "w") as file:
            file.write(self.old)

    def environment(self, **more):
        kept = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "HOME": self.path, "TANKCOST_DATA": PROFILES,
                "TERM": "xterm-256color"}
        return {**kept, **more}

    def files(self):
        """All files there with what they hold; those left over from writing apart."""
        found, left = {}, []
        for folder, _, names in os.walk(self.path):
            for name in names:
                path = os.path.join(folder, name)
                if name.endswith(".tmp"):
                    left.append(path)
                else:
                    with open(path, "rb") as file:
                        found[os.path.relpath(path, self.path)] = file.read()
        return found, left


home = Home()


def run(arguments, prefix=(), given=b"", **environment):
    return subprocess.run([*prefix, PROGRAM, *arguments, *DAY], input=given, capture_output=True, cwd=home.path,
                          env=home.environment(**environment), timeout=PATIENCE)


def look(what, result, allowed):
    """A run that was made to fail: it ended by itself, and said why."""
    if result.returncode not in allowed:
        fell(f"{what}: ended with {result.returncode}: {result.stderr[-200:]!r}")
    elif result.returncode != 0 and not result.stderr.strip():
        fell(f"{what}: ended with {result.returncode} without a word")


# ---------------------------------------------------------------------------- memory

LIST = b"name,kind,price\n20-high,tank,31\n"
COMMANDS = [
    ["bill", "mine.ini"],
    ["wall", "new-wall"],
    ["doubts", "--draws", "100", "--threads", "1"],
    ["shortlist"],
    ["report", "--format", "html", "--draws", "100", "--threads", "1"],
    ["explain", "bill", "mine.ini"],
    ["bill", "mine.ini", "--format", "json", "--output", "sheet.json"],
    ["new", "tank", "own", "length=30in", "width=12in", "height=12in", "glass=6mm"],
    ["prices", "lowmere-shop", "-", "--yes"],
    ["check"],
]


def memory():
    for arguments in some(COMMANDS, 3):
        home.renew()
        counted = os.path.join(home.path, "count")
        run(arguments, given=LIST, LD_PRELOAD=PRELOAD, FAIL_COUNT=counted)
        with open(counted) as file:
            total = int(file.read() or 0)
        home.renew()
        whole = run(arguments, given=LIST).stdout
        new, _ = home.files()
        home.renew()
        plain = run(arguments, given=LIST, LC_ALL="C").stdout  # what is told where there was no room for a locale
        for lasting in ({}, {"FAIL_ALL": "1"}):
            step = max(1, total // 600)
            for at in some(range(0, total, step), 6):
                home.renew()
                result = run(arguments, given=LIST, LD_PRELOAD=PRELOAD, FAIL_AT=str(at), **lasting)
                what = f"{' '.join(arguments)}: allocation {at}{' and all after it' if lasting else ''}"
                count("allocations failed")
                look(what, result, (0, 1, 3))
                if result.returncode == 0 and result.stdout not in (whole, plain):
                    fell(f"{what}: another answer, and no word of it")
                check_files(what, new, False)


def is_whole_sheet(text):
    try:
        return "rows" in json.loads(text)
    except ValueError:
        return False


def check_files(what, new, may_leave, may_differ=False):
    """What was saved before is whole: as it was, or as it was to be; or a whole sheet of what profiles could be read."""
    now, left = home.files()
    for name, bytes_now in now.items():
        if name != "mine.ini" and bytes_now == new.get(name):
            continue
        if may_differ and name == "sheet.json" and is_whole_sheet(bytes_now):
            continue
        if bytes_now not in (home.old.encode(), new.get(name)):
            fell(f"{what}: {name} is neither old nor new ({len(bytes_now)} bytes)")
    if "mine.ini" not in now:
        fell(f"{what}: the plan is gone")
    if left and not may_leave:
        fell(f"{what}: {left[0]} was left over")


def little_memory():
    """Less and less address space: the libraries' own allocations fail as well."""
    for kilobytes in some(range(8000, 60000, 130), 25):
        size = kilobytes * 1024
        result = subprocess.run([PROGRAM, "bill", *DAY], capture_output=True, cwd=home.path, env=home.environment(),
                                preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (size, size)),
                                timeout=PATIENCE)
        count("sizes of memory")
        # 127: there was not even room for the libraries.
        look(f"bill in {kilobytes} kB", result, (0, 1, 3, 127))


# ------------------------------------------------------------------------ system calls

# What writing takes; openat and read also serve to read the profiles.
CALLS = ["openat", "read", "write", "fsync", "fchmod", "rename", "close", "mkdir", "unlink", "newfstatat", "lseek",
         "ftruncate", "memfd_create", "faccessat2", "readlink", "lstat", "stat"]
SHORT_CALLS = ["write", "fsync", "rename"]
ERRORS = ["EIO", "ENOSPC", "EACCES", "EDQUOT", "EMFILE", "EROFS", "EINTR", "ENOMEM"]
WRITINGS = {
    "--output": ["bill", "mine.ini", "--format", "json", "--output", "sheet.json"],
    "new": ["new", "tank", "own", "length=30in", "width=12in", "height=12in", "glass=6mm"],
    "prices": ["prices", "lowmere-shop", "-", "--yes"],
}


def strace_works():
    if not shutil.which("strace"):
        return False
    return subprocess.run(["strace", "-o", "/dev/null", "true"], capture_output=True).returncode == 0


def how_often(call, work):
    log = os.path.join(home.path, "trace")
    work(["strace", "-qq", "-o", log, "-e", f"trace=?{call}"])
    with open(log) as file:
        return sum(line.startswith(call + "(") for line in file)


def places_of(call, work):
    """The last calls are those of writing; of those before, which read, some will do."""
    total = how_often(call, work)
    home.renew()
    last = range(max(1, total - 24), total + 1)
    return some(sorted(set(last) | set(range(1, total + 1, max(1, total // 12)))), 2)


def inject(call, at, how):
    return ["strace", "-qq", "-o", "/dev/null", "-e", f"trace=?{call}", "-e", f"inject={call}:{how}:when={at}"]


def attack_writing(name, work, new, ends):
    slow = SHORT and "screen" in name
    for call in SHORT_CALLS if slow else CALLS:
        home.renew()
        for at in places_of(call, work):
            for how in ["signal=KILL"] + [f"error={e}" for e in (ERRORS[:1] if SHORT else ERRORS)]:
                home.renew()
                result = work(inject(call, at, how))
                killed = how == "signal=KILL"
                what = f"{name}: {call} {at} {how}"
                count("system calls killed" if killed else "system calls failed")
                if not killed:
                    ends(what, result)
                check_files(what, new, killed or call == "unlink", not killed)
                if killed and home.files()[1]:
                    work([])
                    check_files(what + ", and written again", new, False)


def system_calls():
    if not strace_works():
        print("skipped: strace cannot trace here")
        return
    for name, arguments in WRITINGS.items():
        home.renew()
        run(arguments, given=LIST)
        new, _ = home.files()
        attack_writing(name, lambda prefix, a=arguments: run(a, prefix=prefix, given=LIST), new,
                       # 2: where profiles cannot be read there is no such shop or part.
                       lambda what, result: look(what, result, (0, 1, 2, 3, 127)))
    for name, keys in (("save on the screen", b"45\rs\ry"), ("sheet written from the screen", b"w\x15sheet.json\r")):
        home.renew()
        screen_keys([], keys)
        new, _ = home.files()
        attack_writing(name, lambda prefix, k=keys: screen_keys(prefix, k), new, lambda what, result: None)


# ---------------------------------------------------------------------------- the screen


def screen(prefix=(), arguments=("mine.ini",)):
    return pt.Terminal([*prefix, PROGRAM, *arguments, *DAY], home.path, home.environment())


def screen_keys(prefix, keys):
    """Starts the screen on the plan, presses these keys and leaves."""
    terminal = screen(prefix)
    terminal.wait_for(b"mine", PATIENCE)
    terminal.press(keys)
    terminal.quiet(0.15)
    terminal.press(b"\x1b\x1bq")
    terminal.quiet(0.1)
    terminal.press(b"q")  # where it asks about changes that are not saved
    return terminal.end(PATIENCE)


STATES = {"sheet": b"", "form": b"n", "list": b"o", "line": b"s", "work": b"g", "changed": b"45\r"}
SIGNALS = [signal.SIGTERM, signal.SIGHUP, signal.SIGINT, signal.SIGQUIT, signal.SIGPIPE, signal.SIGALRM,
           signal.SIGUSR1, signal.SIGUSR2, signal.SIGXCPU, signal.SIGSEGV, signal.SIGABRT, signal.SIGBUS,
           signal.SIGFPE, signal.SIGSYS]


def signals():
    for state, keys in STATES.items():
        for number in some(SIGNALS, 2):
            home.renew()
            terminal = screen(arguments=("mine.ini", "--draws", "10000000") if state == "work" else ("mine.ini",))
            terminal.wait_for(b"mine", PATIENCE)
            terminal.press(keys)
            terminal.quiet(0.1)
            before = terminal.modes_before
            terminal.signal(number)
            status = terminal.end(PATIENCE)
            what = f"{number.name} at {state}"
            count("signals")
            if status != -number:
                fell(f"{what}: ended with {status}")
            if terminal.modes() != before:
                fell(f"{what}: the terminal's modes were left changed")
            if b"\x1b[?1049l" not in terminal.output:
                fell(f"{what}: the terminal was left on the other screen")
            if state == "changed" and number in (signal.SIGTERM, signal.SIGHUP) and not any(
                    "unsaved" in name for name in home.files()[0]):
                fell(f"{what}: what was not saved is gone")
            check_files(what, {n: b for n, b in home.files()[0].items() if "unsaved" in n}, False)


def resizes():
    chance = random.Random(1)
    home.renew()
    terminal = screen(arguments=("mine.ini", "--draws", "1000000"))
    terminal.wait_for(b"mine", PATIENCE)
    terminal.press(b"g")
    for _ in range(40 if SHORT else 600):
        terminal.resize(chance.choice([1, 2, 20, 79, 80, 200, 500, 32767, 65535]),
                        chance.choice([1, 2, 10, 24, 60, 200, 32767, 65535]))
        terminal.quiet(0.005)
        count("sizes")
    terminal.resize(80, 24)
    terminal.quiet(0.5)
    leave("a storm of sizes", terminal)


def leave(what, terminal):
    """The program still answers, and leaves when asked."""
    for keys in (b"\x1b", b"\x1b", b"\x1b", b"q", b"q"):
        if terminal.over():
            break
        terminal.press(keys)
        terminal.quiet(0.2)
    status = terminal.end(PATIENCE)
    if status != 0:
        fell(f"{what}: ended with {status}: {terminal.output[-300:]!r}")


def pasted(chance):
    kind = chance.randrange(5)
    size = chance.choice([100, 5000, 100000] if SHORT else [100, 5000, 100000, 1000000])
    if kind == 0:
        # But for what the terminal itself makes a signal of.
        return bytes(chance.choice(range(0x1D, 256)) for _ in range(min(size, 20000)))
    if kind == 1:
        return "水槽 Größe Аквариум ".encode()[:size] * (size // 30)
    if kind == 2:
        return b"quick notes:\r45\rq\rs\r" * (size // 20)
    if kind == 3:
        return b"\x1b[M !!\x1b[<0;3;3M\x1bOP\x1b[999Z" * (size // 30)
    return "größe ".encode("latin-1") * (size // 6)


def pastes():
    chance = random.Random(2)
    for i in range(5 if SHORT else 60):
        for locale in ("C.UTF-8", "C"):
            home.renew()
            terminal = pt.Terminal([PROGRAM, "mine.ini", *DAY], home.path, home.environment(LC_ALL=locale))
            terminal.wait_for(b"mine", PATIENCE)
            terminal.press([b"", b"s", b"o", b"n"][i % 4])
            terminal.press(b"\x1b[200~" + pasted(chance).replace(b"\x1b[201~", b"") + b"\x1b[201~")
            terminal.quiet(0.3)
            count("pastes")
            leave(f"paste {i} in {locale}", terminal)
            check_files(f"paste {i} in {locale}", {}, False)


if __name__ == "__main__":
    begin = time.monotonic()
    for part in (memory, little_memory, system_calls, signals, resizes, pastes):
        if WANTED and part.__name__ not in WANTED:
            continue
        start = time.monotonic()
        part()
        print(f"{part.__name__}: {time.monotonic() - start:.0f} s", flush=True)
    shutil.rmtree(home.path)
    print("attack:", ", ".join(f"{n} {what}" for what, n in done.items()),
          f"in {time.monotonic() - begin:.0f} s; {len(fallen)} fell")
    sys.exit(1 if fallen else 0)
