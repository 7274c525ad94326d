# SPDX-License-Identifier: MIT
"""Adds up all that is printed of all tanks x setups x regions of the demo."""
from decimal import Decimal

from tankcost import STEP, Sheet, amount, fault, finish, stock

REGIONS = ("lowmere", "vintersund", "mizune")
YEARS = 7


def add_up(where, rows, column, total):
    """The lines above a group's sum add up to it."""
    sums = [row for row in rows if row["kind"] == total]
    if len(sums) != 1:
        fault(f"{where}: {len(sums)} sums")
        return
    lines = [row for row in rows[:rows.index(sums[0])] if row["kind"] == "line"]
    said = amount(sums[0]["cells"][column])
    if sum(amount(row["cells"][column]) for row in lines) != said:
        fault(f"{where}: the lines do not add up to {said}")


def check_bill(where, bill):
    for column, head in enumerate(bill.columns):
        here = f"{where}, {head}"
        for heading in ("To buy", "Each year", "Over the period, as paid", "Over the period, in today"):
            add_up(f"{here}: {heading}", bill.group(heading), column, "subtotal")
        bought = bill.value("To buy", "to buy", column)
        for heading in ("Over the period, as paid", "Over the period, in today"):
            if bill.value(heading, "bought at the start", column) != bought:
                fault(f"{here}: {heading}: not what it costs to buy")
        # A slot that nothing fits, or a tank without a price, is never left out quietly.
        lacks = any(row["cells"][column]["kind"] == "missing" for row in bill.group("To buy"))
        marked = "incomplete" in bill.row("To buy", "to buy")["cells"][column].get("marks", [])
        if lacks != marked:
            fault(f"{here}: missing lines {lacks}, marked incomplete {marked}")


def close(a, b):
    return abs(a - b) <= Decimal("1e-9") * max(abs(a), abs(b), 1)


def check_bars(where, bill):
    """The bars of the bill are the lines of its last sum; the range is the one that the table says."""
    period = "Over the period, in today"
    chart = bill.json["charts"][0]
    lacks = ["incomplete" in cell.get("marks", []) for cell in bill.row(period, "present value")["cells"]]
    if chart["x_labels"] != [head + ", incomplete" * lack for head, lack in zip(bill.columns, lacks)]:
        fault(f"{where}: the bars are of {chart['x_labels']}")
    parts = chart["series"][:-2] if chart["band"] else chart["series"]
    ends = chart["series"][-2:] if chart["band"] else []
    rows = [row for row in bill.group(period) if row["kind"] == "line"][:len(parts)]
    for column, head in enumerate(bill.columns):
        for part, row in zip(parts, rows, strict=True):
            if part["name"] != row["label"] or not close(part["values"][column], amount(row["cells"][column])):
                fault(f"{where}, {head}: the bar has {part['name']} {part['values'][column]}, the table {row}")
        total = sum(part["values"][column] for part in parts)
        if not close(total, bill.value(period, "present value", column)):
            fault(f"{where}, {head}: the bar is {total} long")
        for end, label in zip(ends, ("  likely range: from", "  to (8 in 10)")):
            said = [row["cells"][column] for row in bill.group(period) if row["label"].strip() == label.strip()]
            if not said or (end["values"][column] is not None) != (said[0]["kind"] == "money"):
                fault(f"{where}, {head}: {end} but {said}")
            elif said[0]["kind"] == "money" and not close(end["values"][column], said[0]["value"]):
                fault(f"{where}, {head}: {end} but {said}")


def check_list(where, bill, listed):
    if [label for label, _ in listed.groups] != bill.columns:
        fault(f"{where}: the list is of {[label for label, _ in listed.groups]}")
    for column, (head, rows) in enumerate(listed.groups):
        add_up(f"{where}, list of {head}", rows, 2, "subtotal")
        if amount(rows[-1]["cells"][2]) != bill.value("To buy", "to buy", column):
            fault(f"{where}, {head}: the list's sum is not the bill's")
        for row in rows:
            count, each, total = (amount(cell) for cell in row["cells"])
            if row["cells"][1]["kind"] == "money" and count * each != total:
                fault(f"{where}, {head}: {count} x {each} is not {total}")


def check_years(where, bill, years):
    for table, period, total in (("Paid by the end", "Over the period, as paid", "as paid"),
                                 ("The same in today", "Over the period, in today", "present value")):
        for column, head in enumerate(bill.columns):
            here = f"{where}, {head}: {table}"
            said = bill.value(period, total, column)
            if years.value(table, total, column) != said:
                fault(f"{here}: ends at another sum than the bill's {said}")
            last = years.value(table, str(YEARS), column)
            if last + years.value(table, "less resale at the end", column) != said:
                fault(f"{here}: {last} less resale is not {said}")
            if years.value(table, "to buy", column) != bill.value("To buy", "to buy", column):
                fault(f"{here}: begins at another sum than the bill's")
            course = [years.value(table, "to buy", column)]
            course += [years.value(table, str(year), column) for year in range(1, YEARS + 1)]
            if any(after < before for before, after in zip(course, course[1:])):
                fault(f"{here}: what was paid so far shrinks")


