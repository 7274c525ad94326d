#!/bin/sh
# SPDX-License-Identifier: MIT
# Reads the golden CSV and JSON files, which test_csv and test_json hold to what
# is printed, with python3's csv and json modules, and compares what they say.
set -u
cd "$(dirname "$0")/../golden/print" || exit 3
. ../../support/need.sh
: "${PYTHON:=python3}"
need "$PYTHON"
for file in *.json; do
    "$PYTHON" -m json.tool "$file" >/dev/null || { echo "$file: not JSON"; exit 1; }
done
exec "$PYTHON" - ./*.json <<'END'
import csv, json, sys
from decimal import Decimal

failed = 0
def fault(name, what):
    global failed
    failed = 1
    print(f"{name}: {what}")

def no_constant(text):  # NaN and Infinity, which Python reads and RFC 8259 does not know
    raise ValueError(text)

for path in sys.argv[1:]:
    name = path[:-len(".json")]
    with open(path, encoding="utf-8") as file:
        sheet = json.load(file, parse_float=Decimal, parse_int=Decimal, parse_constant=no_constant)
    with open(name + ".csv", "rb") as file:
        raw = file.read()
    if raw.count(b"\n") != raw.count(b"\r\n") or not raw.endswith(b"\r\n"):
        fault(name, "a record does not end in CR LF")
    with open(name + ".csv", encoding="utf-8", newline="") as file:
        records = list(csv.reader(file, strict=True))
    head = records[0]
    if any(len(r) != len(head) for r in records):
        fault(name, "records of different lengths")
    if len(set(head)) != len(head):
        fault(name, "two fields of one name")
    rows = [dict(zip(head, r)) for r in records[1:]]
    plain = lambda text: text[1:] if text[:1] == "'" else text
    for r in rows:
        for field, text in r.items():
            if text[:1] in ("=", "+", "@", "\t", "\r") or text[:1] == "-" and not Decimal(text).is_finite():
                fault(name, f"a spreadsheet would run {text!r}")

    # The same sheet in both: columns, rows with their groups, figures, marks, notes.
    columns = [c["head"] + (f" ({c['subhead']})" if c["subhead"] else "") for c in sheet["columns"]]
    columns = [c + (f" #{columns[:i].count(c) + 1}" if columns[:i].count(c) else "") for i, c in enumerate(columns)]
    columns = ["'" + c if c[0] in "=+-@" else c for c in columns]
    said = [r for r in rows if r["kind"] in ("line", "subtotal", "total", "sentence")]
    wanted = []
    group = ""
    for row in sheet["rows"]:
        if row["kind"] == "group":
            group = row["label"]
        else:
            wanted.append((group, row))
    if len(said) != len(wanted):
        fault(name, f"{len(said)} rows for {len(wanted)}")
    for record, (group, row) in zip(said, wanted):
        if (record["kind"], plain(record["label"]), record["group"]) != (row["kind"], row["label"], group):
            fault(name, f"{record} is not {row}")
        if row["kind"] == "sentence":
            if plain(record[columns[0]]) != row["text"]:
                fault(name, f"{record} is not {row}")
            continue
        money = {c["currency"] for c in row["cells"] if c["kind"] == "money"}
        if record["currency"] != (money.pop() if len(money) == 1 else ""):
            fault(name, f"the currency of {record}")
        for column, cell in zip(columns, row["cells"]):
            text, value = record[column], cell["value"]
            if cell["kind"] in ("money", "number") and value is not None:
                same = Decimal(text) == value
                if cell["kind"] == "money":  # with all decimals of the currency
                    same = same and Decimal(text).as_tuple() == value.as_tuple()
            else:
                same = plain(text) == (value or "")
            if not same or record.get(column + " marks", "").split() != cell.get("marks", []):
                fault(name, f"{column} of {record} is not {cell}")
            several = cell["kind"] == "money" and not record["currency"]
            if several and record[column + " currency"] != cell["currency"]:
                fault(name, f"the currency of {column} of {record}")
    notes = [(r["kind"], plain(r["label"])) for r in rows if r["kind"] in ("finding", "remark", "caution", "fault")]
    if notes != [(n["kind"], n["text"]) for n in sheet["notes"]]:
        fault(name, "the notes differ")
    points = [(r["group"], r["label"], r["y"]) for r in rows if r["kind"] == "point"]
    series = [(c["title"], s["name"], v) for c in sheet["charts"] for s in c["series"] for v in s["values"]]
    if len(points) != len(series) or any(
            p[:2] != s[:2] or (p[2] != "" if s[2] is None else Decimal(p[2]) != s[2]) for p, s in zip(points, series)):
        fault(name, "the points differ")
    boxes = [[r["letter"]] + [Decimal(r[k]) for k in ("x", "y", "width", "height")] for r in rows if r["kind"] == "box"]
    drawn = [[b["letter"], b["x"], b["y"], b["width"], b["height"]] for b in (sheet["drawing"] or {"boxes": []})["boxes"]]
    if boxes != drawn:
        fault(name, "the boxes differ")

sys.exit(failed)
END
