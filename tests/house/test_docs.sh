#!/bin/sh
# SPDX-License-Identifier: MIT
# What the documents say of the program is so: their examples run and print what
# they show, their profiles read without fault, and every command, option and
# make target that there is can be found in them.
#
#   UPDATE_GOLDEN=1 tests/house/test_docs.sh    puts new output into README.md,
#                                               and new headers into DEVELOPERS.md
set -u
cd "$(dirname "$0")/../.." || exit 3
. tests/support/need.sh
# The documents are held against the program of this tree: where make does not run this test, one that was
# built before its sources changed is made again first, by the real clock and one step after the other: make
# goes by the times of files, and on another day all of them seem to be from the future.
: "${BUILD:=build}" "${PYTHON:=python3}" "${UTF8_LOCALE:=C.UTF-8}"
if [ -z "${MAKELEVEL-}" ] && { [ ! -x "$BUILD/tankcost" ] || [ -n "$(find src Makefile -newer "$BUILD/tankcost")" ]; }; then
    env -u LD_PRELOAD -u MAKEFLAGS -u MFLAGS make -s -j1 BUILD="$BUILD" all >/dev/null || exit 3
fi
need "$PYTHON"
failed=0
fault() { echo "$*"; failed=1; }

unset XDG_DATA_HOME NO_COLOR
LC_ALL=$UTF8_LOCALE
export LC_ALL
$PYTHON tests/house/examples.py "$BUILD/tankcost" profiles README.md DEVELOPERS.md man/*.[1-8] || failed=1

$PYTHON tests/house/code_map.py DEVELOPERS.md || failed=1

# Displays marked `.\" profile` are files that can be read over the demo.
scratch=$(mktemp -d) || exit 3
trap 'rm -rf "$scratch"' EXIT
HOME=$scratch
export HOME
awk -v folder="$scratch" '
    /^\.\\" profile$/ { marked = 1; next }
    marked && /^\.Bd/ { file = sprintf("%s/%03d.ini", folder, ++count); marked = 0; next }
    /^\.Ed/ { file = "" }
    file { gsub(/\\e/, "\\"); gsub(/\\&/, ""); gsub(/\\-/, "-"); print > file }' man/tankcost-profiles.5
[ -e "$scratch/001.ini" ] || fault "man/tankcost-profiles.5: has no examples"
for example in "$scratch"/*.ini; do
    "$BUILD/tankcost" --profiles profiles check "$example" >"$scratch/said" 2>&1 && continue
    fault "man/tankcost-profiles.5: an example has faults:" && cat "$example" "$scratch/said"
done

# Every sheet, option and environment variable stands in tankcost(1).
"$BUILD/tankcost" --help >"$scratch/help"
for sheet in $(sed -n '/^A PLAN/,/^    --/s/^    \([a-z]*\)  .*/\1/p' "$scratch/help"); do
    grep -q "^\.It Cm $sheet" man/tankcost.1 || fault "man/tankcost.1: lacks the sheet $sheet"
done
for option in $(grep -o -e '--[a-z]*' "$scratch/help" | sort -u); do
    grep -q "^\.It Fl -${option#--}\b" man/tankcost.1 || fault "man/tankcost.1: lacks the option $option"
done
for name in $(grep -rhoE 'getenv\("[A-Z_]*"\)' src | cut -d'"' -f2 | sort -u); do
    grep -q "^\.It Ev.*\b$name\b" man/tankcost.1 || fault "man/tankcost.1: lacks the variable $name"
done

# The constants of the physical model stand in tankcost-model(7).
for file in src/core/physics/glazing.[ch] src/core/physics/pane.h src/core/physics/heat.h src/core/physics/light.h src/core/cost/equipment.[ch] src/core/goods/tank.h \
    src/core/physics/vapour.h src/core/wall/wall.h; do
    sed -nE 's/^#define ([A-Z_]+) +([0-9.]+(e[0-9]+)?)( .*)?$/\1 \2/p' "$file" | while read -r name value; do
        case $name in TC_ZERO_CELSIUS | TC_ACTIVITY_EQUATION | TC_WALL_FLOOR_*) continue ;; esac
        grep -qwF -e "$value" -e "${value%.0}" man/tankcost-model.7 ||
            echo "man/tankcost-model.7: lacks $name, $value ($file)"
    done
done | grep . && failed=1
points=$(sed -n 's/^enum { POINTS = \([0-9]*\) };/\1/p' src/sheet/band.c)
grep -q "\b$points points\b" man/tankcost-model.7 || fault "man/tankcost-model.7: the band has $points points"

# Every make target and folder of the source stands in DEVELOPERS.md, and what stands there is there.
for target in $(make -s help | cut -d' ' -f1); do
    grep -q "\`make $target[\` ]" DEVELOPERS.md || fault "DEVELOPERS.md: lacks make $target"
done
for folder in src/*/ tests/*/; do
    grep -q "\`$folder\`" DEVELOPERS.md || fault "DEVELOPERS.md: lacks $folder"
done
for path in $(grep -hoE '`(src|tests|profiles|man|\.ci)/[A-Za-z0-9_./*-]*`' README.md DEVELOPERS.md | tr -d '`' | sort -u); do
    ls $path >/dev/null 2>&1 || fault "README.md or DEVELOPERS.md: there is no $path"
done
# Each promise names a test that is there: a file, and words that stand in it.
sed -n '/^<!-- promises -->$/,/^<!-- end -->$/p' DEVELOPERS.md | sed -n 's/^| .* | \(`.*\) |$/\1/p' | tr ';' '\n' |
    sed 's/^ *`\([^`]*\)` */\1|/' >"$scratch/promises"
[ -s "$scratch/promises" ] || fault "DEVELOPERS.md: no promise is held by a test"
while IFS='|' read -r file names; do
    echo "$names" | tr ',' '\n' | sed 's/^ *//' >"$scratch/names"
    while read -r name; do
        grep -qF -- "$name" "$file" || fault "DEVELOPERS.md: no '$name' in $file, which is to hold a promise"
    done <"$scratch/names"
done <"$scratch/promises"
exit "$failed"
