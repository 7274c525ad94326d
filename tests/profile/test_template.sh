#!/bin/sh
# SPDX-License-Identifier: MIT
# Templates on the command line: check tells what they lack, bills are refused
# until it is filled in, and what is typed over fills it in as well.
set -u
cd "$(dirname "$0")/../.." || exit 3
: "${BUILD:=build}" "${UTF8_LOCALE:=C.UTF-8}"
program=$BUILD/tankcost
scratch=$(mktemp -d) || exit 3
trap 'rm -rf "$scratch"' EXIT
HOME=$scratch LC_ALL=$UTF8_LOCALE
export HOME LC_ALL
unset XDG_DATA_HOME
failed=0
fault() { echo "$*"; failed=1; }

# try STATUS ARGUMENT...: runs the program; what it prints goes to out and err.
try() {
    wanted=$1
    shift
    "$program" --profiles profiles "$@" >"$scratch/out" 2>"$scratch/err"
    status=$?
    [ $status -eq "$wanted" ] || fault "tankcost $*: ended with $status, not $wanted: $(cat "$scratch/err")"
}

# Notes, not errors; all of them where no file is named, and the file's where one is.
try 0 check
grep -q '^no faults: ' "$scratch/out" || fault "check: does not say that there are no faults"
for name in $(sed -n 's/^\[region \(.*\)\]/\1/p' profiles/regions/templates-*.ini); do
    grep -q "note: .*[ ]$name\b" "$scratch/err" || fault "check: no note on $name"
done
grep -qv 'note: ' "$scratch/err" && fault "check: more than notes: $(grep -v 'note: ' "$scratch/err")"
try 0 check profiles/regions/templates-us.ini
grep -q 'average-ohio' "$scratch/err" || fault "check FILE: no note on its template"
grep -q 'average-italy' "$scratch/err" && fault "check FILE: a note on a template of another file"
try 0 check profiles/regions/lowmere.ini
[ -s "$scratch/err" ] && fault "check FILE: notes on templates of other files"

# Nothing but check speaks of them unasked.
try 0 bill three-places
[ -s "$scratch/err" ] && fault "bill: $(cat "$scratch/err")"

# Until it is filled in there are no bills in it: a copy of one's own, or figures typed over, do it.
try 1 bill start --sale list --region average-ohio
grep -q "'average-ohio' is a template that is not filled in; it still needs sales-tax, water," \
    "$scratch/err" || fault "bill: does not tell what average-ohio lacks"
try 0 bill start --sale list --region average-ohio --set 'region/sales-tax=6 %' \
    --set 'region/water=0.01 / gal' --set 'region/household-energy=700 kWh' \
    --set 'region/household-water=5000 gal' --set 'region/cold-water=50 F' --set 'region/room=70 F' \
    --set 'region/humidity=45 %'
mkdir -p "$scratch/.local/share/tankcost/regions"
{
    sed -n '/^\[region average-ohio\]/,/^$/p' profiles/regions/templates-us.ini
    printf '%s\n' 'sales-tax = 6 %' 'water = 0.01 / gal' 'household-energy = 700 kWh' \
        'household-water = 5000 gal' 'cold-water = 50 F' 'room = 70 F' 'humidity = 45 %'
} >"$scratch/mine.ini"
sed 's/average-ohio/home/' "$scratch/mine.ini" >"$scratch/.local/share/tankcost/regions/home.ini"
try 0 bill start --sale list --region home
try 0 check "$scratch/.local/share/tankcost/regions/home.ini"

# Compared with the others by default; a wrong currency is answered with the nearest.
try 0 places start --sale list --region home
for name in home lowmere; do
    grep -q "\b$name\b" "$scratch/out" || fault "places: lacks $name"
done
grep -q 'average-texas' "$scratch/out" && fault "places: has a template that is not filled in"
try 2 places start --money EUT
grep -q "no currency 'EUT'; did you mean 'EUR'" "$scratch/err" || fault "places: no hint at EUR"
exit "$failed"
