# SPDX-License-Identifier: MIT
"""
Every figure of the demonstration's sheets, opened to its leaves and worked out
again from them by an evaluator that knows nothing of the program but the signs
that tankcost-model(7) gives to formulas; and every leaf that names a line of a
file, by changing that line.

Rounding: half away from zero, a millionth of a half counting as one, as
tankcost-model(7), MONEY, says. Dealing out by largest remainder: Hamilton's
method (Balinski and Young, Fair Representation, 2001, ch. 3).
"""
import json
import math
import os
import re
import shlex
import shutil
import sys

from tankcost import SCRATCH, STEP, fault, finish, profiles_with, run, Sheet

sys.setrecursionlimit(10000)


# ------------------------------------------------------------------ the evaluator
TOKEN = re.compile(r"\s*(?:(\d+(?:\.\d+)?(?:[eE][-+]?\d+)?)|([A-Za-z]\w*)|(.))")
PARSED = {}


def parse(text):
    """A formula as a tree: ("number", x), ("name", x), ("call", f, arguments) or (sign, a, b)."""
    if text in PARSED:
        return PARSED[text]
    tokens = [m.groups() for m in TOKEN.finditer(text) if m.group().strip()]
    place = 0

    def here():
        return tokens[place][2] if place < len(tokens) else None

    def expect(sign):
        nonlocal place
        if here() != sign:
            raise ValueError(f"'{sign}' expected in '{text}'")
        place += 1

    def chain(signs, inner):
        nonlocal place
        tree = inner()
        while here() in signs:
            sign = here()
            place += 1
            tree = (sign, tree, inner())
        return tree

    def expression():
        return chain(("+", "-"), lambda: chain(("×", "/"), unary))

    def unary():
        nonlocal place
        if here() == "-":
            place += 1
            return ("neg", unary(), None)
        base = atom()
        if here() == "^":
            place += 1
            return ("^", base, unary())
        return base

    def atom():
        nonlocal place
        number, name, sign = tokens[place]
        place += 1
        if number:
            return ("number", float(number))
        if sign == "(":
            tree = expression()
            expect(")")
            return tree
        if not name:
            raise ValueError(f"'{sign}' in '{text}'")
        if here() != "(":
            return ("name", name)
        place += 1
        arguments = [expression()]
        while here() == ",":
            place += 1
            arguments.append(expression())
        expect(")")
        return ("call", name, arguments)

    tree = expression()
    if place != len(tokens):
        raise ValueError(f"more than a formula in '{text}'")
    PARSED[text] = tree
    return tree


def away(x):
    """The nearest whole number, half away from zero."""
    return math.copysign(math.floor(abs(x) + 0.5 + 1e-6), x) if x else 0.0


def part(whole, k, shares, unit, said):
    """The k-th share of a whole number of units, by largest remainder; of those that tie it may be any, as said."""
    units = round(whole / unit)
    total = sum(shares)
    quotas = [units * s / total if total else units / len(shares) for s in shares]
    given = [math.floor(q + 1e-9) for q in quotas]
    while sum(given) < units:
        most = max(range(len(given)), key=lambda i: quotas[i] - given[i])
        rest = quotas[most] - given[most]
        tied = abs(quotas[k - 1] - math.floor(quotas[k - 1] + 1e-9) - rest) < 1e-6
        if tied and abs(said / unit - quotas[k - 1]) < 1:
            return said
        given[most] += 1
    return given[k - 1] * unit


CANCELLED = 1e-7
SIGNS = {"+": lambda a, b: a + b, "-": lambda a, b: a - b, "×": lambda a, b: a * b,
         "/": lambda a, b: a / b, "^": lambda a, b: a**b}
CALLS = {"min": min, "max": max, "below": lambda a, b: 1.0 if a < b else 0.0,
         "up": lambda x: float(math.ceil(x * (1 - 1e-9))), "down": lambda x: float(math.floor(x)), "sqrt": math.sqrt, "exp": math.exp}


def evaluate(tree, values, unit, said):
    kind = tree[0]
    if kind == "number":
        return tree[1]
    if kind == "name":
        return values[tree[1]]
    if kind == "neg":
        return -evaluate(tree[1], values, unit, said)
    if kind == "call":
        arguments = [evaluate(a, values, unit, said) for a in tree[2]]
        if tree[1] == "round":
            return away(arguments[0] / unit) * unit
        if tree[1] == "part":
            return part(arguments[0], int(arguments[1]), arguments[2:], unit, said)
        return CALLS[tree[1]](*arguments)
    return SIGNS[kind](evaluate(tree[1], values, unit, said), evaluate(tree[2], values, unit, said))


