# SPDX-License-Identifier: MIT
"""Rows and columns are known again by what they are about, whatever their words say.

A sheet made with other figures, in the other units or at another price is
about the same things: what its labels say may change, their subjects may not.
And no two rows of a group, no two columns of a sheet are about the same.
"""
from tankcost import STEP, Sheet, fault, finish

SHEETS = ("bill", "years", "sale", "energy", "fit", "shortlist", "places", "list", "wall", "doubts", "whatif")
CHANGES = (("--units", "metric"), ("--set", "candidate 1/price=33"), ("--set", "setup/temperature=23 C"),
           ("--set", "plan/years=7 years"))


def about(thing, words):
    return thing.get("about", thing[words]).strip()


def subjects(sheet):
    """(group, row) in their order, and the columns."""
    rows, group = [], ""
    for row in sheet.json["rows"]:
        if row["kind"] == "group":
            group = about(row, "label")
        else:
            rows.append((group, about(row, "label")))
    return rows, [about(column, "head") for column in sheet.json["columns"]]


def hold(name, plan):
    draws = ("--draws", "200") if name == "doubts" else ()
    rows, columns = subjects(Sheet(name, plan, *draws))
    for what, them in (("rows", rows), ("columns", columns)):
        for one in sorted({one for one in them if them.count(one) > 1}):
            fault(f"{name} {plan}: two {what} are about {one}")
    for change in CHANGES[::3 if name in ("wall", "doubts") else 1]:  # these take longest
        again, _ = subjects(Sheet(name, plan, *draws, *change))
        gone, come = [one for one in rows if one not in again], [one for one in again if one not in rows]
        if gone and come:  # one alone may come or go with what it tells
            fault(f"{name} {plan} {' '.join(change)}: {gone} became {come}")


PLANS = {"wall": ("new-wall",), "list": ("start", "new-wall"), "places": ("three-places",)}
cases = [(name, plan) for name in SHEETS for plan in PLANS.get(name, ("start",))]
for name, plan in cases[::min(STEP, 5)]:
    hold(name, plan)
finish()
