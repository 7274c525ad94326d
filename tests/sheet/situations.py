# SPDX-License-Identifier: MIT
"""
What the first sentence of a sheet says is what a knowledgeable friend would say.

Each plan of tests/data/situations is a situation, with the sentence a friend would say in it, written by
hand before the program was asked. Both sentences are read for what they mean: which tanks, shops and sales
they name, what they advise, and by which figures. Nor is a finding or a note too long to be said aloud, nor
does a finding tell a figure that the tables of the plan do not hold; so it is with all sheets of the demo.
"""
import glob
import os
import re

from findings import check_findings
from tankcost import STEP, Sheet, fault, finish, run

# What is advised, and the words it is said in.
MEANINGS = {
    "tie": r"about the same|toss-up",
    "toss-up": r"toss-up",
    "by shape": r"by shape",
    "wait": r"^wait\b",
    "buy": r"^buy\b",
    "take": r"^take\b|: take\b",
    "gift": r"as a gift",
    "cheapest": r"is the cheapest|costs? [\d., ]+(USD |JPY |yen |dollars )?less",
    "unlike": r"not the same thing",
    "nothing more": r"gives nothing",
    "none suits": r"none of these suits",
    "too warm": r"too warm",
    "too short": r"too short",
    "left off": r"left off",
    "of those that suit": r"that suit|to suit",
    "of those priced": r"of the \d+ (I can price|priced)",
    "alike": r"alike|the same but for",
    "today": r"\btoday\b",
    "comes back": r"(?<!not )comes back",
    "does not come back": r"does not come back",
    "fetch it": r"fetch it",
    "only": r"saves only",
}


def meaning(text, names):
    """What is advised, of which things, and by which figures."""
    advised = {key for key, words in MEANINGS.items() if re.search(words, text, re.I)}
    named = {name for name in names if re.search(r"(?<![\w.-])" + re.escape(name) + r"(?![\w-])", text)}
    for name in sorted(names, key=len, reverse=True):
        text = re.sub(r"(?<![\w.-])" + re.escape(name) + r"(?![\w-])", " ", text)
    text = re.sub(r"(?<=\d)[ ,](?=\d{3}(?!\d))", "", text)
    return advised, named, [float(figure) for figure in re.findall(r"\d+(?:\.\d+)?", text)]


def told(figure, figures):
    """A friend rounds: to whole dollars and degrees, or to what a shopper would say."""
    return any(abs(figure - other) <= max(0.51, 0.005 * abs(other)) for other in figures)


def check(path):
    with open(path, encoding="utf-8") as file:
        head = dict(re.findall(r"^# (\w+): (.*)$", file.read(), re.M))
    name = os.path.basename(path)[:-4]
    how = {"today": head.get("today", "2026-11-25")}
    sheet = Sheet(head["ask"], path, **how)
    findings = sheet.notes("finding")
    names = set(sheet.columns) | {"lowmere-shop", "lowmere-web", "tank-fair", "moving-out", "10-gal", "20-long"}
    friend, said = meaning(head["friend"], names), meaning(findings[0], names)
    for what, a, b in (("advice", friend[0], said[0]), ("names", friend[1], said[1])):
        if a != b:
            fault(f"{name}: {what}: the friend says {sorted(a)}, the program {sorted(b)}: {findings[0]}")
    if "second" in head and meaning(head["second"], names)[:2] != meaning(findings[1], names)[:2]:
        fault(f"{name}: the friend goes on '{head['second']}', the program '{findings[1]}'")
    for figure in friend[2]:
        if not told(figure, said[2]):
            fault(f"{name}: the friend says {figure}, the program does not: {findings[0]}")
    if ("invented" in head["friend"] or name != "own") != ("invented" in sheet.json["assumptions"]):
        fault(f"{name}: invented figures: {sheet.json['assumptions']}")
    return name, path, how


cases = [check(path) for path in sorted(glob.glob("tests/data/situations/*.ini"))]
if len(cases) < 20:
    fault(f"{len(cases)} situations")
for name, path, how in cases[::STEP]:
    for ask in ("bill", "sale"):
        check_findings(ask, path, **how)
    if name in ("tie", "unsuitable", "wide"):
        check_findings("doubts", path, options=("--draws", "100"), **how)
for plan, sheets in (("start", "bill years sale energy fit list shortlist doubts"), ("new-wall", "wall list"),
                     ("three-places", "bill places energy years sale")):
    for ask in sheets.split()[::STEP]:
        check_findings(ask, plan, options=("--draws", "100") if ask == "doubts" else ())
# What the shape forces one to buy is read at a glance, not over three screens.
for words in (("start",), ("new-wall",), ("three-places",),
              ("start", "--tank", "20-long", "--tank", "29-high", "--tank", "37-high"),
              ("start", "--tank", "55-standard", "--tank", "75-standard", "--tank", "40-breeder")):
    lines = run("fit", *words, "--width", 80).stdout.count("\n")
    if lines > 60:
        fault(f"fit of {' '.join(words)} at 80 columns has {lines} lines")
finish()