# ------------------------------------------------------------------- a derivation
class Line:
    def __init__(self, row):
        value, how = row["cells"]
        self.path = row.get("about", "")
        self.label = row["label"].strip()
        self.symbol = self.label.split(" ")[0]
        self.value = float(value["value"]) if value["value"] is not None else None
        self.decimals = int(value.get("decimals", 0))
        text = str(value["value"])
        self.unit = 10.0 ** -(len(text.split(".")[1]) if "." in text else 0) if value["kind"] == "money" else None
        self.how = how["value"]
        self.parts = []
        self.done = None


def read(*words, **how):
    """The lines of what `explain` prints, as trees: the roots."""
    said = run("explain", *words, "--all", "--format", "json", **how).stdout
    lines, roots = {}, []
    for row in json.loads(said, parse_float=str, parse_int=str)["rows"]:
        line = Line(row)
        lines[line.path] = line
        above = line.path.rpartition(".")[0]
        if line.path and above in lines:
            lines[above].parts.append(line)
        else:
            roots.append(line)
    for line in lines.values():
        m = re.search(r"; as line ([\d.]+)$", line.how)
        if m:
            line.how = line.how[:m.start()]
            line.parts = lines[m.group(1)].parts
    return roots, lines


def near(a, b, size):
    return abs(a - b) <= 1e-8 * max(abs(a), abs(b)) + 1e-9 * size


def work_out(line, name):
    """The value of a line from its leaves; what the program says of it has to agree."""
    if line.done is not None:
        return line.done
    if not line.how.startswith("= "):
        line.done = line.value
        for inner in line.parts:
            work_out(inner, name)
        return line.done
    values = {}
    for inner in line.parts:
        if inner.symbol in values and abs(values[inner.symbol] - work_out(inner, name)) > 0:
            fault(f"{name}: line {line.path} has two symbols {inner.symbol}")
        values[inner.symbol] = work_out(inner, name)
    formula = line.how[2:]
    size = max([abs(v) for v in values.values()], default=0)

    def by_formula(values):
        if formula == "sum":
            return math.fsum(values[inner.symbol] for inner in line.parts)
        return evaluate(parse(formula), values, line.unit, line.value)

    try:
        worth = by_formula(values)
        # What cancels out below is zero but for the last digits of what it is the difference of.
        if abs(worth - line.value) < CANCELLED and near(by_formula({p.symbol: p.value for p in line.parts}), line.value, size):
            worth = line.value
        if formula != "sum":
            unused = {inner.symbol for inner in line.parts} - set(re.findall(r"[A-Za-z]\w*", formula))
            if unused:
                fault(f"{name}: line {line.path}: {unused} are not in '{formula}'")
    except (KeyError, ValueError, ZeroDivisionError, TypeError) as problem:
        fault(f"{name}: line {line.path}: '{formula}' of {values}: {problem!r}")
        worth = line.value
    if formula == "sum" and len(values) != len(line.parts):
        fault(f"{name}: line {line.path}: parts with the same symbol")
    if not near(worth, line.value, size):
        fault(f"{name}: line {line.path} '{line.label}' is {line.value}, but '{formula}' of {values} is {worth}")
    line.done = worth
    return worth


# ------------------------------------------------------------------- all figures
def figures(sheet):
    """The figures of a sheet as they are printed, in order."""
    return [cell for row in sheet.json["rows"] for cell in row.get("cells", [])
            if cell["kind"] in ("money", "number")]


def check_sheet(question, plan, told_all, *options):
    printed = figures(Sheet(question, plan, *options))
    roots, lines = read(question, plan, *options)
    name = f"{question} {plan}"
    if len(printed) != len(roots):
        fault(f"{name}: {len(roots)} figures explained of {len(printed)}")
    untold = 0
    for cell, root in list(zip(printed, roots))[::STEP]:
        if root.how == "not told":
            untold += 1
            if told_all:
                fault(f"{name}: where {root.label} comes from is not told")
            continue
        worth = work_out(root, f"{name} {root.label}")
        if cell["kind"] == "money":
            unit = root.unit or 10.0 ** -len(str(cell["value"]).partition(".")[2])
            if round(worth / unit) != round(float(cell["value"]) / unit):
                fault(f"{name}: {root.label} is {cell['value']}, worked out {worth}")
        elif not near(worth, float(cell["value"]), 1):
            fault(f"{name}: {root.label} is {cell['value']}, worked out {worth}")
    return lines


