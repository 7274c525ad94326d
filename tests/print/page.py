# SPDX-License-Identifier: MIT
"""Checks pages of HTML with python3-html5lib and python3-lxml.

    page.py PAGE SHEET.json [PAGE SHEET.json...]

Each page must be read without a fault by html5lib's strict parser (WHATWG HTML), and
each picture by lxml as XML (SVG 1.1 is XML), with names of its elements and
attributes that SVG has. It must ask for nothing from elsewhere and run no script.
Every id stands once, every link within the page leads to one. All that the sheets in
JSON say must stand in it as text: title, rows, cells, notes, charts. Then each page
is broken in ways that must not go unseen. A SHEET.json may hold several, as a list.
"""

import json
import re
import sys

import html5lib
from lxml import etree

XHTML = "{http://www.w3.org/1999/xhtml}"
SVG = "{http://www.w3.org/2000/svg}"
# SVG 1.1 (second edition), appendix K and L: of its names those that a picture here may use.
PARTS = {"svg", "pattern", "circle", "path", "rect", "line", "text", "title"}
NAMES = {
    "viewBox", "width", "height", "role", "aria-label", "id", "class", "patternUnits", "stroke", "fill", "opacity",
    "x", "y", "x1", "y1", "x2", "y2", "cx", "cy", "r", "d", "transform", "text-anchor", "textLength", "lengthAdjust",
    "font-size",
}
BREAKS = [
    ("</h1>", ""),
    ("<main>", "<main><script>x</script>"),
    ("<main>", '<main><img src="x.png" alt="x">'),
    ("<td class", "<td onclick=x class"),
    ("</svg>", "<x></svg>"),
    ("</title></rect>", "</rect>"),
    ('id="p1-1"', 'id="p1-9"'),
    ("<figcaption>[^<]*", "<figcaption>"),
    (r'<th scope="row">\w[^<]*', '<th scope="row">'),
]
faults = []


def fault(page, what):
    faults.append(f"{page}: {what}")


def check_form(page, text):
    """Returns the page's tree."""
    try:
        tree = html5lib.HTMLParser(strict=True).parse(text)
    except html5lib.html5parser.ParseError as error:
        fault(page, f"html5lib: {error}")
        return None
    ids = [e.get("id") for e in tree.iter() if e.get("id")]
    if len(ids) != len(set(ids)):
        fault(page, "an id stands twice")
    for element in tree.iter():
        if not isinstance(element.tag, str):
            fault(page, "a comment")
            continue
        name = element.tag.split("}")[1]
        if name in {"script", "link", "img", "iframe", "object", "embed", "base", "form", "foreignObject"}:
            fault(page, f"the element {name}")
        for attribute, value in element.attrib.items():
            if attribute.startswith("on") or attribute in {"src", "srcset", "action", "style"}:
                fault(page, f"the attribute {attribute}")
            if attribute.endswith("href") and (value[:1] != "#" or value[1:] not in ids):
                fault(page, f"a link to {value}")
            for used in re.findall(r"url\((.*?)\)", value) if attribute == "fill" else []:
                if used[:1] != "#" or used[1:] not in ids:
                    fault(page, f"a fill {used}")
    style = "".join(tree.find(f"{XHTML}head/{XHTML}style").itertext())
    if re.search(r"url\(|@import|expression|//", style):
        fault(page, "the style asks for something")
    return tree


def check_pictures(page, text):
    for svg in re.findall(r"<svg .*?</svg>", text, re.S):
        try:
            root = etree.fromstring(svg)
        except etree.XMLSyntaxError as error:
            fault(page, f"lxml: {error}")
            continue
        if not root.get("aria-label"):
            fault(page, "a picture without a name")
        if not root.findall(f".//{SVG}text"):
            fault(page, "a picture without text")
        for element in root.iter():
            if element.tag.removeprefix(SVG) not in PARTS or set(element.attrib) - NAMES:
                fault(page, f"a picture holds {element.tag} {dict(element.attrib)}")
            for name in ("width", "height"):
                if float(element.get(name, 1)) < 0:
                    fault(page, f"a picture holds {element.tag} {dict(element.attrib)}")


def plain(text):
    return re.sub(r"\s+", "", text)


def check_words(page, tree, sheet):
    body = plain("".join(tree.find(f"{XHTML}body").itertext()))
    said = [sheet["title"], sheet["assumptions"]]
    said += [c[k] for c in sheet["columns"] for k in ("head", "subhead")]
    for row in sheet["rows"]:
        said += [row["label"], row.get("unit", ""), row.get("text", "")]
        for cell in row.get("cells", []):
            if cell["kind"] in ("text", "missing", "money"):
                said.append(str(cell["value"]))
            said += cell.get("marks", [])
    said += [n["text"] for n in sheet["notes"]]
    for chart in sheet["charts"]:
        band = chart.get("band", "")
        said += [chart["title"], band]
        said += [s["name"] for s in (chart["series"][:-2] if band else chart["series"])]
    if sheet["drawing"]:
        said.append(sheet["drawing"]["title"])
        said += [b["label"] for b in sheet["drawing"]["boxes"] if b.get("label")]
    for text in said:
        if plain(text) not in body:
            fault(page, f"does not say '{text}'")


def check(page, text, sheets):
    tree = check_form(page, text)
    check_pictures(page, text)
    for sheet in sheets if tree is not None else []:
        check_words(page, tree, sheet)


broken = set()
for page, path in zip(sys.argv[1::2], sys.argv[2::2], strict=True):
    with open(page, encoding="utf-8") as file:
        text = file.read()
    with open(path, encoding="utf-8") as file:
        sheets = json.load(file, parse_float=str, parse_int=str)
    sheets = sheets if isinstance(sheets, list) else [sheets]
    check(page, text, sheets)
    for pattern, instead in BREAKS:
        worse, changes = re.subn(pattern, instead, text, count=1)
        if (pattern, instead) in broken or not changes:
            continue
        known = len(faults)
        check(page, worse, sheets)
        if len(faults) > known:
            broken.add((pattern, instead))
            del faults[known:]
faults += [f"'{instead}' for '{pattern}' is not seen in any page" for pattern, instead in BREAKS if (pattern, instead) not in broken]
print("\n".join(faults))
sys.exit(bool(faults))
