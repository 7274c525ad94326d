# SPDX-License-Identifier: MIT
"""A plan that buys at several shops: every line of its bill, and that no other way to spread it is cheaper."""

import itertools

import economy
import profiles as read
from model import minor

SEVERAL = ("--set", "plan/shop=several")

# Ways to spread a purchase that are tried; beyond, the least is not looked for.
MOST_WAYS = 5000


def bought(check, sheet):
    """From `list`: for each candidate (kind, name, count, each, words, shop), and what is paid at each shop."""
    heads, out, paid = [], [], []
    for row in sheet.data["rows"]:
        if row["kind"] == "group":
            head, where = row["label"].rsplit(", ", 1)
            if head not in heads:
                heads.append(head)
                out.append([])
                paid.append({})
            shop = where.removeprefix("at ") if where != "in all" else None
        elif row["kind"] == "line" and row["cells"][0].get("value") is not None:
            kind, name = row["label"].replace(",", " ").replace("air pump", "air-pump").split()[:2]
            each = row["cells"][1]
            out[-1].append((kind, name, row["cells"][0]["value"],
                            round(each["value"] * 10 ** read.DECIMALS[each["currency"]])
                            if each["kind"] == "money" else None, row["label"], shop))
        elif row["label"].strip().startswith("to pay"):
            cell = row["cells"][2]
            paid[-1][shop] = round(cell["value"] * 10 ** read.DECIMALS[cell["currency"]])
    return list(zip(check.match(heads), out)), paid


def choices(check, market, bill):
    """For each thing, at which shops it can be bought and for how much: its tanks are one thing, a slot's pieces too."""
    things = []
    for i, (kind, name, count, each, words, shop) in zip(bill.items, bill.chosen):
        part, end = check.part(kind, name), "price" if kind == "tank" else f"{kind}-price"
        if kind == "tank" and (" sale " in words or len([x for x in bill.items if x.kind == "tank"]) > 1):
            return None  # the deal differs from shop to shop
        if "with the tank" in words or each is None:
            return None
        if end in bill.candidate.keys:
            shops = [s for s in market.sellers.values() if not s.private] or list(market.sellers.values())
            shops = [s for s in shops if s.price(part) is not None] or shops
            things.append([(s, i.count * each, kind) for s in shops])
        else:
            things.append([(s, count * s.price(part), kind) for s in market.sellers.values() if s.price(part) is not None])
    return things


def least(bill, things):
    """The least that all ways to spread the things come to, before tax is rounded."""
    best = None
    for way in itertools.product(*things):
        total = 0.0
        for shop in {s for s, _, _ in way}:
            goods = sum(price for s, price, _ in way if s is shop)
            fee = sum(bill.orders * shop.order_fee for s, _, kind in way if s is shop and kind == "tank")
            free = shop.free_from is not None and goods >= shop.free_from
            total += (goods + fee) * (1 + (shop.tax if shop.added else 0)) + (0 if free else shop.delivery)
        best = total if best is None or total < best else best
    return best


def check_several(check, check_bill):
    """The bill at several shops, and its till."""
    market = economy.Market(check.home)
    listed, energy = check.ask("list", *SEVERAL), check.ask("energy", *SEVERAL)
    candidates, paid = bought(check, listed)
    bills = []
    for column, (index, chosen) in enumerate(candidates):
        bill = check.bill(market, check.candidates[index], column, chosen, energy, None, SEVERAL, False)
        bills.append(bill)
        ours = bill.to_buy - sum(x.due for x in bill.extras if x.once)
        check.same(f"several: {bill.head}: paid at all shops", sum(paid[column].values()), ours)
        things = choices(check, market, bill)
        ways = 1
        for thing in things or []:
            ways *= len(thing)
        if things and ways <= MOST_WAYS:
            # a bundle of rounded taxes: half a minor unit at each shop
            check.same(f"several: {bill.head}: the least of {ways} ways", ours, minor(least(bill, things)), len(market.sellers))
    check_bill(check, bills, check.ask("bill", *SEVERAL))
