#!/bin/sh
# SPDX-License-Identifier: MIT
# Sheets as HTML are valid, stand by themselves, and say all that the same sheets say in JSON; see page.py.
set -u
cd "$(dirname "$0")/../.." || exit 3
: "${BUILD:=build}" "${PYTHON:=python3}" "${TEST_STEP:=1}"
for python in "$PYTHON" /usr/bin/python3 python3 ''; do
    [ -n "$python" ] || { echo "skipped: there is no python3-html5lib and python3-lxml here (make deps check installs it)"; exit 77; }
    "$python" -c 'import html5lib, lxml' 2>/dev/null && break
done
scratch=$(mktemp -d) || exit 3
trap 'rm -rf "$scratch"' EXIT
HOME=$scratch XDG_DATA_HOME=$scratch/none
export HOME XDG_DATA_HOME
show() { "$BUILD/tankcost" --profiles profiles --today 2026-11-25 "$@" 2>/dev/null; }

# Those made by hand, which test_html holds to what is printed; then one of each question with a kind of chart
# of its own, a drawing, several currencies, or many columns.
set --
for page in tests/golden/print/*.html; do
    set -- "$@" "$page" "${page%.html}.json"
done
for words in 'bill start' 'wall new-wall' 'energy three-places' 'doubts start --draws 1000' 'shortlist start' \
    'places three-places' 'stock light'; do
    [ "$TEST_STEP" = 1 ] || [ "$words" = 'bill start' ] || continue # where all is slow, fewer
    file=$scratch/${words%% *}
    # shellcheck disable=SC2086 # words on purpose
    show $words --format html >"$file.html" && show $words --format json >"$file.json" ||
        { echo "not printed: $words"; exit 1; }
    set -- "$@" "$file.html" "$file.json"
done
if [ "$TEST_STEP" != 1 ]; then
    "$python" tests/print/page.py "$@"
    exit
fi
# The report says all that its sheets say.
file=$scratch/report
show report new-wall --draws 1000 >"$file.html" || { echo "no report"; exit 1; }
before='['
for sheet in bill years fit doubts list; do
    echo "$before" && before=,
    show "$sheet" new-wall --draws 1000 --format json
done >"$file.json"
echo ']' >>"$file.json"
set -- "$@" "$file.html" "$file.json"
"$python" tests/print/page.py "$@"
