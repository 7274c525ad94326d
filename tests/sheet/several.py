# SPDX-License-Identifier: MIT
"""
A plan that buys at several shops, against every way to spread what it buys: for shops with drawn lists,
terms, taxes and pick-up, the list is by shop, each shop is paid what it asks, and no other spread costs less.
"""
import itertools
import random
import re
from decimal import ROUND_HALF_UP, Decimal

from tankcost import STEP, Sheet, fault, finish, profiles_with
from shops import shops_of

CENT = Decimal("0.01")
TAX = Decimal("0.07")  # of lowmere
LINE = re.compile(r"(\S+(?: pump)?) ([^ ,]+)")


def money(number):
    return Decimal(number).quantize(CENT, ROUND_HALF_UP)


def draw(dice, folder, privates=0.2):
    """Shops beside the demonstration's: their terms and lists, as a profile and as figures."""
    shops, lists = shops_of("lowmere")
    usual = {(kind, item): price for (shop, kind, item), price in lists.items() if shop in shops}
    text, terms, asked = "", {}, {}
    for n in range(dice.randint(1, 3)):
        name = f"drawn-{n}"
        private = dice.random() < privates
        delivery = money(dice.choice([0, dice.uniform(2, 40)]))
        free = money(dice.uniform(30, 300)) if dice.random() < 0.6 else None
        trip = money(dice.uniform(0, 10)) if dice.random() < 0.4 else None
        text += f"[shop {name}]\nregion = lowmere\ndelivery = {delivery}\n"
        text += f"seller = {'private' if private else 'shop'}\n"
        text += f"delivery-free-from = {free or 'never'}\npick-up = {trip if trip is not None else 'none'}\n"
        terms[name] = [delivery, free, private, trip]
        for kind in sorted({kind for kind, _ in usual}):
            text += f"[prices {name} {kind}]\n"
            for (of, item), price in sorted(usual.items()):
                if of == kind and dice.random() < 0.6:
                    asked[name, kind, item] = money(float(price) * dice.uniform(0.7, 1.2))
                    text += f"{item} = {asked[name, kind, item]}\n"
    return profiles_with(folder, [], {"shops/drawn.ini": text}), terms, asked


def paid(choice, items, terms, fetched):
    total = Decimal(0)
    for shop in set(choice):
        delivery, free, private, trip = terms[shop]
        goods = sum(prices[shop] for prices, at in zip(items, choice) if at == shop)
        if fetched and trip is not None and trip < delivery:
            delivery = trip
        brought = Decimal(0) if goods == 0 or (free is not None and goods >= free) else delivery
        total += goods + money(goods * (Decimal(0) if private else TAX)) + brought
    return total


def bought(sheet, head):
    """What a candidate buys: (shop, kind, item, count, sum), and what each shop is paid."""
    lines, sums = [], {}
    for group, rows in sheet.groups:
        if not group.startswith(head + ", at "):
            continue
        shop = group[len(head) + 5:]
        for row in rows:
            count, _, sum_ = (cell["value"] for cell in row["cells"])
            if row["kind"] == "line" and count is not None:
                kind, item = LINE.match(row["label"]).groups()
                kind = kind.replace(" ", "-")
                lines.append((shop, kind, item, count, sum_))
            elif row["label"].startswith("to pay at"):
                sums[shop] = sum_
    return lines, sums


