#!/bin/sh
# SPDX-License-Identifier: MIT
# Every sheet of every plan of the demo, as JSON, is as sheet.schema.json says.
set -u
cd "$(dirname "$0")/../.." || exit 3
: "${BUILD:=build}" "${PYTHON:=python3}" "${TEST_STEP:=1}"
for python in "$PYTHON" /usr/bin/python3 python3 ''; do
    [ -n "$python" ] || { echo "skipped: there is no python3-jsonschema here (make deps check installs it)"; exit 77; }
    "$python" -c 'from jsonschema import Draft202012Validator' 2>/dev/null && break
done
scratch=$(mktemp -d) || exit 3
trap 'rm -rf "$scratch"' EXIT
HOME=$scratch XDG_DATA_HOME=$scratch/none
export HOME XDG_DATA_HOME
show() { "$BUILD/tankcost" --profiles profiles --today 2026-11-25 --draws 500 --format json "$@" 2>/dev/null; }
sheets=$("$BUILD/tankcost" complete '' | sed -n 's/^\([a-z]*\)	.*?$/\1/p')
[ -n "$sheets" ] || { echo "there are no sheets"; exit 1; }
for sheet in $sheets; do
    for plan in profiles/plans/*.ini; do
        plan=$(basename "$plan" .ini)
        [ "$TEST_STEP" = 1 ] || [ "$plan" = start ] || [ "$sheet" = wall ] || continue # where all is slow, fewer
        show "$sheet" "$plan" >"$scratch/$sheet-$plan.json" || rm "$scratch/$sheet-$plan.json"
        # with parts that do not fit, prices that are not known, and what is typed
        show "$sheet" "$plan" --set 'candidate 1/heater=h25' --set 'candidate 1/price=12' \
            --region vintersund >"$scratch/$sheet-$plan-odd.json" || rm "$scratch/$sheet-$plan-odd.json"
    done
    ls "$scratch/$sheet"-* >/dev/null 2>&1 || { echo "no plan has the sheet $sheet"; exit 1; }
done
show stock >"$scratch/stock.json"
"$python" tests/print/schema.py tests/print/sheet.schema.json "$scratch"/*.json || exit 1

# The example of tankcost-output(5) does what the page says.
example=$(sed -n "/python3 -c '/,/'\$/p" man/tankcost-output.5 | sed "1d; s/'\$//")
show bill start | "$python" -c "$example" >"$scratch/findings" && [ -s "$scratch/findings" ] ||
    { echo "the example of tankcost-output(5) fails: $(cat "$scratch/findings")"; exit 1; }
