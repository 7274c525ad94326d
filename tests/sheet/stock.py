# SPDX-License-Identifier: MIT
"""What each shop asks, side by side, against the profiles read a second time with Python's configparser."""
import configparser
import glob
import os
import re
from decimal import ROUND_HALF_UP, Decimal

from tankcost import SCRATCH, Sheet, fault, finish, profiles_with

KINDS = ("tank", "stand", "lid", "light", "filter", "air-pump", "heater", "substrate")

# A shop, a tank and a list of one's own beside the demonstration.
OWN = {"shops/mine.ini": "[shop my-shop]\nregion = lowmere\n[prices my-shop tank]\n20-long = 39.99\nbox = 70\n",
       "tanks/mine.ini": "[tank box]\nlength = 36 in\nwidth = 15 in\nheight = 16 in\nprice = 66 USD, 60 EUR\n"}


def read(folder):
    """All sections: {(words of the head): {key: value}}, with the file of each."""
    sections = {}
    for path in sorted(glob.glob(os.path.join(folder, "*", "*.ini"))):
        parser = configparser.ConfigParser(interpolation=None, inline_comment_prefixes=("#", ";"), strict=False)
        parser.read(path, encoding="utf-8")
        for head in parser.sections():
            sections[tuple(head.split())] = (dict(parser[head]), path)
    return sections


def middle(text):
    """The figure of a price, of a range its middle."""
    figures = [Decimal(each) for each in re.findall(r"[0-9.]+", text.split("likely")[0])]
    return sum(figures) / len(figures)


def asked(sections, kind, item, shop):
    """What a shop asks for a thing by the profiles; None where it does not sell it."""
    terms = sections[("shop", shop)][0]
    listed = sections.get(("prices", shop, kind), ({},))[0].get(item)
    if listed:
        return middle(listed)
    if terms.get("seller", "shop") == "private":
        return None
    code = sections[("region", terms["region"])][0]["currency"]
    own = sections[(kind, item)][0].get("price", "")
    found = re.search(r"([0-9.]+)\s*" + code, own)
    return Decimal(found.group(1)) if found else None


def told(cell):
    return Decimal(cell["value"]) if cell["kind"] == "money" else None


def check_row(sections, kind, sheet, row, shops):
    where = f"stock {kind}, {row['label']}"
    prices = {}
    for shop, column in shops.items():
        cell, wanted = row["cells"][column], asked(sections, kind, row["label"], shop)
        if told(cell) != wanted:
            fault(f"{where}: {shop} asks {cell['value']}, not {wanted}")
        if wanted is None and cell["kind"] != "missing":
            fault(f"{where}: {shop} has no gap")
        prices[shop] = wanted
    for shop, column in shops.items():  # the lowest of a region, where others sell it as well
        region = sections[("shop", shop)][0]["region"]
        others = [prices[other] for other in shops if other != shop and prices[other] is not None
                  and sections[("shop", other)][0]["region"] == region]
        best = prices[shop] is not None and others != [] and prices[shop] < min(others)
        if best != ("best" in row["cells"][column].get("marks", [])):
            fault(f"{where}: {shop} is {'not ' if best else ''}marked as the lowest")
    columns = {name: sheet.columns.index(name) for name in ("whose", "file")}
    keys, path = sections[(kind, row["label"])]
    whose = row["cells"][columns["whose"]]["value"]
    if whose != "yours":  # --profiles are the user's; what is installed, see below
        fault(f"{where}: whose is '{whose}'")
    if not row["cells"][columns["file"]]["value"].startswith(path + ":"):
        fault(f"{where}: stands in '{row['cells'][columns['file']]['value']}', not in {path}")
    return prices


def check_kind(folder, sections, kind):
    sheet = Sheet("stock", kind, profiles=folder)
    shops = {head: i for i, head in enumerate(sheet.columns) if ("shop", head) in sections}
    rows = [row for row in sheet.group(kind) if row["kind"] == "line"]
    names = {words[1] for words in sections if words[0] == kind}
    if {row["label"] for row in rows} != names:
        fault(f"stock {kind} lists other things than the profiles hold")
    all_prices = [check_row(sections, kind, sheet, row, shops) for row in rows]
    for shop in {words[1] for words in sections if words[0] == "shop"}:
        sells = any(asked(sections, kind, name, shop) is not None for name in names)
        if sells != (shop in shops):
            fault(f"stock {kind}: {shop} {'sells some and has no column' if sells else 'has a column and sells none'}")
    for shop, column in shops.items():
        sold = sheet.value(kind, "sold there", column)
        if sold != sum(prices[shop] is not None for prices in all_prices):
            fault(f"stock {kind}: {shop} sells {sold} things")
    for region in {sections[("shop", shop)][0]["region"] for shop in shops}:
        there = [shop for shop in shops if sections[("shop", shop)][0]["region"] == region
                 and sections[("shop", shop)][0].get("seller", "shop") == "shop"]
        common = [prices for prices in all_prices if all(prices[shop] is not None for shop in there)]
        for shop in there:
            together = sheet.value(kind, "these together", shops[shop])
            wanted = sum(prices[shop] for prices in common) if len(there) > 1 and common else None
            if together != wanted:
                fault(f"stock {kind}: {shop} asks {together} together, not {wanted}")


folder = profiles_with("stock", [], OWN)
sections = read(folder)
for kind in KINDS:
    check_kind(folder, sections, kind)

# In one money: by the rate that the region's profile gives.
usd = Sheet("stock", "heater", "--money", "USD")
eur = Sheet("stock", "heater")
rate, code = sections[("region", "vintersund")][0]["exchange"].split()
column = usd.columns.index("vintersund-shop")
if code != "USD":
    fault("vintersund quotes no dollars")
for before, after in zip(eur.group("heater"), usd.group("heater")):
    if before["kind"] == "line":
        wanted = (told(before["cells"][column]) * Decimal(rate)).quantize(Decimal("0.01"), ROUND_HALF_UP)
        if told(after["cells"][column]) != wanted:
            fault(f"{before['label']} costs {told(after['cells'][column])} USD at vintersund-shop, not {wanted}")
        cells = after["cells"][1:-3]
        lowest = min(told(cell) for cell in cells)
        if [("best" in cell.get("marks", [])) for cell in cells] != [told(cell) == lowest for cell in cells]:
            fault(f"{before['label']}: the lowest of all shops is not marked")

# Only the shops of a region; and whose: what is installed and what is one's own.
there = Sheet("stock", "light", "--region", "lowmere").columns
if "vintersund-shop" in there or "lowmere-web" not in there:
    fault(f"--region lowmere compares {there}")
os.environ["TANKCOST_DATA"] = "profiles"
own = os.path.join(SCRATCH, "whose")
os.makedirs(os.path.join(own, "tanks"))
with open(os.path.join(own, "tanks", "mine.ini"), "w", encoding="utf-8") as file:
    file.write(OWN["tanks/mine.ini"])
sheet = Sheet("stock", profiles=own)
column = sheet.columns.index("whose")
for kind, name, whose in (("tank", "box", "yours"), ("tank", "20-long", "installed"), ("lid", "glass-20x10", "invented"),
                          ("region", "lowmere", "invented"), ("region", "average-italy", "installed"),
                          ("shop", "lowmere-web", "invented")):
    if sheet.value(kind, name, column) != whose:
        fault(f"{kind} {name} is '{sheet.value(kind, name, column)}', not {whose}")
finish()
