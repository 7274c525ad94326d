# SPDX-License-Identifier: MIT
"""Walk-away prices, sales with their limits and dates, special orders, bundles, waiting."""
import datetime
import re
from decimal import ROUND_HALF_UP, Decimal

from tankcost import Sheet, fault, finish, run

PRESENT = "Over the period, in today"
CENT = Decimal("0.01")


def expect(what, said, wanted):
    if said != wanted:
        fault(f"{what}: {said!r}, not {wanted!r}")


def typed_in(words, number, price):
    """The present values where this price is typed for a candidate."""
    bill = Sheet("bill", *words, "--set", f"candidate {number}/price={price}")
    return [bill.value(PRESENT, "present value", column) for column in range(len(bill.columns))]


def check_walkaway(*words, minor=CENT):
    """At the walk-away price a candidate costs no more to own than the best other; a minor unit more, more."""
    sheet = Sheet("sale", *words)
    kinds = set()
    for column, head in enumerate(sheet.columns):
        cell = sheet.row("As planned", "walk away above")["cells"][column]
        if cell["kind"] == "empty":
            continue
        kinds.add(cell["kind"])
        where = f"{' '.join(map(str, words))}: {head}"
        price = cell["value"] if cell["kind"] == "money" else -minor
        if cell["kind"] == "text" and cell["value"] != "not worth it even free":
            fault(f"{where}: {cell['value']}")
        for price, below in ((price, True), (price + minor, False)):
            if price < 0:
                continue
            values = typed_in(words, column + 1, price)
            rival = min(value for other, value in enumerate(values) if other != column)
            if (values[column] <= rival) != below:
                fault(f"{where}: at {price} it costs {values[column]} to own, the best other {rival}")
    return kinds


def check_goal(goal, label, row, *words):
    """At the walk-away price of the goal a candidate gives as much of it for its cost as the best other one."""
    words = (*words, "--set", f"plan/goal={goal}")
    sheet, fit = Sheet("sale", *words), Sheet("fit", *words)
    amount = [cell["value"] for cell in fit.row("Shape", row)["cells"]]
    for column, head in enumerate(sheet.columns):
        cell = sheet.row("As planned", "walk away above, for the " + label)["cells"][column]
        price = cell["value"] if cell["kind"] == "money" else -CENT
        for price, below in ((price, True), (price + CENT, False)):
            if price < 0:
                continue
            values = typed_in(words, column + 1, price)
            rival = min(value / amount[other] for other, value in enumerate(values) if other != column)
            target = (rival * amount[column]).quantize(CENT, ROUND_HALF_UP)
            if (values[column] <= target) != below:
                fault(f"{goal}: {head} at {price} costs {values[column]} to own, worth {target}")
    kinds = {cell["kind"] for cell in sheet.row("As planned", "walk away above, for the " + label)["cells"]}
    if "money" not in kinds:
        fault(f"{goal}: no walk-away price")


def check_price_line(*words):
    """The picture has the prices that the table has, and up to where each is worth it."""
    sheet = Sheet("sale", *words)
    chart = sheet.json["charts"][0]
    price, most = (series["values"] for series in chart["series"])
    for column, head in enumerate(sheet.columns):
        cell = sheet.row("As planned", "walk away above")["cells"][column]
        label = {"not worth it even free": ": never", "worth any price": ": at any price"}.get(cell["value"], "")
        label = head + label
        if chart["x_labels"][column] != label or price[column] != sheet.value("As planned", "the tank", column):
            fault(f"the price line of {head}: {chart['x_labels'][column]} at {price[column]}")
        if most[column] != (cell["value"] if cell["kind"] == "money" else None):
            fault(f"the price line of {head} ends at {most[column]}: {cell}")


def check_walkaways():
    kinds = set()
    for sale in ("list", "best", "order", "tank-fair", "autumn-fair"):
        kinds |= check_walkaway("start", "--sale", sale)
    for setup in ("breeding-plain", "rock-lake", "shrimp-shelf"):
        kinds |= check_walkaway("start", "--setup", setup, "--years", 4)
    kinds |= check_walkaway("start", "--set", "candidate 1/quantity=3", "--set", "candidate 2/quantity=3",
                            "--set", "candidate 3/quantity=2")
    kinds |= check_walkaway("three-places")  # tax included, free delivery from 250.00
    kinds |= check_walkaway("three-places", "--region", "mizune", minor=Decimal(1))  # no minor unit
    if kinds != {"money", "text"}:
        fault(f"walk-away prices of the kinds {kinds} alone were seen")


