# SPDX-License-Identifier: MIT
"""
The words of all sheets: a figure that can hurt somebody has its caution on the same sheet, in every format;
inches are in the eighths of a tape measure; and one thing has one word.
"""
import glob
import re

from tankcost import STEP, Sheet, fault, finish, run

SHEETS = [(ask, plan, *words) for plan, sheets in (
    ("start", ("bill", "years", "sale", "energy", "fit", "fit --why", "places", "list", "shortlist --all",
               "doubts --draws 100", "whatif --vary plan/years=2..20")),
    ("new-wall", ("bill --walls", "years --walls", "energy", "fit", "list", "wall")),
    ("three-places", ("bill", "energy", "fit", "places", "list", "shortlist")))
    for ask, *words in (sheet.split() for sheet in sheets)]
SHEETS += [("wall", "new-wall", "--set", "wall/fixed=yes", "--set", "candidate 3/quantity=20"),
           ("wall", "new-wall", "--set", "wall/length=60 in", "--set", "wall/length-2=45.5 in",
            "--set", "candidate 2/wall-least=none", "--set", "wall/circuit-2-current=15 A"),
           ("stock",), *(("stock", kind) for kind in ("tank", "stand", "lid", "light", "filter", "air-pump", "heater"))]

# The unit or words of a figure, and the cautions that have to stand with it. Common practice, no source.
DANGERS = (
    (r"\d psf", "Floor"),
    (r"\d lb$|\d lb\b.*\b(carries|load|filled)|weight", "Stand"),
    (r"\d k?Wh? |\d k?W$|^(heater|light|filters?|air pump)s?\b", "Electricity"),
    (r"lost to the air.*\d|into its air", "Damp"),
    (r"^(circuit|power with everything on)", "Circuit"),
    (r"^(rack(?!-)|load rating of a shelf|heaviest bay)|rack shel", "Rack"),
    (r"^(outside|glass$|nominal volume)|^tank ", "Glass"),
)
INCHES_IN_DECIMALS = r"\d\.\d+ in\b(?!²)"
# Amounts of money alone hurt nobody.
MONEY_ALONE = ("years", "sale", "doubts", "whatif", "places")


def lines_of(sheet):
    """What is said: each row with a figure as "LABEL FIGURE UNIT", each sentence."""
    for heading, rows in sheet.groups:
        for row in rows:
            if row.get("text"):
                yield f"{row['label']} {row['text']}"
            for cell in row.get("cells") or []:
                if cell["kind"] != "money" and cell["value"] not in (None, ""):
                    yield f"{row['label']} {cell['value']} {row.get('unit') or ''}".rstrip()
    yield from sheet.notes("finding")
    yield from sheet.notes("remark")


def check_cautions(where, sheet):
    cautions = sheet.notes("caution")
    said = {caution.split(":")[0] for caution in cautions}
    for line in lines_of(sheet):
        for pattern, caution in DANGERS:
            if re.search(pattern, line) and caution not in said:
                fault(f"{where}: no caution '{caution}' for: {line}")
    # Who prints one note prints all: a sheet or two show it.
    for form in ("text", "csv", "markdown", "html") if where in ("fit start", "list start") else ():
        printed = re.sub(r"\s+", " ", re.sub(r"<[^>]*>|\\", "", run(*where.split(), "--format", form).stdout))
        for caution in cautions:
            opening = " ".join(caution.split()[:5])
            if opening not in printed:
                fault(f"{where}: --format {form} lacks '{opening}'")


def check_inches(where, sheet):
    """A number in eighths has three decimals for another program; "12.5 in" is nowhere."""
    for heading, rows in sheet.groups:
        for row in rows:
            for cell in row.get("cells") or []:
                if row.get("unit") == "in" and cell["kind"] == "number" and cell["decimals"] != 3:
                    fault(f"{where}: decimals of an inch: {heading}, {row['label']}")
                if cell["kind"] == "text" and re.search(INCHES_IN_DECIMALS, cell["value"] + " " + row["unit"]):
                    fault(f"{where}: decimals of an inch: {row['label']} {cell['value']}")
            if re.search(INCHES_IN_DECIMALS, row.get("text") or ""):
                fault(f"{where}: decimals of an inch: {row['text']}")
    for note in sheet.notes():
        if re.search(INCHES_IN_DECIMALS, note):
            fault(f"{where}: decimals of an inch: {note}")


# US spelling, and one word for one thing: what is written for each of these is in the comment.
STRAYS = (r"colour|litre|\bcentre|\bgrey\b|mould\b|draught|neighbour|favour|licence|towards|whilst|cancell|labell|modell"
          r"|vapour|behaviour|organis|recognis|minimis|summaris"
          r"|\btill\b"  # checkout
          r"|\bbeds?\b"  # substrate
          r"|\bfrom lamps|\bthe lamps"  # light, lights
          r"|likewise|\banew\b|reckon")


def check_strays():
    """What the program can say: the strings of its sources that are sentences or labels, and its manual for users."""
    texts = []
    for path in glob.glob("src/**/*.c", recursive=True):
        with open(path, encoding="utf-8") as file:
            code = re.sub(r"/\*.*?\*/|^#include.*?$", " ", file.read(), flags=re.S | re.M)
        texts += [(path, text) for text in re.findall(r'"((?:[^"\\\n]|\\.)*)"', re.sub(r'"\s*"', "", code))
                  if " " in text]
    for path in ("README.md", "man/tankcost.1", "man/tankcost-profiles.5", "man/tankcost-output.5"):
        with open(path, encoding="utf-8") as file:
            texts += [(path, line) for line in file]
    for path, text in texts:
        stray = re.search(STRAYS, text, re.I)
        if stray:
            fault(f"{path}: '{stray[0]}' in: {text.strip()}")


check_strays()
for words in SHEETS[::STEP]:
    name = " ".join(words)
    sheet = Sheet(*words, "--units", "us")
    if words[0] not in MONEY_ALONE:
        check_cautions(name, sheet)
    check_inches(name, sheet)
finish()
