# SPDX-License-Identifier: MIT
"""Crossings against the printed table; the measures of NIST Handbook 135 against their definitions."""
import re
from decimal import Decimal

from tankcost import Sheet, fault, finish

TABLES = {"as paid": "Paid by the end", "in today's money": "The same in today"}


def crossings(a, b):
    """From the end of which years on the other of two has cost less so far; ties keep the lead."""
    found, lead = [], 0
    for year, (x, y) in enumerate(zip(a, b)):
        side = (x > y) - (x < y)
        if side != 0:
            if lead != 0 and side != lead:
                found.append((year, side < 0))
            lead = side
    return found


def check_crossings(*words):
    """What the notes tell is what the table shows. Returns how many crossings there were."""
    sheet = Sheet("years", *words)
    years = max(int(row["label"]) for row in sheet.group("Paid by the end") if row["label"].isdigit())
    wanted = set()
    for how, table in TABLES.items():
        course = [[sheet.value(table, str(year) if year else "to buy", column) for year in range(years + 1)]
                  for column in range(len(sheet.columns))]
        for a, first in enumerate(sheet.columns):
            for b in range(a + 1, len(sheet.columns)):
                for year, lower in crossings(course[a], course[b]):
                    pair = (first, sheet.columns[b])
                    wanted.add((year, *(pair if lower else pair[::-1]), how))
    said = set()
    for note in sheet.notes("finding") + sheet.notes("remark"):
        found = re.match(r"From the end of year (\d+) on, (.+) has cost less so far than (.+), "
                         r"(as paid and in today's money|as paid|in today's money)\.$", note)
        if found:
            for how in TABLES:
                if how in found[4]:
                    said.add((int(found[1]), found[2], found[3], how))
    if said != wanted:
        fault(f"{' '.join(map(str, words))}: crossings told {sorted(said)}, in the table {sorted(wanted)}")
    return len(wanted)


def check_measures(years, *words):
    """Ratio, return and payback as NIST Handbook 135 (1995), 6.2 to 6.5 defines them, or why there is none."""
    sheet = Sheet("years", *words)
    discount = Decimal("0.03")
    rows = {row["label"]: row["cells"] for row in sheet.group("Against")}
    reasons = set()
    for column, head in enumerate(sheet.columns):
        where = f"{' '.join(map(str, words))}, {head}"
        extra, saved, net = (rows[label][column] for label in (
            "extra investment, present value", "saved in running it, present value", "net saving"))
        if net["kind"] != "money":
            continue
        ratio, adjusted, simple, discounted = (rows[label][column] for label in (
            "saving-to-investment ratio", "adjusted internal rate of return", "simple payback",
            "discounted payback"))
        if ratio["kind"] == "text":
            reasons.add(ratio["value"])
            if (saved["value"] > 0 and "no saving" in ratio["value"]) or (
                    extra["value"] > 0 and "no extra" in ratio["value"]):
                fault(f"{where}: {ratio['value']}, with {extra['value']} more and {saved['value']} saved")
            continue
        reasons.add("a ratio")
        sir = saved["value"] / extra["value"]
        slack = Decimal("0.02") / extra["value"] * (1 + sir)  # both are printed to the cent
        if abs(ratio["value"] - sir) > slack:
            fault(f"{where}: the ratio is {ratio['value']}, not {sir}")
        wanted = 100 * ((1 + discount) * ratio["value"] ** (1 / Decimal(years)) - 1)
        if abs(adjusted["value"] - wanted) > Decimal("1e-6"):
            fault(f"{where}: the return is {adjusted['value']} %, not {wanted}")
        if simple["kind"] == discounted["kind"] == "number" and discounted["value"] < simple["value"]:
            fault(f"{where}: paid back in {simple['value']} years, discounted in {discounted['value']}")
    return reasons


def check_steps():
    """The lines step where something is replaced, and only there is more spent than in a year with none."""
    sheet = Sheet("years", "start", "--set", "region/electricity-escalation=0 %",
                  "--set", "region/water-escalation=0 %")
    for row in sheet.group("What is replaced"):
        column = sheet.columns.index(row["label"])
        told = {int(float(number)) for number in re.findall(r"\d+(?:\.\d+)?", row["text"])}
        table = "Paid by the end"
        course = [sheet.value(table, str(year) if year else "to buy", column) for year in range(11)]
        spent = [after - before for before, after in zip(course, course[1:])]
        plain = min(spent)
        steps = {year for year, cost in enumerate(spent, 1) if cost > plain + 1}
        if not told or steps != told:
            fault(f"{row['label']}: replaced in {sorted(told)}, but the steps are in {sorted(steps)}")
    chart = sheet.json["charts"][2]
    for column, series in enumerate(chart["series"]):
        table = [sheet.value("Paid by the end", str(year) if year else "to buy", column) for year in range(11)]
        if any(abs(a - b) > Decimal("0.006") for a, b in zip(series["values"], table)):
            fault(f"{series['name']}: the chart's line is not the table's")
    # The second one is what lies between each line and that of the cheapest to own.
    totals = [sheet.value("The same in today", "present value", column) for column in range(len(sheet.columns))]
    base = totals.index(min(totals))
    apart = sheet.json["charts"][1]
    if sheet.columns[base] not in apart["title"] or any(apart["series"][base]["values"]):
        fault(f"{apart['title']}: but {sheet.columns[base]} is the cheapest to own")
    for column, series in enumerate(apart["series"]):
        table = [sheet.value("The same in today", str(year) if year else "to buy", column) -
                 sheet.value("The same in today", str(year) if year else "to buy", base) for year in range(11)]
        if any(abs(a - b) > Decimal("0.011") for a, b in zip(series["values"], table, strict=True)):
            fault(f"{series['name']}: the line of differences is not the table's")


count = 0
for price in (40, 50, 60, 70):
    count += check_crossings("start", "--tank", "15-high", "--tank", f"20-long={price}", "--tank", "20-high",
                             "--tank", "29-high", "--tank", "33-long", "--setup", "shrimp-shelf")
count += check_crossings("three-places")
count += check_crossings("new-wall")
if count < 4:
    fault(f"only {count} crossings were tried")
reasons = check_measures(10, "three-places") | check_measures(10, "start") | check_measures(
    20, "start", "--years", 20, "--setup", "breeding-plain")
reasons |= check_measures(10, "start", "--tank", "29-high=60", "--tank", "29-high=60")
reasons |= check_measures(10, "start", "--tank", "20-high", "--tank", "20-high=33", "--set",
                          "candidate 2/lid=none")
if not {"a ratio", "no extra investment", "no saving in running costs"} <= reasons:
    fault(f"of ratios and the reasons why there is none only {reasons} were seen")
check_steps()
finish()