def check(seed):
    dice = random.Random(seed)
    folder, more, lists = draw(dice, f"several-{seed}")
    terms, own = shops_of("lowmere")
    terms = {name: [*of, None] for name, of in terms.items()} | more
    lists = {of: price for of, price in (own | lists).items() if of[0] in terms}
    fetched = dice.random() < 0.5
    words = ["--set", "plan/shop=several", "--sale", "list", "--set", f"plan/pick-up={'yes' if fetched else 'no'}"]
    pinned = {}
    if dice.random() < 0.4:
        pinned["29-high"] = dice.choice(sorted(name for name, kind, item in lists if (kind, item) == ("tank", "29-high")))
        words += ["--set", f"candidate 3/shop={pinned['29-high']}"]
    sheet = Sheet("list", "start", *words, profiles=folder)
    bill = Sheet("bill", "start", *words, profiles=folder)
    spread = 0
    for at, head in enumerate(bill.columns):
        lines, sums = bought(sheet, head)
        items = []
        for shop, kind, item, count, sum_ in lines:
            prices = {name: lists[name, kind, item] * count for name in terms if (name, kind, item) in lists}
            if kind == "tank" and head in pinned:
                prices = {pinned[head]: prices[pinned[head]]}
            if prices.get(shop) != sum_:
                fault(f"seed {seed}: {head}: {count} {item} at {shop} cost {sum_}, not {prices.get(shop)}")
            items.append(prices)
        total = bill.value("To buy", "to buy", at)
        best = min(paid(choice, items, terms, fetched) for choice in itertools.product(*items))
        here = paid([line[0] for line in lines], items, terms, fetched)
        # The spread is the best before each shop's tax is rounded to the cent.
        if here != total or sum(sums.values()) != total or abs(total - best) > CENT * len(sums):
            fault(f"seed {seed}: {head}: to buy {total}, by shop {sums}, worked out {here}; the best is {best}")
        spread += len(sums) > 1
    return spread


def complete(sheet, at, heading="To buy", label="to buy"):
    """A candidate's sum; None where something is missing of it."""
    cell = sheet.row(heading, label)["cells"][at]
    return None if "incomplete" in cell.get("marks", []) else Decimal(cell["value"])


def check_one(seed):
    """The one shop for all of a candidate, against a plan that names each shop in turn."""
    dice = random.Random(1000 + seed)
    # What a plan buys later it buys at its shop, and so without tax where that is private: no such here.
    folder, more, _ = draw(dice, f"one-{seed}", privates=0)
    shops = [*(name for name, of in shops_of("lowmere")[0].items() if not of[2]), *more]
    words = ["--sale", dice.choice(["list", "best"]), "--set", f"plan/pick-up={dice.choice(['yes', 'no'])}"]
    if dice.random() < 0.5:
        words += ["--set", f"setup/ppfd={dice.choice(['none', 'low', 'medium'])}"]
    if dice.random() < 0.3:
        words += ["--set", "candidate 2/price=31"]
    own = "In today's money", "present value"
    bill = Sheet("bill", "start", *words, "--set", "plan/shop=one", profiles=folder)
    spread = Sheet("bill", "start", *words, "--set", "plan/shop=several", profiles=folder)
    each = {shop: Sheet("bill", "start", *words, "--set", f"plan/shop={shop}", profiles=folder) for shop in shops}
    elsewhere = 0
    for at, head in enumerate(bill.columns):
        typed = "31" in words[-1] and at == 1  # at a shop that has the tank on its list alone
        sums = {shop: complete(sheet, at, "Over the period, in", own[1]) for shop, sheet in each.items()}
        sums = {shop: sum_ for shop, sum_ in sums.items() if sum_ is not None}
        found = complete(bill, at, "Over the period, in", own[1])
        if not sums:
            continue
        if complete(spread, at, "Over the period, in", own[1]) > found:
            fault(f"seed {seed}: {head}: at several shops more than at one, {found}: {complete(spread, at, 'Over the period, in', own[1])}")
        if found is None or (found > min(sums.values()) + CENT and not typed) or found < min(sums.values()) - CENT:
            fault(f"seed {seed}: {head}: at one shop {found}, but each in turn {sums}")
        elsewhere += min(sums, key=sums.get) != "lowmere-shop"
    return elsewhere


if sum(check_one(seed) for seed in range(1, 1 + max(2, 20 // STEP))) == 0:
    fault("no shop was better than the first")
if sum(check(seed) for seed in range(1, 1 + max(2, 30 // STEP))) == 0:
    fault("nothing was bought at several shops")
finish()
