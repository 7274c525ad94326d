# SPDX-License-Identifier: MIT
"""Holds the findings of a sheet against the tables of its plan: every figure told stands there, or follows."""
import datetime
import functools
import glob
import re
from decimal import Decimal

from tankcost import Sheet, fault

FRACTIONS = {"⅛": 0.125, "¼": 0.25, "⅜": 0.375, "½": 0.5, "⅝": 0.625, "¾": 0.75, "⅞": 0.875}
MOST_FINDINGS, MOST_WORDS = 5, 30
# What no sheet of the plan holds, and which other test works it out anew.
ELSEWHERE = (
    r"^Buying .* saves.*|^.* makes delivery free.*",  # other ways to spread the list over shops: shops.py
    r", mainly for .*",  # which lines make places differ: test_places.c
    r"^Bays? \d.*|^To buy: \d.*",  # where tanks stand, and what is bought for them: wall.py
    r".*plug-in meter.*",  # what knowing a range is worth: doubts.py
    r"^From the end of year.*",  # where the lines of the years cross: years.py
    r".* (would do|could have) .*",  # a tank that is not in the plan, on the shortlist: test_shortlist.c
)


# What a sentence calls a fact: its row on the sheet fit, and how the figure follows from it.
FACTS = (("(more|less|the) water", "actual water", "share"), ("gal(lons)? of water", "actual water", "itself"),
         ("L of water", "actual water", "itself"), ("of the draws", "chance", "itself"),
         ("kWh of elec", "electricity in all, a year", "itself"), ("(more|the) bottom", "bottom and surface", "share"),
         ("more to swim", "length to swim", "difference"), ("of wall", "outside", "difference"),
         ("more height for plants", "height for plants", "difference"),
         (", not|[)] and|[)];", "reach to substrate", "itself"))


def figures_of(text):
    """The figures of a sentence, each with its unit and the words after it."""
    text = re.sub(r"\b\d{1,2} (Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec) \d{4}", " ", text)
    text = re.sub(r"(?<=\d) (?=\d{3}(?!\d))", "", text)
    return [(float(match[1] or 0) + FRACTIONS.get(match[2] or match[3], 0), match[4] or "",
             text[match.end():match.end() + 24].strip())
            for match in re.finditer(r"(?:(\d+(?:\.\d+)?)([⅛¼⅜½⅝¾⅞])?|([⅛¼⅜½⅝¾⅞]))(?: ?([^\s\d.,;:)]+))?", text)]


class Tables:
    """All figures of some sheets by what they are of: amounts of money, and others; dates and texts."""

    def __init__(self, sheets):
        self.money, self.facts, self.texts, self.dates, self.suits = [], {}, [], [], []
        self.names = set()
        for sheet in sheets:
            self.names |= set(sheet.columns)
            self.texts += sheet.notes()
            for heading, rows in sheet.groups:
                for row in rows:
                    self.add(sheet, heading, row)

    def add(self, sheet, heading, row):
        if row["label"].startswith("suits the animals"):
            self.suits = [cell["value"] for cell in row["cells"]]
        self.texts.append(row.get("text") or "")
        for head, cell in zip(sheet.columns, row.get("cells") or []):
            value = cell["value"]
            tags = {head, row["label"]}
            if cell["kind"] == "money" and value is not None:
                self.money += [(key, value, tags) for key in (row["label"], heading + "/" + head)]
            elif isinstance(value, Decimal):
                self.facts.setdefault(row["label"], []).append((float(value), tags))
            elif isinstance(value, str):
                self.texts.append(value)
                if row["label"].startswith("outside"):
                    length = re.match(r"(\d+)?([⅛¼⅜½⅝¾⅞])?(\.\d+)?", value)
                    self.facts.setdefault("outside", []).append(
                        (float(length[1] or 0) + FRACTIONS.get(length[2], 0) + float(length[3] or 0), tags))
                if re.fullmatch(r"\d{4}-\d\d-\d\d", value):
                    self.dates.append(datetime.date.fromisoformat(value))

    def fact(self, figure, words, named):
        """Whether a fact told in these words is on the sheets; None where they tell none."""
        for told, label, how in FACTS:
            if not re.match(told, words):
                continue
            everybody = [value for value, _ in self.facts.get(label, ())]
            values = [value for value, tags in self.facts.get(label, ()) if not named or tags & named]
            several = [(a, b) for a in values for b in everybody if a != b]
            if how == "itself":
                return any(abs(value - figure) <= max(0.13, 0.004 * figure) for value in values)
            if how == "difference":
                return any(abs(a - b - figure) <= 0.17 for a, b in several)
            # A share is told in whole percents, of figures that are rounded on the sheet.
            return any(abs(100 * a / b - 100 - figure) <= 1 or abs(a / b - figure) <= max(0.06, 0.05 * figure)
                       for a, b in several)
        return None

    def holds_money(self, figure, named):
        """An amount of what is named, or by how much it differs from another of its row or column."""
        own, everybody = {}, {}
        for key, value, tags in self.money:
            everybody.setdefault(key, set()).add(float(value))
            if not named or tags & named:
                own.setdefault(key, set()).add(float(value))
        return any(abs(figure - a) < 0.005 or any(abs(abs(a - b) - figure) < 0.005 for b in everybody[key])
                   for key, group in own.items() for a in group)

    def holds_days(self, figure, today):
        days = [(date - today).days for date in self.dates]
        return any(figure in (day, round(day / 30.44)) for day in days)

    @functools.cached_property
    def counts(self):
        """How many pieces a tank takes, and how many parts there are to choose from."""
        texts = [text for text in self.texts if "does not suit" not in text]
        return {1} | {int(count) for text in texts
                      for count in re.findall(r"^(\d+) × |best of (\d+) that fit", text) for count in count if count}

    def counted(self, figure):
        yes, all_of = self.suits.count("yes"), len(self.suits)
        return figure in {yes, all_of, all_of - yes - 2, yes - 1} or figure in self.counts

    def for_each_extra(self, figure, named):
        """What extra money is for each extra gallon or liter; the sheet's volumes are rounded to a tenth."""
        def gaps(figures):
            more = [value for value, tags in figures if tags & named]
            return [abs(a - b) for a in more for b, _ in figures if a != b]

        owned = gaps([(float(value), tags) for key, value, tags in self.money if key.startswith("to own over")])
        water = gaps(self.facts["actual water"])
        return any(m / (w + 0.11) <= figure + 0.011 and figure - 0.011 <= m / (w - 0.11)
                   for m in owned for w in water if w > 0.2)