def check_scenarios():
    """What the sheet says of a sale is what the bill says where the plan buys in it."""
    sheet = Sheet("sale", "start")
    headings = [label for label, _ in sheet.groups]
    for way, heading in (("list", "At list price"), ("order", "On special order"),
                         ("tank-fair", "Sale tank-fair"), ("autumn-fair", "Sale autumn-fair"),
                         ("starter-box", "Sale starter-box")):
        if not any(label.startswith(heading) for label in headings):
            fault(f"no {heading} in {headings}")
            continue
        bill = Sheet("bill", "start", "--sale", way)
        for column, head in enumerate(sheet.columns):
            for there, (period, label) in (("the tank", ("To buy", "tank")),
                                           ("to buy, with parts", ("To buy", "to buy")),
                                           ("to own, present value", (PRESENT, "present value"))):
                expect(f"{heading}, {head}, {there}", sheet.value(heading, there, column),
                       bill.value(period, label, column))
        values = [bill.value(PRESENT, "present value", column) for column in range(len(sheet.columns))]
        marks = [cell.get("marks", []) for cell in sheet.row(heading, "to own, present value")["cells"]]
        expect(f"{heading}: the best", ["best" in mark for mark in marks],
               [value == min(values) for value in values])
    terms = [cell["value"] for cell in sheet.row("Sale starter-box", "bought")["cells"]]
    expect("who is in the sale of starter boxes", terms, ["at list price", "at list price", "in the sale"])


def check_deals():
    # Two to a customer at 30 % off, the third at the list price of 48.00.
    limited = Sheet("bill", "start", "--set", "candidate 1/quantity=3")
    expect("3 where 2 may be had in the sale", limited.value("To buy", "tank", 0),
           2 * Decimal("0.7") * Decimal("48.00") + Decimal("48.00"))
    if not any("2 to a customer; the other 1 cost the list price" in note for note in limited.notes()):
        fault(f"nothing is said of the limit: {limited.notes()}")
    rows = Sheet("list", "start", "--set", "candidate 1/quantity=3").groups[0][1]
    expect("its list", [(row["cells"][0]["value"], row["cells"][1]["value"]) for row in rows[:2]],
           [(2, Decimal("33.60")), (1, Decimal("48.00"))])
    terms = Sheet("sale", "start", "--set", "candidate 1/quantity=3").row("As planned", "bought")["cells"]
    expect("its terms", terms[0]["value"], "2 in the sale, 1 at list price")

    # A special order costs 25.00 a tank, taxed at 7 %, also where a price is typed.
    for price in ([], ["--set", "candidate 1/price=48"]):
        order = Sheet("bill", "start", "--sale", "order", "--set", "candidate 1/quantity=2", *price)
        plain = Sheet("bill", "start", "--sale", "list", "--set", "candidate 1/quantity=2", *price)
        expect("fee", order.value("To buy", "special order fee", 0), Decimal("50.00"))
        gap = order.value("To buy", "to buy", 0) - plain.value("To buy", "to buy", 0)
        expect("to buy on order less at list price", gap, Decimal("53.50"))

    # Beyond a sale's limit of two, a tank that is not on the shelf has to be ordered.
    beyond = Sheet("bill", "start", "--sale", "tank-fair", "--tank", "33-long", "--set",
                   "candidate 1/quantity=3")
    expect("the fee for the third", beyond.value("To buy", "special order fee", 0), Decimal("25.00"))

    # A bundle brings lid and light along.
    bundle = Sheet("bill", "start", "--sale", "starter-box")
    expect("a bundle's tank, lid and light",
           [bundle.value("To buy", label, 2) for label in ("tank", "lid", "light")],
           [Decimal("139.00"), 0, 0])
    listed = [row for row in Sheet("list", "start", "--sale", "starter-box").groups[2][1]
              if row["label"].endswith("with the tank")]
    expect("what comes along", [row["label"].split(",")[0] for row in listed],
           ["lid glass-30x12", "light strip-75"])

    # What is not for sale is not sold quietly at another price.
    elsewhere = Sheet("bill", "start", "--region", "mizune", "--sale", "tank-fair")
    if not any("is not held in this region" in note for note in elsewhere.notes("remark")):
        fault(f"a sale of elsewhere: {elsewhere.notes()}")
    said = run("bill", "--sale", "autum-fair", status=1).stderr
    if "did you mean 'autumn-fair'" not in said:
        fault(f"a misspelt sale: {said}")


def weeks_period(today):
    """tank-fair: 2026-01-03 to 16, every five weeks; the period that runs today or comes next."""
    first = datetime.date(2026, 1, 3)
    while first + datetime.timedelta(days=13) < today:
        first += datetime.timedelta(weeks=5)
    return first, first + datetime.timedelta(days=13)