# ------------------------------------------------------------------- files and lines
PLACE = re.compile(r"^(.*\.ini):(\d+): ([\w.-]+) = (.*)$")


def other(text):
    """The same text with a number changed a little, in as many decimals: the likely one of a range, else the first."""
    m = re.search(r"(?<=likely )\d+(\.\d+)?", text) or re.search(r"\d+(\.\d+)?", text)
    if not m:
        return None
    decimals = len(m.group().partition(".")[2])
    return text[:m.start()] + f"{float(m.group()) * 1.02 + 10.0 ** -decimals:.{decimals}f}" + text[m.end():]


def check_places(question, plan, lines):
    """A leaf says FILE:LINE: KEY = TEXT: that line says so; changed there, the leaf changes."""
    leaves = {}
    for line in lines.values():
        m = PLACE.match(line.how)
        if m and not line.parts:
            leaves.setdefault((m.group(1), int(m.group(2))), []).append((line, m.group(3), m.group(4)))
    if len(leaves) < 10:
        fault(f"{question} {plan}: only {len(leaves)} lines of files named")
    texts = {}
    for (file, number), found in leaves.items():
        if file not in texts:
            with open(file, encoding="utf-8") as f:
                texts[file] = f.read().split("\n")
        key, _, value = texts[file][number - 1].partition("=")
        for line, name, text in found:
            if key.strip().lower() != name or text not in value:
                fault(f"{file}:{number} is '{texts[file][number - 1]}', not '{name} = {text}'")
    for (file, number), found in sorted(leaves.items())[::9 * STEP]:
        line, name, text = found[0]
        changed = other(text)
        if changed is None:
            continue
        folder = os.path.join(SCRATCH, "changed")
        shutil.rmtree(folder, ignore_errors=True)
        profiles_with("changed", [])
        copy = os.path.join(folder, os.path.relpath(file, "profiles"))
        lines_then = list(texts[file])
        lines_then[number - 1] = lines_then[number - 1].replace(text, changed)
        with open(copy, "w", encoding="utf-8") as f:
            f.write("\n".join(lines_then))
        figure = lines[line.path.split(".")[0]].label
        _, now = read(question, plan, figure, profiles=folder)
        said = f"{copy}:{number}: {name} = {changed}"
        if not any(new.how.startswith(said) and new.value != line.value for new in now.values()):
            fault(f"{file}:{number}: '{name} = {changed}' there does not change what '{line.label}' says")


