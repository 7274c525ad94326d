# SPDX-License-Identifier: MIT
"""What the sheet of the energy says, against bills with and without the lid, the pump, the heat."""
import calendar
from decimal import Decimal

from tankcost import Sheet, fault, finish, run

SLOTS = ("stand", "lid", "light", "filter", "air-pump", "heater", "substrate")
PRESENT = "Over the period, in today"


def near(what, said, wanted, slack):
    if abs(said - wanted) > Decimal(slack):
        fault(f"{what}: {said}, not {wanted}")


def pins(words, number, but):
    """Options that hold a candidate to the parts it has, one of them replaced."""
    listed = Sheet("list", *words).groups[number - 1][1]
    found = dict(row["label"].split(" ", 1) for row in listed if row["label"].split(" ")[0] in SLOTS)
    options = []
    for slot in SLOTS:
        part = but.get(slot, found.get(slot, "none").split(",")[0])
        options += ["--set", f"candidate {number}/{slot}={part}"]
    return options


def check_lids():
    """What a lid saves is the yearly cost without it less that with it, all other parts the same."""
    for words, has_one in ((["start", "--tank", "20-long"], True),
                           (["start", "--tank", "20-long", "--set", "setup/lid=open"], False),
                           (["three-places", "--tank", "180-l"], True)):
        sheet = Sheet("energy", *words)
        lid = next((row["label"].split(" ")[1].rstrip(",") for row in Sheet("list", *words).groups[0][1]
                    if row["label"].startswith("lid ")), None)
        if has_one != (lid is not None):
            fault(f"{words}: the lid is {lid}")
        lid = lid or "glass-30x12"
        bills = [Sheet("bill", *words, *pins(words, 1, {"lid": choice})) for choice in ("none", lid)]
        bare, covered = (bill.value("Each year", "each year", 0) for bill in bills)
        saved = sheet.value("What a lid is worth", "it saves each year", 0)
        if saved != bare - covered:
            fault(f"{words}: a lid saves {saved}, by two bills {bare - covered}")
        price = sheet.value("What a lid is worth", "it costs, with tax", 0)
        tax = Decimal("1.07") if "start" in words else Decimal(1)
        near(f"{words}: the lid", price, bills[1].value("To buy", "lid", 0) * tax, "0.005")
        years = sheet.value("What a lid is worth", "it has paid for itself after", 0)
        near(f"{words}: paid for itself", years, price / saved, "1e-9")


def check_meter():
    """With the losses fitted to a meter, the heater uses what was metered, in a month of that room."""
    room = ["--set", "region/room=19.5 C", "--set", "region/room-swing=0 K", "--set", "region/humidity=50 %"]
    words = ["start", *room, "--set", "setup/lid=open", "--set", "candidate 2/measured=5.2 kWh", "--set",
             "candidate 2/measured-days=9 days", "--set", "candidate 2/measured-room=19.5 C"]
    sheet = Sheet("energy", *words)
    months = [row["cells"][1]["value"] for row in sheet.group("Heater by month")]
    for month, used in enumerate(months, 1):
        days = calendar.monthrange(2026, month)[1]
        near(f"a metered heater in month {month}", used * 9 / days, Decimal("5.2"), "0.06")
    shares = [cell["value"] for cell in sheet.row("Heat that leaves", "losses, of the computed")["cells"]]
    if shares[0] != shares[1] or shares[1] != shares[2] or abs(shares[1] - 100) < 1:
        fault(f"the losses are {shares} % of the computed")
    by = [cell["value"] for cell in sheet.row("Heat that leaves", "by")["cells"]]
    if by != ["neighbour's", "own meter", "neighbour's"]:
        fault(f"the losses are by {by}")
    # Two meters: each tank keeps its own, the third has their mean.
    both = Sheet("energy", *words, "--set", "candidate 1/measured=6 kWh", "--set",
                 "candidate 1/measured-days=9 days", "--set", "candidate 1/measured-room=19.5 C")
    shares = [cell["value"] for cell in both.row("Heat that leaves", "losses, of the computed")["cells"]]
    near("the losses of an unmetered neighbour", shares[2], (shares[0] + shares[1]) / 2, "1e-9")
    # The kWh that a heater cannot have used are refused, and said to be.
    said = run("energy", *words, "--set", "candidate 2/measured=900 kWh", status=None)
    if "no heat loss explains" not in said.stderr or said.returncode != 1:
        fault(f"a meter that read too much: exit status {said.returncode}, {said.stderr!r}")


def check_air():
    """One pump for all and one for each, against two bills."""
    sheet = Sheet("energy", "new-wall")
    for heading, choice in (("Air from a pump for each", "no"), ("Air from one pump for all", "yes")):
        bill = Sheet("bill", "new-wall", "--set", f"setup/shared-air={choice}")
        for column, head in enumerate(sheet.columns):
            near(f"{heading}, {head}", sheet.value(heading, "whole candidate, present value", column),
                 bill.value(PRESENT, "present value", column), 0)
    if Sheet("energy", "new-wall", "--tank", "10-gal").group("Air from"):
        fault("air is shared by a single tank")


