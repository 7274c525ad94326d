#!/bin/sh
# SPDX-License-Identifier: MIT
# Each sheet of the demo in each format, and as text of 40, 80 and 100 columns,
# is, byte by byte, what tests/golden/demo holds.
#
#   UPDATE_GOLDEN=1 tests/sheet/test_golden.sh    puts what is printed now there
set -u
cd "$(dirname "$0")/../.." || exit 3
: "${BUILD:=build}" "${UPDATE_GOLDEN:=0}" "${UTF8_LOCALE:=C.UTF-8}" "${TEST_STEP:=1}"
golden=tests/golden/demo
scratch=$(mktemp -d) || exit 3
trap 'rm -rf "$scratch"' EXIT
unset NO_COLOR COLUMNS
XDG_DATA_HOME=$scratch/none HOME=$scratch
export XDG_DATA_HOME HOME
failed=0

# one NAME LOCALE WORD...: compares what the program prints with the file NAME.
one() {
    name=$1 locale=$2
    shift 2
    LC_ALL=$locale "$BUILD/tankcost" --profiles profiles --today 2026-11-25 "$@" \
        >"$scratch/printed" 2>"$scratch/said"
    status=$?
    if [ "$status" -ne 0 ] || [ -s "$scratch/said" ]; then
        echo "$name: exit status $status of: tankcost $*"
        cat "$scratch/said"
        failed=1
    elif [ "$UPDATE_GOLDEN" = 1 ]; then
        cp "$scratch/printed" "$golden/$name"
    elif ! cmp -s "$golden/$name" "$scratch/printed"; then
        echo "$name: differs (UPDATE_GOLDEN=1 takes it over), first lines:"
        diff "$golden/$name" "$scratch/printed" | head -n 10
        failed=1
    fi
}

# Every sheet the help names; each plan of the demo is the example of some.
sheets=$("$BUILD/tankcost" --help | sed -n '/^A PLAN/,/^    --/s/^    \([a-z]*\)  .*/\1/p')
[ -n "$sheets" ] || { echo "the help names no sheets"; exit 1; }
mkdir -p "$golden"
[ "$UPDATE_GOLDEN" = 1 ] && rm -f "$golden"/*
for sheet in $sheets; do
    case $sheet in
    wall | list) plan=new-wall ;;
    places | energy) plan=three-places ;;
    *) plan=start ;;
    esac
    for format in text csv markdown json; do
        case $TEST_STEP.$sheet.$format in
        1.* | *.text) ;;
        *.doubts.* | *.wall.*) continue ;; # where all is slow, the slowest once
        esac
        one "$sheet.$format" "$UTF8_LOCALE" "$sheet" "$plan" --format "$format"
    done
    one "$sheet.ascii" C "$sheet" "$plan"
    [ "$sheet" = doubts ] && few="--draws 100" || few=
    for width in 40 100; do
        one "$sheet.$width" "$UTF8_LOCALE" "$sheet" "$plan" --width "$width" $few
    done
done
for format in text csv markdown json; do
    one "stock.$format" "$UTF8_LOCALE" stock --format "$format"
done
one stock.ascii C stock

# No file is left over from a sheet that is gone.
for file in "$golden"/*; do
    name=${file##*/}
    case " $(echo $sheets) stock " in
    *" ${name%.*} "*) ;;
    *) echo "$file: no sheet prints it" && failed=1 ;;
    esac
done
exit "$failed"