def check_dates():
    for today in ("2026-01-03", "2026-01-16", "2026-01-17", "2026-02-06", "2026-02-07", "2028-02-29",
                  "2028-03-01", "2030-12-31"):
        day = datetime.date.fromisoformat(today)
        first, last = weeks_period(day)
        wanted = f"runs to {last}" if first <= day else f"not today; from {first} to {last}"
        heads = [label for label, _ in Sheet("sale", "start", today=today).groups]
        if not any(label.startswith("Sale tank-fair") and label.endswith(wanted) for label in heads):
            fault(f"{today}: {wanted} is not said in {heads}")
    # Yearly from October 10 to 24; on the bill the lapsed sale is named.
    heads = [label for label, _ in Sheet("sale", "start").groups]
    if not any("autumn-fair" in label and "from 2027-10-10 to 2027-10-24" in label for label in heads):
        fault(f"the autumn sale is not told with its next date: {heads}")
    notes = Sheet("bill", "start", "--sale", "autumn-fair").notes()
    if not any("sale autumn-fair does not run today" in note for note in notes):
        fault(f"the lapsed sale is not told: {notes}")
    # "best" takes a sale only while it runs; the fair does not on the first of these days.
    for today, price in (("2026-10-09", "48.00"), ("2026-10-10", "28.00")):
        bill = Sheet("bill", "start", "--sale", "best", "--tank", "20-high", today=today)
        expect(f"best on {today}", bill.value("To buy", "tank", 0), Decimal(price))
    for sheet in ("sale", "bill"):
        once, again = (run(sheet, "start", "--format", "csv", today="2027-05-06").stdout for _ in range(2))
        expect(f"{sheet} of one day printed twice", again, once)


def check_waiting(today, pays):
    """Against the best that can be had on that day, whatever the plan itself would pay."""
    words = ["start", "--sale", "list"]
    now = Sheet("bill", "start", "--sale", "best", today=today)
    for cost in (0, 30):
        sheet = Sheet("sale", *words, "--set", f"plan/waiting-cost={cost}", today=today)
        gains = []
        for column, head in enumerate(sheet.columns):
            sale = sheet.value("Wait for", "sale", column)
            if sale == "none in sight":
                continue
            begins = datetime.date.fromisoformat(sheet.value("Wait for", "from", column))
            then = Sheet("bill", "start", "--sale", sale, today=today)
            owned = [bill.value(PRESENT, "present value", column) for bill in (now, then)]
            saved = owned[0] - owned[1]
            expect(f"waiting, {head}, saves", sheet.value("Wait for", "saves", column), saved)
            days = (begins - datetime.date.fromisoformat(today)).days
            # A month of the Gregorian calendar has 365.2425 / 12 days.
            waiting = (cost * Decimal(days) / Decimal("30.436875")).quantize(CENT, ROUND_HALF_UP)
            net = sheet.value("Wait for", "saves, less what waiting costs", column)
            expect(f"waiting, {head}, at {cost} a month", net, saved - waiting)
            gains.append(owned[0] - net)
        best = min(now.value(PRESENT, "present value", column) for column in range(len(sheet.columns)))
        first = sheet.notes("finding")[0]
        if min(gains) < best:
            found = re.search(r"Wait .*: on (.+) sale (\S+) (?:comes back|begins), and (\S+) then costs (\S+) USD less|"
                              r"saves only (\S+) USD",
                              first)
            if not found:
                fault(f"waiting at {cost} a month brings something, and it is not told: {first}")
            else:
                expect("what waiting brings", Decimal(found[4] or found[5]), best - min(gains))
        elif "no sale in the next two years beats that" not in first:
            fault(f"waiting at {cost} a month is advised: {first}")
    first = Sheet("sale", *words, today=today).notes("finding")[0]
    if pays != first.startswith("Wait "):
        fault(f"on {today} waiting should {'' if pays else 'not '}pay: {first}")


def check_lapsed():
    """What a sale that does not run today would cost is no answer for today."""
    first = Sheet("sale", "start", "--sale", "autumn-fair").notes("finding")[0]
    if "33.60" not in first:
        fault(f"a sale that does not run is advised: {first}")


check_walkaways()
check_goal("water", "water", "actual water", "start")
check_goal("bottom", "bottom", "bottom and surface", "start")
check_goal("length", "length to swim", "length to swim", "three-places")
check_price_line("start")
check_price_line("three-places")
check_scenarios()
check_deals()
check_dates()
check_waiting("2026-10-12", False)  # the sale by the gallon runs
check_waiting("2026-09-25", True)  # none does
check_lapsed()
finish()
