#!/bin/sh
# SPDX-License-Identifier: MIT
# No two files of src need each other in a circle, over any number of steps (see
# circles.py), and a tree of toys that has such circles shows that they are found.
set -u
cd "$(dirname "$0")/../.." || exit 3
. tests/support/need.sh
: "${BUILD:=build}" "${PYTHON:=python3}"
need "$PYTHON"
failed=0
fault() { echo "$*"; failed=1; }

toy=$BUILD/toy-circles
rm -rf "$toy" && mkdir -p "$toy/src/low" "$toy/src/high" "$toy/objects/low" "$toy/objects/high" || exit 3
circles() { "$PYTHON" tests/house/circles.py "$@" >"$toy/said" 2>&1; }
says() { grep -qxF -- "$1" "$toy/said" || fault "does not say '$1' but: $(cat "$toy/said")"; }
silent() { [ ! -s "$toy/said" ] || fault "$1: $(cat "$toy/said")"; }

# A chain, and beside it two that share what both need: no circle.
for step in 'a b' 'b c' 'c d' 'd e' 'a d' 'x e' 'y e'; do
    printf '#include "low/%s.h"\n' "${step#* }" >>"$toy/src/low/${step% *}.h"
done
: >"$toy/src/low/e.h"
circles "$toy/src" || fault "a chain is taken for a circle"
silent "a chain"

# Closed by the last one's .c, which is one with its header: five files in a circle.
printf '#include <stdio.h>\n  #  include "low/b.h"\n' >"$toy/src/low/e.c"
! circles "$toy/src" || fault "a circle over .c and .h is not found"
says '4 files need each other: low/b low/c low/d low/e'
says '    low/b needs low/c: includes it in b.h'
says '    low/e needs low/b: includes it in e.c'
printf '#include "low/a.h"\n' >"$toy/src/low/e.c"
! circles "$toy/src" || fault "a circle of five files is not found"
says '5 files need each other: low/a low/b low/c low/d low/e'
says '    low/a needs low/d: includes it in a.h'
[ "$(grep -c needs "$toy/said")" -eq 3 ] || fault "does not show the shortest circle: $(cat "$toy/said")"

: >"$toy/src/low/e.c"

# By calls alone, from folder to folder and back.
: >"$toy/src/high/z.c"
echo 'int low(void); int high(void); int low(void) { return high(); }' | ${CC:-cc} -x c -c -o "$toy/objects/low/x.o" - &&
    echo 'extern int low_sum; int high(void); int high(void) { return low_sum; }' | ${CC:-cc} -x c -c -o "$toy/objects/high/z.o" - &&
    echo 'int low(void); extern int low_sum; int low_sum; int low_more(void); int low_more(void) { return low(); }' |
    ${CC:-cc} -x c -c -o "$toy/objects/low/y.o" - || exit 3
! circles "$toy/src" "$toy/objects" || fault "a circle by calls is not found"
says '3 files need each other: high/z low/x low/y'
says '    high/z needs low/y: uses low_sum'
says '    low/x needs high/z: uses high'

# The program itself; instrumented objects call what their sources do not.
objects=$BUILD/src
grep -qE -e '-fsanitize|--coverage|-flto' "$BUILD/flags" && objects=
circles src ${objects:+"$objects"} || failed=1
cat "$toy/said"
exit "$failed"
