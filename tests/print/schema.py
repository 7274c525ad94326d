# SPDX-License-Identifier: MIT
"""Checks sheets in JSON against sheet.schema.json (JSON Schema, draft 2020-12) with python3-jsonschema.

    schema.py SCHEMA FILE...

What a schema cannot say is checked beside it: that every row has a cell for each
column, every series a value for each point. Then each sheet is broken in ways that
the schema must not let pass.
"""

import copy
import json
import sys

import jsonschema


def shape(sheet):
    """What the schema cannot say."""
    for row in sheet["rows"]:
        if "cells" in row and len(row["cells"]) != len(sheet["columns"]):
            yield f"row {row['label']!r} has {len(row['cells'])} cells for {len(sheet['columns'])} columns"
    for chart in sheet["charts"]:
        points = len(chart["x"])
        if len(chart["x_labels"]) != points or any(len(s["values"]) != points for s in chart["series"]):
            yield f"chart {chart['title']!r} has not {points} labels and values"


def broken(sheet):
    """The sheet with a single thing wrong."""
    for change in (
            lambda s: s.pop("notes"), lambda s: s.update(extra=1), lambda s: s.update(format=2),
            lambda s: s["rows"].append({"kind": "line", "label": "x", "unit": ""}),
            lambda s: s["rows"].append({"kind": "odd", "label": "x"}),
            lambda s: s["rows"].append({"kind": "line", "label": "x", "unit": "", "cells": [
                {"kind": "money", "value": 1}]}),
            lambda s: s["rows"].append({"kind": "line", "label": "x", "unit": "", "cells": [
                {"kind": "number", "value": 1, "decimals": 0, "currency": "USD"}]}),
            lambda s: s["notes"].append({"kind": "finding", "text": ""}),
            lambda s: s["charts"].append({"kind": "bars", "title": "x"})):
        other = copy.deepcopy(sheet)
        change(other)
        yield other


def main(schema_path, *paths):
    with open(schema_path, encoding="utf-8") as file:
        schema = json.load(file)
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    faults = 0
    for path in paths:
        with open(path, encoding="utf-8") as file:
            sheet = json.load(file)
        wrong = [f"{'/'.join(map(str, e.absolute_path))}: {e.message}" for e in validator.iter_errors(sheet)]
        wrong += list(shape(sheet))
        for number, other in enumerate(broken(sheet) if path.endswith("-start.json") else ()):
            if validator.is_valid(other):
                wrong.append(f"broken in way {number}, and the schema lets it pass")
        faults += len(wrong)
        for what in wrong[:5]:
            print(f"{path}: {what[:300]}")
    print(f"{len(paths)} sheets against the schema, {faults} faults")
    return 1 if faults or not paths else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
