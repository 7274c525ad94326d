#!/bin/sh
# SPDX-License-Identifier: MIT
# Whose figures a sheet rests on is said on every sheet in every format: with the
# demonstration's region that they are invented; with a region of one's own no
# invented figure is on any of them, also not through the back door of a cheap part.
set -u
cd "$(dirname "$0")/../.." || exit 3
: "${BUILD:=build}" "${TEST_STEP:=1}"
scratch=$(mktemp -d) || exit 3
trap 'rm -rf "$scratch"' EXIT
HOME=$scratch
export HOME
unset XDG_DATA_HOME
failed=0
fault() { echo "$*"; failed=1; }

cat >"$scratch/mine.ini" <<'PLAN'
[region home]
currency = USD
sales-tax = 7 %
electricity = 0.16 / kWh
water = 2 / m3
room = 20 C

[shop high-street]
region = home
delivery = 12

[prices high-street tank]
20-long = 39.99
29-high = 65

[light bar]
shortest = 25 in
longest = 40 in
power = 20 W
efficacy = 1.9 umol/J

[prices high-street light]
bar = 45

[plan mine]
setup = planted-display
region = home
years = 5 years

[candidate 1]
tank = 20-long
lid = unnamed
lid-price = 25

[candidate 2]
tank = used-36
length = 36 in
width = 15 in
height = 16 in
price = 60
lid = unnamed
lid-price = 30
heater = unnamed
heater-price = 28
filter = unnamed
filter-price = 80
stand = unnamed
stand-price = 0
substrate = unnamed
substrate-price = 30

[wall]
length = 12 ft
height = 7 ft
depth = 24 in
PLAN

# The report is one page, and explain opens all figures of a sheet.
sheets="bill years sale energy fit shortlist places list wall doubts whatif report explain-bill explain-wall"
for sheet in $sheets; do
    for format in text csv markdown json html; do
        case $sheet in report) richest=html ;; *) richest=json ;; esac
        [ "$TEST_STEP" = 1 ] || [ "$format" = "$richest" ] || continue # where all is slow, the richest alone
        case $sheet.$format in report.csv | report.json) continue ;; esac # a report is for people
        options="--profiles profiles --today 2026-01-10 --width 1000 --format $format"
        case $sheet in
        doubts | report) options="$options --draws 200" ;;
        whatif) options="$options --vary plan/years=3..6" ;;
        places) options="$options --region home" ;;
        esac
        question=
        case $sheet in explain-*) question=${sheet#explain-} ;; esac
        # shellcheck disable=SC2086 # words on purpose
        "$BUILD/tankcost" ${sheet%%-*} ${question:+"$question"} "$scratch/mine.ini" $options >"$scratch/out" 2>"$scratch/err" ||
            fault "$sheet as $format: ended with $?: $(cat "$scratch/err")"
        if grep -qiE 'invented for|[0-9] figures? invented' "$scratch/out"; then
            fault "$sheet as $format, in a region of one's own: $(grep -iE 'invented' "$scratch/out" | head -2)"
        fi
        grep -q 'assumed' "$scratch/out" || fault "$sheet as $format: does not say what is assumed"
        for part in strip- canister-s glass- pine- h50 h100 fine-sand lowmere-shop; do
            grep -q -- "$part.*[0-9]" "$scratch/out" && [ "$sheet" = list ] &&
                fault "$sheet as $format: $part of the demonstration is bought in a region of one's own"
        done
        case $sheet in places) options=${options% --region home} ;; esac
        # That they are invented is told in one place for all formats: what takes long is asked in one.
        case $sheet.$format in
        wall.$richest | explain-wall.$richest | report.$richest | doubts.$richest) ;;
        wall.* | explain-wall.* | report.* | doubts.*) continue ;;
        esac
        plan=start
        case $sheet in wall | explain-wall) plan=new-wall ;; esac
        # shellcheck disable=SC2086
        "$BUILD/tankcost" ${sheet%%-*} ${question:+"$question"} "$plan" $options >"$scratch/out" 2>"$scratch/err" ||
            fault "$sheet $plan as $format: ended with $?: $(cat "$scratch/err")"
        grep -q 'figures invented' "$scratch/out" && grep -q 'Invented for a demonstration' "$scratch/out" ||
            fault "$sheet $plan as $format: does not say that its figures are invented"
    done
done

# Tags alone: seven prices and three sizes. 60 + 90 + 25 + 45 + 80 + 30 + 30, and 7 % on top.
cat >"$scratch/tags.ini" <<'PLAN'
[region home]
currency = USD
sales-tax = 7 %
electricity = 0.16 / kWh
water = 2 / m3
room = 20 C

[plan tags]
setup = planted-display
region = home

[candidate 1]
tank = used-36
length = 36 in
width = 15 in
height = 16 in
price = 60
stand = unnamed
stand-price = 90
lid = unnamed
lid-price = 25
light = unnamed
light-price = 45
light-power = 24 W
light-life = 4 years
filter = unnamed
filter-price = 80
heater = unnamed
heater-price = 30
substrate = unnamed
substrate-price = 30
PLAN
"$BUILD/tankcost" bill "$scratch/tags.ini" --profiles profiles --today 2026-01-10 --format csv --years 10 >"$scratch/out" ||
    fault "tags alone: no bill"
grep -q '385[.]20' "$scratch/out" || fault "tags alone: not 385.20 to buy"
grep -q 'incomplete' "$scratch/out" && fault "tags alone: incomplete"
grep -q 'light-power of used-36\|light-life of used-36' "$scratch/out" && fault "tags alone: typed watts are called assumed"
grep -q 'heater-power of used-36' "$scratch/out" || fault "tags alone: assumed watts are not named"
# 24 W for 8 hours a day at 0.16, by hand: 24 x 8 x 365 / 1000 = 70.08 kWh, 11.21; twelve months are
# rounded to the cent on the way.
"$BUILD/tankcost" bill "$scratch/tags.ini" --profiles profiles --today 2026-01-10 --format csv \
    --set 'setup/light-hours=8 h' | grep 'electricity: light' | grep -qE '11[.](1[5-9]|2[0-7])' || fault "tags alone: 24 W are not counted"
# Every figure that is assumed can be typed over: then none is.
set -- --set 'region/cold-water=55 F' --set 'region/humidity=50 %'
for key in light filter heater; do set -- "$@" --set "candidate 1/$key-power=20 W"; done
for key in stand lid light filter heater substrate; do
    set -- "$@" --set "candidate 1/$key-life=5 years" --set "candidate 1/$key-resale=10 %"
done
"$BUILD/tankcost" bill "$scratch/tags.ini" --profiles profiles --today 2026-01-10 --format csv \
    --set 'candidate 1/glass=6 mm' --set 'candidate 1/nominal=37 gal' "$@" >"$scratch/out" || fault "typed facts: no bill"
grep -q 'no figure invented or assumed' "$scratch/out" || fault "typed facts: $(grep -o 'Assumed.*' "$scratch/out")"
# One's own sizes over a size of the trade.
"$BUILD/tankcost" fit "$scratch/tags.ini" --profiles profiles --today 2026-01-10 --tank 20-long --format csv \
    --set 'candidate 1/length=40 in' | grep -q '1[.]016\|40' || fault "a typed length is not used"
exit "$failed"
