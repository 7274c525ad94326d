# SPDX-License-Identifier: MIT
"""The cheapest spread over shops that the shopping list tells, against every way to spread it."""
import configparser
import glob
import itertools
import re
from decimal import ROUND_HALF_UP, Decimal

from tankcost import Sheet, fault, finish

FREE = Decimal(0)


def plain(text):
    return Decimal(text.split()[0]) if text and text.split()[0] not in ("none", "never") else None


def shops_of(region):
    """Terms and lists of the shops of a region, as the demonstration's files have them."""
    shops, lists = {}, {}
    for path in sorted(glob.glob("profiles/shops/*.ini")):
        file = configparser.ConfigParser(inline_comment_prefixes=("#", ";"), strict=True)
        file.read(path, encoding="utf-8")
        for name in file.sections():
            words = name.split()
            if words[0] == "shop" and file[name].get("region") == region:
                shops[words[1]] = (plain(file[name].get("delivery", "0")) or FREE,
                                   plain(file[name].get("delivery-free-from", "never")),
                                   file[name].get("seller", "shop") == "private")
            elif words[0] == "prices":
                for item, price in file[name].items():
                    lists[words[1], words[2], item] = plain(price)
    return shops, lists


def paid(choice, items, shops, names, tax):
    total = FREE
    for shop in set(choice):
        goods = sum(price[shop] for price, at in zip(items, choice) if at == shop)
        delivery, free, private = shops[names[shop]]
        total += goods * (1 + (FREE if private else tax))
        total += FREE if free is not None and goods >= free else delivery
    return total


def check(plan, own, region, tax, *words):
    shops, lists = shops_of(region)
    names = [own] + sorted(name for name in shops if name != own)
    sheet = Sheet("list", plan, "--set", f"plan/shop={own}", "--sale", "list", *words)
    notes = [note["text"] for note in sheet.json["notes"]]
    told = 0
    for head, rows in sheet.groups:
        items = []
        for row in rows:
            if row["kind"] != "line" or row["cells"][0]["kind"] == "empty" or row["cells"][2]["kind"] != "money":
                continue
            slot, item = re.match(r"(\S+(?: pump)?) ([^ ,]+)", row["label"]).groups()
            count, here = row["cells"][0]["value"], row["cells"][2]["value"]
            asked = [lists.get((name, slot.replace(" ", "-"), item)) for name in names[1:]]
            items.append([here] + [None if price is None else price * count for price in asked])
        ways = [[at for at, price in enumerate(item) if price is not None] for item in items]
        best = min(paid(choice, items, shops, names, tax) for choice in itertools.product(*ways))
        saved = (paid([0] * len(items), items, shops, names, tax) - best).quantize(Decimal("0.01"), ROUND_HALF_UP)
        said = [note for note in notes if note.startswith(head + ": buying ")]
        found = Decimal(re.search(r" saves ([0-9 ]+\.?[0-9]*) ", said[0]).group(1).replace(" ", "")) if said else FREE
        if abs(found - saved) > Decimal("0.01"):
            fault(f"{plan} at {own}: {head} saves {found}, not {saved}: {said}")
        told += bool(said)
    return told


def main():
    told = check("start", "lowmere-shop", "lowmere", Decimal("0.07"))
    told += check("start", "lowmere-web", "lowmere", Decimal("0.07"))
    if told == 0:
        fault("no spread over shops saves anything in the demonstration")
    finish()


if __name__ == "__main__":
    main()
