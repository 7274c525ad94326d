# SPDX-License-Identifier: MIT
"""The sheets doubts and whatif: one uniform price has a closed form; a crossing has a bill on each side."""
import math
import os
import re
from decimal import Decimal

from tankcost import SCRATCH, STEP, Sheet, fault, finish, run

PRESENT = "Over the period, in today"
LOW, HIGH = 140, 190
PLAN = f"""[plan alone]
title = One guess alone
setup = breeding-plain
region = lowmere
sale = list
years = 10 years

[assume setup]
heat-loss = 100 %

[assume region]
room-offset = 0 K

[candidate 1]
tank = 10-gal
price = {LOW} to {HIGH}

[candidate 2]
tank = 15-high
price = 26
"""


def values(*words):
    bill = Sheet("bill", *words)
    return [float(bill.value(PRESENT, "present value", column)) for column in range(len(bill.columns))]


def near(what, said, wanted, slack):
    if not abs(float(said) - wanted) <= slack:
        fault(f"{what}: {said}, not {wanted:.4f} within {slack:.4f}")


def check_resale():
    """A typed resale that is a range moves a candidate as far as two bills with its ends do."""
    for path in ("candidate 1/resale", "candidate 1/stand-resale"):
        ends = [values("start", "--sale", "list", "--set", f"{path}={share} %")[0] for share in (10, 90)]
        sheet = Sheet("doubts", "start", "--sale", "list", "--draws", 5000, "--set",
                      f"{path}=10 to 90 %")
        low, high = (float(sheet.value("Present value", label, 0))
                     for label in ("likely range: from", "likely range: to (8 in 10)"))
        # Other figures of the demonstration are ranges too; they only widen it.
        if high - low < 0.8 * (ends[0] - ends[1]):
            fault(f"{path}: {low} to {high} on the sheet, {ends[1]} to {ends[0]} by two bills")


def check_closed_form():
    """
    The price P of one tank is uniform from a to b, so what it costs to own is P times a slope plus a
    constant, and with P* where both cost the same: chance (P* - a)/(b - a), regret slope (b - P*)^2 / 2(b - a).
    """
    path = os.path.join(SCRATCH, "alone.ini")
    with open(path, "w", encoding="utf-8") as file:
        file.write(PLAN)
    (low, other), (high, _) = (values(path, "--set", f"candidate 1/price={price}") for price in (LOW, HIGH))
    slope = (high - low) / (HIGH - LOW)
    # The draws are of costs without the bill's rounding, which at the middle is seen on the sheet.
    middle = Sheet("doubts", path, "--draws", 100)
    unrounded = [float(middle.value("Present value", "at the middle figures", column)) for column in (0, 1)]
    for column, value in enumerate(((low + high) / 2, other)):
        near("at the middle figures", unrounded[column], value, 0.5)
    turn = (LOW + HIGH) / 2 + (unrounded[1] - unrounded[0]) / slope
    low, high = (unrounded[0] + side * slope * (HIGH - LOW) / 2 for side in (-1, 1))
    if not LOW + 5 < turn < HIGH - 5:
        fault(f"the prices turn at {turn}: nothing to test")
    draws = 20000 if STEP == 1 else 2000
    for seed in (0, 7):
        sheet = Sheet("doubts", path, "--draws", draws, "--seed", seed, "--threads", 2)
        ranges = sheet.group("Which guess")
        if len(ranges) != 1:
            fault(f"the ranges are {ranges}")
        chance = (turn - LOW) / (HIGH - LOW)
        said, error = (float(sheet.value("Chance", label, 0)) for label in ("chance", "its standard error"))
        # Draws from shifted lattices know the chance better than independent ones would.
        if not 0 <= error <= 100 * math.sqrt(chance * (1 - chance) / draws) * 1.05:
            fault(f"its standard error is {error} %")
        near("chance", said, 100 * chance, 4 * error + 0.01)
        near("chance of the other", sheet.value("Chance", "chance", 1), 100 * (1 - chance), 4 * error + 0.01)
        spread = slope * (HIGH - LOW)
        near("mean", sheet.value("Present value", "mean of the draws", 0), (low + high) / 2,
             4 * spread / math.sqrt(12 * draws) + 0.1)
        for label, share in (("likely range: from", 0.1), ("half are below", 0.5),
                             ("likely range: to (8 in 10)", 0.9)):
            near(label, sheet.value("Present value", label, 0), low + share * spread,
                 4 * spread * math.sqrt(share * (1 - share) / draws) + 0.1)
        regrets = [slope * (HIGH - turn) ** 2 / 2 / (HIGH - LOW), slope * (turn - LOW) ** 2 / 2 / (HIGH - LOW)]
        for column, regret in enumerate(regrets):
            near("regret", sheet.value("Present value", "a wrong choice costs, on average", column), regret,
                 4 * spread / math.sqrt(draws))
        found = re.search(r"(above|below) ([\d.]+), (\S+) wins", ranges[0]["text"])
        if not found:
            fault(f"the turn is not told: {ranges[0]['text']}")
        else:
            near("the turn", found[2], turn, 0.055)
        # Where one figure is all that is in doubt, knowing it saves what the better choice is regretted by.
        found = re.search(r"knowing it is worth ([\d.]+) ", ranges[0]["text"])
        near("the worth of knowing", found[1] if found else 0, min(regrets), 4 * spread / math.sqrt(draws) + 0.1)


