# SPDX-License-Identifier: MIT
"""Compares bills before and after one price in an INI file is changed."""
from decimal import ROUND_HALF_UP, Decimal

from tankcost import Sheet, fault, finish, profiles_with

PAID, TODAY = "Over the period, as paid", "Over the period, in today's money"
# What follows from the price of anything that is bought, where it is neither replaced nor sold again.
BOUGHT = {("To buy", "sales tax"), ("To buy", "to buy")}
BOUGHT |= {(period, label) for period, total in ((PAID, "as paid"), (TODAY, "present value"))
           for label in ("bought at the start", total)}
RATES = {("In today's money, for each", label)
         for label in ("year", "day", "gallon of actual water", "square foot of bottom")}
REPLACED = {(PAID, "replacements"), (TODAY, "replacements")}
SOLD = {(PAID, "less resale"), (TODAY, "less resale")}


def cells(bill, column):
    """What the lines say, but for those below a sum that tell how far it is in doubt."""
    return {(group, row["label"]): {key: value for key, value in row["cells"][column].items() if key != "marks"}
            for group, rows in bill.groups for row in rows
            if group != "In short" and not row["label"].startswith(" ")}


def changed(before, after, column):
    old, new = cells(before, column), cells(after, column)
    return {key for key in old.keys() | new.keys() if old.get(key) != new.get(key)}


def check(name, replaced, wanted, may=frozenset(), words=("start",)):
    """wanted: for each column the lines that change; of those in may some may stay the same by rounding."""
    before = Sheet("bill", *words)
    after = Sheet("bill", *words, profiles=profiles_with(name, replaced))
    for column, head in enumerate(before.columns):
        said = changed(before, after, column)
        if not wanted[column] - may <= said <= wanted[column]:
            fault(f"{name}, {head}: changed {sorted(said - wanted[column])}, unchanged "
                  f"{sorted(wanted[column] - may - said)}")
    return before, after


# A day costs whole cents: it need not follow a small change.
DAY = {("In today's money, for each", "day")}

# A lid that two of the three candidates have, and that lasts longer than the period.
lid = {("To buy", "lid")} | BOUGHT | RATES | SOLD
before, after = check("lid", [("shops/lowmere-shop.ini", "glass-30x12 = 19.00", "glass-30x12 = 19.55")],
                      [set(), lid, lid], DAY | SOLD)
for column in (1, 2):
    goods = {bill: sum(bill.value("To buy", label, column) for label in (
        "tank", "stand", "lid", "light", "filter", "heater", "substrate")) for bill in (before, after)}
    taxes = [(goods[bill] * Decimal("0.07")).quantize(Decimal("0.01"), ROUND_HALF_UP) for bill in (before, after)]
    for label, step in (("lid", Decimal("0.55")), ("sales tax", taxes[1] - taxes[0]),
                        ("to buy", Decimal("0.55") + taxes[1] - taxes[0])):
        if after.value("To buy", label, column) - before.value("To buy", label, column) != step:
            fault(f"a lid for 0.55 more changes {label} by another step than {step}")

# A heater is replaced within the period.
heater = {("To buy", "heater")} | BOUGHT | RATES | REPLACED | SOLD
check("heater", [("shops/lowmere-shop.ini", "h75 = 20.00", "h75 = 20.40")], [set(), set(), heater],
      DAY | SOLD)

# In a sale by the gallon the list price counts for what the tank brings in the end, and where it is replaced.
brings = SOLD | RATES | {(PAID, "as paid"), (TODAY, "present value")}
check("tank", [("shops/lowmere-shop.ini", "20-high = 48.00", "20-high = 49.00")], [brings, set(), set()],
      DAY | RATES, ("start", "--sale", "autumn-fair"))
tank = {("To buy", "tank")} | BOUGHT | RATES | SOLD
check("listed", [("shops/lowmere-shop.ini", "20-high = 48.00", "20-high = 49.00")], [tank, set(), set()], DAY,
      ("start", "--sale", "list"))

# What a shop of another region asks is nothing to this one.
check("foreign", [("shops/vintersund-shop.ini", "glass-30x12 = 18.40", "glass-30x12 = 99.40")],
      [set(), set(), set()])

# Electricity is used each year, and bought at no time.
energy = {("Each year", label) for label in (
    "electricity: heater", "electricity: light", "electricity: filters", "electricity: warming new water",
    "each year")}
energy |= {(period, label) for period, total in ((PAID, "as paid"), (TODAY, "present value"))
           for label in ("energy", total)} | RATES
check("power", [("regions/lowmere.ini", "blocks-1 = 0.118 up to 500, 0.142 up to 1000",
                 "blocks-1 = 0.118 up to 500, 0.152 up to 1000")], [energy] * 3, DAY)

# Water is changed, lost to the air, and nothing else.
water = {("Each year", label) for label in ("water: changes", "water: lost to the air", "each year")}
water |= {(period, label) for period, total in ((PAID, "as paid"), (TODAY, "present value"))
          for label in ("water", total)} | RATES
check("water", [("regions/lowmere.ini", "water = 0.011 / gal", "water = 0.013 / gal")], [water] * 3,
      DAY | {("Each year", "water: lost to the air")})

# The price of a delivery is neither taxed nor had again.
delivery = {("To buy", "delivery")} | (BOUGHT - {("To buy", "sales tax")}) | RATES
check("delivery", [("shops/lowmere-shop.ini", "delivery = 35.00", "delivery = 36.00")], [delivery] * 3, DAY)
finish()
