#!/bin/sh
# SPDX-License-Identifier: MIT
# Sheets as HTML are valid, stand by themselves, and say all that the same sheets say in JSON; see page.py.
set -u
cd "$(dirname "$0")/../.." || exit 3
: "${BUILD:=build}" "${PYTHON:=python3}"
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
    file=$scratch/${words%% *}
    # shellcheck disable=SC2086 # words on purpose
    show $words --format html >"$file.html" && show $words --format json >"$file.json" ||
        { echo "not printed: $words"; exit 1; }
    set -- "$@" "$file.html" "$file.json"
done
exec "$python" tests/print/page.py "$@"