def check_hours():
    """
    Where an hour counts, how long a keeper takes is a range: a triangle of 0.6, 1 and 1.6 times the hours of
    all tanks. Its first and last tenth end at 0.8 and 1.6 - sqrt(0.06) (NIST/SEMATECH e-Handbook: the inverse
    of its distribution), on bill and doubts; where no hour counts there is none.
    """
    path = os.path.join(SCRATCH, "hours.ini")
    with open(path, "w", encoding="utf-8") as file:
        file.write(PLAN.replace(f"{LOW} to {HIGH}", str(LOW)))
    worth = ("--set", "plan/hour-worth=15")
    bill, sheet = Sheet("bill", path, *worth), Sheet("doubts", path, "--draws", 4000, *worth)
    ranges = [sentence["label"] for sentence in sheet.group("Which guess")]
    if ranges != ["upkeep hours"]:
        fault(f"the ranges are {ranges}")
    for column in (0, 1):
        cost, time = (float(bill.value(PRESENT, label, column)) for label in ("present value", "your time"))
        for label, share in (("likely range: from", 0.8), ("to (8 in 10)", 1.6 - math.sqrt(0.06))):
            wanted = cost + (share - 1) * time
            near(f"hours, bill, {label}", bill.value(PRESENT, "  " + label, column), wanted, 0.01 * time)
            near(f"hours, doubts, {label}",
                 sheet.value("Present value", label if "from" in label else "likely range: " + label, column),
                 wanted, 0.02 * time)
    if "upkeep" in run("doubts", path, "--draws", 100).stdout:
        fault("hours that count for nothing are in doubt")


def check_repeats():
    """The same seed gives the same bytes on any number of threads; another seed does not."""
    once = run("doubts", "start", "--draws", 3000, "--seed", 5, "--threads", 1, "--format", "csv").stdout
    for threads in (2, 3):
        again = run("doubts", "start", "--draws", 3000, "--seed", 5, "--threads", threads, "--format", "csv")
        if again.stdout != once:
            fault(f"{threads} threads give another answer than one")
    if run("doubts", "start", "--draws", 3000, "--seed", 6, "--threads", 2, "--format", "csv").stdout == once:
        fault("another seed gives the same draws")
    none = Sheet("doubts", "start", "--setup", "breeding-plain", "--tank", "10-gal", "--set",
                 "region/electricity-escalation=1 %", "--set", "setup/water-change=35 %",
                 "--set", "setup/heat-loss=100 %", "--set", "region/room-offset=0 K")
    if not any("No figure that matters here is a range" in note for note in none.notes()):
        fault(f"nothing is said where there is not a range: {none.notes()}")


def winner(path, figure, *words):
    costs = values(*words, "--set", f"{path}={figure}")
    return costs.index(min(costs))