def check_many():
    """Of more tanks than are opened at once each figure says what opens it, and that command does."""
    tank = "[tank copy-%d]\nlength = 24 in\nwidth = 12 in\nheight = %.2f in\nnominal = 20 gal\nprice = 30.00 USD\n\n"
    folder = profiles_with("many", [], {"tanks/copies.ini": "".join(tank % (i, 17 + i / 100) for i in range(75))})
    roots, _ = read("shortlist", "start", profiles=folder)
    named = [root for root in roots if "tankcost explain " in root.how]
    if not 6 * 10 <= len(named) < len(roots) - 6 * 50:
        fault(f"{len(named)} figures of a long list say what opens them, of {len(roots)}")
    for root in named[::len(named) // 2 + 1]:
        opened, _ = read(*shlex.split(root.how.partition("tankcost explain ")[2]), profiles=folder)
        if len(opened) != 1 or opened[0].value != root.value or not opened[0].parts:
            fault(f"`{root.how}` does not open {root.label}, {root.value}")
        else:
            work_out(opened[0], root.label)


def check_upkeep(question, plan, *options):
    """The hours a year are told as a range about a sum (UPKEEP TIME); the sum has a derivation of its own."""
    sheet = Sheet(question, plan, *options)
    row = next(row for row in sheet.json["rows"] if row["label"] == "upkeep, hours a year")
    for column, cell in zip(sheet.json["columns"], row["cells"]):
        roots, _ = read(question, plan, f"{column['head'] if column['head'].isascii() else column['about']}/upkeep, hours a year", *options)
        hours = work_out(roots[0], f"{question} {plan} upkeep")
        if cell["value"] != f"{0.6 * hours:.0f} to {1.6 * hours:.0f}":
            fault(f"{question} {plan}: upkeep of {column['head']} is {cell['value']}, worked out {hours}")


DEMO = [
    ("bill", "start", True),
    ("energy", "start", True),
    ("energy", "new-wall", True),
    ("fit", "start", True, "--why", "--set", "setup/territory=150 in2", "--set", "setup/water-each=2 gal"),
    ("sale", "start", True),
    ("list", "start", True),
    ("years", "start", True),
    ("years", "three-places", True),
    ("doubts", "start", True, "--draws", "2042"),
    ("whatif", "start", True),
    ("places", "three-places", True),
    ("places", "start", True, "--money", "EUR", "--set", "plan/hour-worth=12"),
    ("shortlist", "start", True),
    ("bill", "three-places", True),
    ("bill", "new-wall", True),
    ("bill", "new-wall", True, "--walls", "--set", "plan/hour-worth=9"),
    ("years", "new-wall", True, "--walls"),
    ("list", "new-wall", True, "--set", "wall/monthly=300", "--set", "wall/months=6", "--set", "plan/shop=several"),
    ("wall", "new-wall", True, "--set", "wall/length=8 ft"),
    ("wall", "new-wall", True, "--set", "wall/length=8 ft", "--set", "wall/room-loss=estimate", "--set", "wall/room-length=14 ft",
     "--set", "wall/room-width=12 ft", "--set", "wall/room-outside=26 ft", "--set", "wall/room-windows=20 ft2",
     "--set", "wall/vapor-price=0.15 / L", "--set", "region/room-cool-price=0.09 / kWh", "--set", "region/cooled-months=6 7 8",
     "--set", "wall/gap=1 in", "--set", "wall/bay=none"),
    ("bill", "new-wall", True, "--walls", "--set", "wall/length=8 ft", "--set", "setup/ppfd=low", "--set", "wall/timer-price=12",
     "--set", "wall/room-heater-price=200", "--set", "wall/room-heater-efficiency=300 %", "--set", "shop lowmere-shop/delivery-free-from=9000",
     "--set", "candidate 1/heater-life=2 years", "--set", "plan/discount=0 %"),
    ("bill", "three-places", True, "--region", "mizune"),
    ("bill", "start", True, "--set", "candidate 1/price=40", "--set", "candidate 2/quantity=3",
     "--set", "candidate 2/sale=starter-box", "--set", "candidate 3/sale=order", "--set", "candidate 1/life=3 years",
     "--set", "candidate 1/filter=unnamed", "--set", "candidate 1/filter-price=33", "--set", "plan/count-room-heat=yes",
     "--set", "candidate 3/heater-life=1 year", "--set", "candidate 3/heater-next-price=17", "--set", "region/tax=included"),
    ("bill", "start", True, "--set", "region/fresh-water=cold", "--set", "region/electricity=0.2 / kWh",
     "--set", "region/warm-water-price=0.1 / kWh", "--set", "plan/discount=0 %", "--units", "metric"),
    ("bill", "start", True, "--set", "region/warm-water-price=0.1 / kWh", "--set", "setup/substrate-depth=none",
     "--set", "plan/hour-worth=12"),
    ("years", "start", True, "--set", "plan/hour-worth=12"),
    ("list", "start", True, "--set", "plan/shop=several", "--set", "candidate 2/quantity=3", "--set", "candidate 3/sale=order",
     "--set", "plan/pick-up=yes", "--set", "shop lowmere-shop/pick-up=4", "--set", "candidate 1/price=40",
     "--set", "candidate 1/light-shop=lowmere-shop", "--set", "candidate 2/sale=starter-box"),
    ("bill", "start", True, "--set", "candidate 3/shop=lowmere-web", "--set", "candidate 3/sale=list",
     "--set", "candidate 1/heater-shop=lowmere-web", "--set", "shop lowmere-web/delivery-free-from=9000"),
]

for question, plan, told_all, *options in DEMO[::STEP]:
    lines = check_sheet(question, plan, told_all, *options)
    if (question, plan, *options) == ("bill", "start"):
        check_places(question, plan, lines)
if STEP == 1:
    check_many()
check_upkeep("fit", "start")
check_upkeep("bill", "start")
check_upkeep("bill", "new-wall", "--walls")
check_upkeep("fit", "start", "--set", "candidate 1/height=40 in", "--set", "candidate 2/quantity=3")
finish()