def check_warm():
    """A room that carries the water past the setup's limit is told, a cold one is not."""
    hot = Sheet("energy", "start", "--set", "region/room=30 C", "--units", "metric")
    for column, head in enumerate(hot.columns):
        cell = hot.row("The heater", "hottest water")["cells"][column]
        if cell["value"] < 30 or "over" not in cell.get("marks", []):
            fault(f"{head} in a room of 30 °C: {cell}")
        if not any(note.startswith(f"{head}: in ") and "past the 28.0 °C" in note
                   for note in hot.notes("caution")):
            fault(f"{head} in a room of 30 °C is not warned of: {hot.notes()}")
    opened = Sheet("bill", "start", "--set", "setup/lid=open").notes("caution")
    if not any(note.startswith("Damp:") for note in opened):
        fault(f"the bill of open tanks has no caution of damp: {opened}")
    if not any(note.startswith("Rack:") for note in Sheet("bill", "new-wall", "--walls").notes("caution")):
        fault("the bill of walls has no caution of the rack")
    cold = Sheet("energy", "start", "--set", "region/room=18 C")
    if any("past the" in note for note in cold.notes()):
        fault("a room of 18 °C is warned of")


def check_warm_tap():
    """What the household's boiler brings: 4.184 kJ a litre and kelvin: the thermochemical calorie, by
    definition; Cengel, table A-9, has 4.17 at 15 to 25 °C, and the slack is for that."""
    words = ["start", "--units", "metric", "--set", "region/warm-water-price=0.10 / kWh"]
    sheet, bill = Sheet("energy", *words), Sheet("bill", *words)
    for column, head in enumerate(sheet.columns):
        heat = sheet.value("Water a year", "heat in it, from the warm tap", column)
        litres = sheet.value("Water a year", "changed", column)
        # 75 °F in the tank, 60 °F from the cold tap
        near(f"{head}: warm water", heat, litres * Decimal("4.184") * 15 / Decimal("1.8") / 3600, "0.3")
        cost = sheet.value("Water a year", "what that costs", column)
        near(f"{head}: its price", cost, heat / 10, "0.006")
        if cost != bill.value("Each year", "warm tap water", column):
            fault(f"{head}: warm water costs {cost} here and something else on the bill")
    if any("heat in it" in row["label"] for row in Sheet("energy", "start").group("Water a year")):
        fault("warm tap water is told of where it has no price")


def check_no_heating():
    """Lamps and pumps that hold a tank above its room leave the heater nothing to do, and never less."""
    warm = ["start", "--set", "region/room=23.6 C", "--set", "region/room-swing=0 K"]
    sheet, bill = Sheet("energy", *warm), Sheet("bill", *warm)
    for column, head in enumerate(sheet.columns):
        used = [row["cells"][column]["value"] for row in sheet.group("Heater by month")]
        if any(used) or (bill.value("Each year", "electricity: heater", column) or 0) != 0:
            fault(f"{head} at 24 °C, held warm by its gear in a room of 23.6 °C, heats: {used}")
        if not any(note.startswith(f"{head}: lights, pumps and the room") for note in sheet.notes("remark")):
            fault(f"{head} needs no heating, which is not said: {sheet.notes()}")
        lost = sheet.value("Heat that leaves", "all", column)
        gained = sum(row["cells"][column]["value"] for row in sheet.group("and where it comes from"))
        near(f"{head}: heat lost and gained", lost, gained, Decimal("1e-3") * lost)


def check_unheated():
    """A setup without a heater has none to tell of, but the cold is told."""
    sheet = Sheet("energy", "start", "--set", "setup/heater=no")
    if sheet.group("The heater") or sheet.group("Heater by month"):
        fault("a heater is told of where the setup has none")
    for column, head in enumerate(sheet.columns):
        cell = sheet.row("Without a heater", "colder than wanted by")["cells"][column]
        if cell["value"] <= 0 or "short" not in cell.get("marks", []):
            fault(f"{head} without a heater: {cell}")
        if not any(note.startswith(f"{head}: in ") and "without a heater, does not hold the temp" in note
                   for note in sheet.notes("fault")):
            fault(f"{head} is cold, which is not said: {sheet.notes()}")


def check_charts():
    """Twelve bars for each candidate, that stand for the table."""
    sheet = Sheet("energy", "start")
    for column, chart in enumerate(sheet.json["charts"]):
        sums = [sum(series["values"][month] for series in chart["series"]) for month in range(12)]
        table = [row["cells"][column]["value"] for row in sheet.group("All electricity by month")]
        if len(table) != 12 or any(abs(a - b) > Decimal("1e-6") for a, b in zip(sums, table)):
            fault(f"{chart['title']}: bars {sums}, table {table}")


check_lids()
check_meter()
check_air()
check_warm()
check_warm_tap()
check_no_heating()
check_unheated()
check_charts()
finish()