def check_whatif():
    """One unit in the last place below a crossing the one, above it the other has the lower bill."""
    told = 0
    for path, span, words in (("setup/water-change", "10..60 %", ["start"]),
                              ("region/room", "60..74 F", ["start"]),
                              ("region/electricity", "0.05..0.6 / kWh", ["start"]),
                              ("candidate 1/price", "20..60", ["start"]),
                              ("candidate 2/price", "20..60", ["start"])):
        sheet = Sheet("whatif", *words, "--vary", f"{path}={span}")
        for note in sheet.notes("finding"):
            found = re.match(r"Above ([\d.]+)( [^,]+)?, (.+) is the cheapest to own; below that, (.+)\.$", note)
            if not found:
                fault(f"{path}: {note}")
                continue
            told += 1
            at, unit = Decimal(found[1]), found[2] or ""
            step = Decimal(10) ** at.as_tuple().exponent
            for figure, name in ((at + step, found[3]), (at - step, found[4])):
                costs = values(*words, "--set", f"{path}={figure}{unit}")
                # Rounded lines carry near ties to and fro by some cents.
                if costs[sheet.columns.index(name)] > min(costs) + 0.5:
                    fault(f"{path} = {figure}{unit}: {name} does not cost least")
        for row in sheet.groups[0][1][::7]:
            costs = values(*words, "--set", f"{path}={row['label']}")
            if [float(cell["value"]) for cell in row["cells"]] != costs:
                fault(f"{path} = {row['label']}: bills are {costs}")
    if told < 5:
        fault(f"only {told} crossings were told")
    # In whole figures: from this year on.
    sheet = Sheet("whatif", "three-places", "--vary", "years=1..12")
    for note in sheet.notes("finding"):
        found = re.match(r"From (\d+) years, (\S+) is the cheapest to own; below that, (\S+)\.$", note)
        if found:
            for years, name in ((int(found[1]), found[2]), (int(found[1]) - 1, found[3])):
                best = sheet.columns[winner("plan/years", f"{years} years", "three-places")]
                if best != name:
                    fault(f"{years} years: {best} costs least, not {name}")
        elif "over the whole range" not in note:
            fault(f"years: {note}")
    rows = [row["label"] for row in sheet.groups[0][1]]
    if rows != ["1 year"] + [f"{year} years" for year in range(2, 13)]:
        fault(f"the years are {rows}")


def check_deal():
    """The middle of the figures is the bill, in every way to buy, fees of special orders and limits included."""
    plans = (["start"], ["start", "--tank", "33-long=100", "--tank", "29-high"],
             ["start", "--tank", "33-long", "--tank", "29-high"])
    ways = [(*words, "--sale", sale, "--set", f"candidate 1/quantity={quantity}") for words in plans
            for sale in ("list", "order", "best", "tank-fair", "starter-box") for quantity in (1, 4)]
    for with_all in ways[::STEP]:
        bill = Sheet("bill", *with_all)
        cool = ("--set", "setup/cooling=own")  # who does not suit is left out of the draws
        doubts = Sheet("doubts", *with_all, *cool, "--draws", 1000)
        for column, name in enumerate(bill.columns):
            own = bill.value("Over the period, in today's money", "present value", column)
            middle = doubts.value("Present value", "at the middle figures", column)
            if middle is None or abs(own - middle) > Decimal("0.50"):
                fault(f"{' '.join(with_all)}: {name} costs {own} on the bill, {middle} at the middle")


def check_refusals():
    for vary, words in (("rom=1..2 C", "did you mean 'room'"), ("room", "say what to vary"),
                        ("room=16-24 C", "is not a range"), ("room=24..16 C", "does not rise"),
                        ("room=16..24", "has no unit"), ("room=a..b C", "is not a range"),
                        ("years=1.2..1.9 years", "fewer than two whole figures"),
                        ("years=1..500", "out of range"), ("candidate 9/price=1..2", "nothing of a plan"),
                        ("setup/temperature=20..35 C", "warm-limit"), ("x" * 200 + "=1..2", "too long")):
        done = run("whatif", "start", "--vary", vary, status=2)
        if words not in done.stderr or done.stdout:
            fault(f"--vary {vary}: {done.stderr!r}")


check_resale()
check_closed_form()
check_hours()
check_repeats()
check_whatif()
check_deal()
check_refusals()
finish()