@functools.lru_cache(maxsize=8)
def others(plan, words, today):
    """The bill and the parts of a plan, on which what other sheets say rests as well."""
    return Tables([Sheet("bill", plan, *words, today=today), Sheet("fit", plan, *words, "--why", today=today),
                   Sheet("sale", plan, *words, today=today)])


# What is wrong with a tank, and the row of the sheet fit or energy that it follows from.
WRONGS = (("too short", "length to swim"), ("too small at the bottom", "bottom and surface"),
          ("too deep", "reach to substrate"), ("too small for the territories", "territories, by your rule"),
          ("too small for so many", "animals, by your rule"), ("too warm", "hottest water"))


def limits_of(plan, setup):
    """The limits that a setup and a plan's file hold, in the units of the file and in the other ones."""
    text = ""
    for path in glob.glob("profiles/setups/*.ini") + glob.glob(plan):
        with open(path, encoding="utf-8") as file:
            for name, section in re.findall(r"^\[([^]]*)\]\n(.*?)(?=^\[|\Z)", file.read(), re.M | re.S):
                text += section if name in ("setup " + setup, "assume setup") else ""
    found = re.findall(r"^(?:least|greatest|warm|territor|shoal|animals)[\w-]* = ([\d.]+) ?(\w*)", text, re.M)
    return [value for number, unit in found
            for value in ([float(number), 1.8 * float(number) + 32] if unit == "C" else [float(number)])]


def unfit_stands(ask, plan, words, today, text, figure, named):
    """Whether a figure of a sentence on what does not suit is a limit of the setup, or what the tank gives."""
    told = [row for wrong, row in WRONGS if wrong in text]
    sheet = others(plan, words, today)
    if "too warm" in text:
        sheet = Tables([Sheet("energy", plan, *words, today=today)])
    have = [value for row in told for value, tags in sheet.facts.get(row, ()) if tags & named]
    setup = re.match(r"setup ([\w-]+)", Sheet(ask, plan, *words, today=today).json["assumptions"])[1]
    return any(abs(value - figure) <= 0.07 for value in have + limits_of(plan, setup))


def stands(tables, own, named, figure, unit, after, today):
    """Whether a figure of a finding is on the plan's sheets or follows from them."""
    both = (tables, own)
    words = f"{unit} {after}"
    facts = [table.fact(figure, part, named & table.names) for table in both for part in (after, words)]
    if any(fact is not None for fact in facts):
        return any(facts)
    if unit.startswith(("day", "month")):
        return any(table.holds_days(figure, today) for table in both)
    if unit in ("in", "cm"):
        return tables.fact(figure, ", not", named)
    if words.startswith("for each extra"):
        return tables.for_each_extra(figure, named)
    if unit == "×":
        return any(value == figure for values in own.facts.values() for value, tags in values if tags & named)
    if any(table.holds_money(figure, named & table.names) for table in both):
        return True
    return figure == int(figure) and figure <= 12 and tables.counted(figure)


def sentences(text):
    return [part for part in re.split(r"(?<=[.?!:])\s+(?=[A-Z\"])", text) if part]


def check_words(where, sheet):
    for note in sheet.json["notes"]:
        for sentence in sentences(note["text"]):
            words = len(sentence.split())
            if words > MOST_WORDS and not sentence.startswith(("Invented for", "Assumed, as")):
                fault(f"{where}: {words} words: {sentence}")
    findings = sheet.notes("finding")
    if len(findings) > MOST_FINDINGS:
        fault(f"{where}: {len(findings)} findings: {findings}")
    return findings


def check_findings(ask, plan, *words, options=(), today="2026-11-25"):
    sheet = Sheet(ask, plan, *words, *options, today=today)
    where = f"{ask} {plan} {' '.join(words)}"
    findings = check_words(where, sheet)
    tables = others(plan, words, today)
    own = Tables([sheet])
    day = datetime.date.fromisoformat(today)
    for text in findings:
        for pattern in ELSEWHERE:
            text = re.sub(pattern, "", text)
        names = tables.names | own.names
        if ask in ("shortlist", "places", "wall"):
            names = names | {row["label"] for _, rows in sheet.groups for row in rows if re.search(r"\d-", row["label"])}
        names = {name for name in names if re.search(r"(?<![\w.-])" + re.escape(name) + r"(?![\w-])", text)}
        left = text
        for name in sorted(names, key=len, reverse=True):
            left = re.sub(r"(?<![\w.-])" + re.escape(name) + r"(?![\w-])", " ", left)
        for figure, unit, after in figures_of(left):
            if unit.startswith("year") and f"{figure:g} year" in sheet.json["assumptions"]:
                continue
            if unit and re.search("does not suit|None of these suits", text):
                held = unfit_stands(ask, plan, words, today, text, figure, names)
            else:
                held = stands(tables, own, names, figure, unit, after, day)
            if not held:
                fault(f"{where}: the tables hold no {figure:g} {unit} {after} of: {text}")
