# SPDX-License-Identifier: MIT
"""A candidate with a setup of its own is what it is in a plan of that setup."""
import os
import re
from decimal import Decimal

from tankcost import SCRATCH, Sheet, fault, finish, run

SETUPS = ("planted-display", "breeding-plain", "rock-lake")
SHEETS = ("bill", "years", "energy", "fit")
NOTHING = (None, 0, "–")  # a line that only other columns have something in

# A plan that types nothing over.
PLAN = os.path.join(SCRATCH, "plain.ini")
with open(PLAN, "w", encoding="utf-8") as file:
    file.write("[plan plain]\nsetup = planted-display\nregion = lowmere\nsale = list\nunits = us\n")


def column(sheet, head):
    """The figures of one column, by group and label."""
    at = [i for i, each in enumerate(sheet.json["columns"]) if each["head"] == head]
    group, found = "", {}
    for row in sheet.json["rows"]:
        if row["kind"] == "group":
            group = "setup" if "setup" in row["label"] else row["label"]
        elif row["kind"] != "sentence" and row["label"] not in ("setup", "suits the animals"):
            for i in at:
                cell = row["cells"][i]
                found[group.replace(head, ""), row["label"], i - at[0]] = (cell["kind"], cell["value"])
    return found


def same(name, own, plan):
    """The figures of a column, but for what compares it with others, and its band, which has other draws."""
    if not own or not plan:
        fault(f"{name}: a column is missing")
    for key in own:
        wanted = plan.get(key, ("empty", None))
        compares = "more than the cheapest" in key[1] or "likely range" in key[1] or "(8 in 10)" in key[1] or key[0].startswith("Against")
        if compares or own[key][1] in NOTHING and wanted[1] in NOTHING:
            continue
        if own[key] != wanted:
            fault(f"{name}: {key} is {own[key]}, in a plan of that setup {wanted}")


plans = {}
for setup in SETUPS:
    for sheet in SHEETS:
        plans[setup, sheet] = column(Sheet(sheet, PLAN, "--setup", setup, "--tank", "20-long",
                                           "--tank", "20-high"), "20-long")
for plan in SETUPS:
    for own in SETUPS:
        if own == plan:
            continue
        for sheet in SHEETS:
            mixed = Sheet(sheet, PLAN, "--setup", plan, "--tank", "20-high", "--tank", "20-long",
                          "--set", f"candidate 2/setup={own}")
            same(f"{sheet} of {own} in a plan of {plan}", column(mixed, f"20-long ({own})"), plans[own, sheet])

# The same tank twice, under two setups, side by side; the plan's name for its own changes nothing.
beside = Sheet("bill", PLAN, "--setup", SETUPS[0], "--tank", "20-long", "--tank", "20-long",
               "--set", f"candidate 1/setup={SETUPS[0]}", "--set", f"candidate 2/setup={SETUPS[1]}")
same("side by side", column(beside, "20-long"), plans[SETUPS[0], "bill"])
same("side by side", column(beside, f"20-long ({SETUPS[1]})"), plans[SETUPS[1], "bill"])

# What is typed over the plan's setup is its alone.
typed = Sheet("bill", PLAN, "--setup", SETUPS[0], "--set", "setup/light-hours=12 h", "--tank", "20-long",
              "--tank", "20-long", "--set", f"candidate 2/setup={SETUPS[1]}")
same("beside one typed over", column(typed, f"20-long ({SETUPS[1]})"), plans[SETUPS[1], "bill"])
if column(typed, "20-long") == plans[SETUPS[0], "bill"]:
    fault("what is typed over the plan's setup does not count")

# "Other choices" is what the choice itself would cost.
for label, setup, typed in (("hang-on filters", "planted-display", "setup/filter=hang-on"),
                            ("sponge filters", "planted-display", "setup/filter=sponge"),
                            ("no lid", "planted-display", "setup/lid=open"),
                            ("no light", "rock-lake", "setup/ppfd=none")):
    words = (PLAN, "--setup", setup, "--tank", "20-long=40", "--tank", "29-high=60")
    asis, other, fit = Sheet("bill", *words), Sheet("bill", *words, "--set", typed), Sheet("fit", *words)
    for head in ("20-long", "29-high"):
        total = lambda sheet: [value for key, value in column(sheet, head).items() if key[1] == "present value"][0][1]
        told = [value for key, value in column(fit, head).items() if key[1] == label][0]
        if told[0] == "money" and told[1] != total(other) - total(asis):
            fault(f"fit says {label} would add {told[1]} to {head}, bills say {total(other) - total(asis)}")

done = run("bill", PLAN, "--tank", "20-long", "--set", "candidate 1/setup=planted-dsplay", status=1)
if "no setup 'planted-dsplay'; did you mean 'planted-display'?" not in done.stderr:
    fault(f"an unknown setup: {done.stderr}")

# What is typed over one setup does not pass to another, and that is said.
other = ("start", "--setup", "breeding-plain", "--tank", "20-long")
if Sheet("bill", *other).json["rows"] != Sheet("bill", *other, "--set", "setup/water-change=").json["rows"]:
    fault("what is typed over planted-display counts for breeding-plain")
if "typed for setup planted-display and left out with breeding-plain: 1" not in run("bill", *other).stderr:
    fault(f"nothing is said of what is left out: {run('bill', *other).stderr}")
once = run("bill", "start", "--set", "setup/water-change=30 %", "--setup", "breeding-plain")
if once.stdout != run("bill", "start", "--setup", "breeding-plain", "--set", "setup/water-change=30 %").stdout:
    fault("it matters where --setup stands")

# What misses a rule of thumb by little would save what a bill with it pinned says.
told = 0
for tanks, setup in ((("29-high", "40-breeder", "10-gal"), "breeding-plain"), (("29-high", "75-standard"), "rock-lake")):
    words = ["start", "--setup", setup] + [word for tank in tanks for word in ("--tank", tank)]
    asis, at = Sheet("bill", *words), -1
    kind = ""
    for row in Sheet("fit", *words, "--why").json["rows"]:
        if row["kind"] == "group":
            at += row["label"].startswith("Why: ")
        elif row["label"].strip() == "nearly":
            found = re.match(r"(?:(\d+) × )?(\S+) is just short .* would save ([\d ]+\.\d+) ", row["text"])
            path = f"candidate {at + 1}/{kind}"
            pinned = Sheet("bill", *words, "--set", f"{path}={found[2]}", "--set", f"{path}-count={found[1] or 1}")
            saved = [bill.value("Over the period, in today", "present value", at) for bill in (asis, pinned)]
            if saved[0] - saved[1] != Decimal(found[3].replace(" ", "")):
                fault(f"{row['text']}: bills say {saved[0] - saved[1]}")
            told += 1
        elif row["kind"] == "sentence" and row["label"].strip() != "refused":
            kind = row["label"].strip()
if told < 2:
    fault(f"{told} near misses were told")
finish()