def check_measures(where, bill, years):
    rows = years.group("Against")
    if not rows:
        return
    by_label = {row["label"]: row["cells"] for row in rows}
    base = [cell["value"] for cell in by_label["net saving"]].index("–")
    for column, head in enumerate(bill.columns):
        extra, saved, net = (by_label[label][column] for label in (
            "extra investment, present value", "saved in running it, present value", "net saving"))
        if net["kind"] != "money":
            continue
        values = [bill.value("Over the period, in today", "present value", c) for c in (base, column)]
        if net["value"] != values[0] - values[1] or saved["value"] - extra["value"] != net["value"]:
            fault(f"{where}, {head}: the net saving is {net['value']}")
        ratio = by_label["saving-to-investment ratio"][column]
        if ratio["kind"] == "number" and abs(net["value"]) > 1 and (ratio["value"] > 1) != (net["value"] > 0):
            fault(f"{where}, {head}: ratio {ratio['value']} with a net saving of {net['value']}")


def check_energy(where, bill, energy):
    for column, head in enumerate(bill.columns):
        here = f"{where}, {head}: energy"
        add_up(f"{here}: What it costs", energy.group("What it costs"), column, "subtotal")
        add_up(f"{here}: Its cost by month", energy.group("Its cost by month"), column, "subtotal")
        year = energy.value("What it costs", "all", column)
        if energy.value("Its cost by month", "the year", column) != year:
            fault(f"{here}: months and consumers cost different sums")
        billed = sum(amount(row["cells"][column]) for row in bill.group("Each year")
                     if row["label"].startswith("electricity"))
        if billed != year:
            fault(f"{here}: {year} is not the bill's {billed}")
        used = sum(amount(row["cells"][column]) for row in energy.group("Electricity a year")
                   if row["kind"] == "line")
        months = sum(amount(row["cells"][column]) for row in energy.group("All electricity by month"))
        heater = sum(amount(row["cells"][column]) for row in energy.group("Heater by month"))
        if not close(used, energy.value("Electricity a year", "all", column)) or not close(used, months):
            fault(f"{here}: consumers use {used} kWh, the months {months}")
        if not close(heater, energy.value("Electricity a year", "heater", column) or Decimal(0)):
            fault(f"{here}: the heater's months sum to {heater} kWh")
        lost = sum(amount(row["cells"][column]) for row in energy.group("Heat that leaves")
                   if row["kind"] == "line" and row["unit"] == "kWh")
        if not close(lost, energy.value("Heat that leaves", "all", column)):
            fault(f"{here}: {lost} kWh leave by the surfaces")


def check_rates(where, bill, fit):
    """What a unit of water and of bottom costs, from the sizes that fit shows."""
    for column, head in enumerate(bill.columns):
        total = bill.value("Over the period, in today", "present value", column)
        count = Decimal(head.split(" × ")[0]) if " × " in head else Decimal(1)
        each = bill.row("In today's money", "liter of actual water")["cells"][column]["value"]
        litres = fit.value("Shape, water", "actual water", column)
        step = Decimal(10) ** each.as_tuple().exponent
        if abs(total / (count * litres) - each) > step:
            fault(f"{where}, {head}: {each} a litre")


def check_wall_list(where, *words):
    """The list of a wall adds up, model by model and what all share, to what the sheet wall says it costs."""
    wall, listed = Sheet("wall", *words), Sheet("list", *words)
    everything = listed.groups[-1][1][-1]
    tanks = 0
    for head, rows in listed.groups[:-1]:
        add_up(f"{where}, list of {head}", rows, 2, "subtotal")
        tanks += sum(amount(row["cells"][0]) for row in rows if row["label"].startswith("tank "))
    models = sum(amount(rows[-1]["cells"][2]) for _, rows in listed.groups[:-1])
    shared = sum(amount(row["cells"][2]) for row in listed.groups[-1][1][:-1])
    if models + shared != amount(everything["cells"][2]):
        fault(f"{where}: {models} of tanks and {shared} shared are not {everything}")
    if amount(everything["cells"][2]) != wall.value("What the room costs", "to buy", 0):
        fault(f"{where}: the list's sum is not the wall's")
    if tanks != wall.value("Tanks", "all", 0):
        fault(f"{where}: {tanks} tanks in the list of the wall")


for wanted in (["wall/objective=water"], ["wall/objective=tanks", "wall/budget=2000"],
               ["wall/length-2=6 ft", "wall/circuit-2-current=15 A"], ["setup/filter=sponge", "wall/rack-price=31.3"],
               ["plan/setup=planted-display", "wall/timer-price=18"])[::STEP]:
    check_wall_list(" ".join(wanted), "new-wall", *[word for each in wanted for word in ("--set", each)])
tanks = stock("tank")
setups = stock("setup")
if len(tanks) < 14 or len(setups) < 4:
    fault(f"the demo has {len(tanks)} tanks and {len(setups)} setups")
cases = [(region, setup, start) for region in REGIONS for setup in setups for start in range(0, len(tanks), 9)]
for region, setup, start in cases[::STEP]:
    chosen = tanks[start:start + 9]
    words = ["start", "--region", region, "--setup", setup, "--years", YEARS, "--units", "metric",
             "--sale", "best" if start else "list"]
    for number, tank in enumerate(chosen, 1):
        words += ["--tank", tank]
        if number % 3 == 0:
            words += ["--set", f"candidate {number}/quantity={number}"]
    where = f"{region}, {setup}"
    bill = Sheet("bill", *words)
    check_bill(where, bill)
    check_bars(where, bill)
    check_list(where, bill, Sheet("list", *words))
    years = Sheet("years", *words)
    check_years(where, bill, years)
    check_measures(where, bill, years)
    check_energy(where, bill, Sheet("energy", *words))
    check_rates(where, bill, Sheet("fit", *words))
finish()
