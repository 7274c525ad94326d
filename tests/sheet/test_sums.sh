#!/bin/sh
# SPDX-License-Identifier: MIT
# Every total that is printed is the sum of its lines, to the minor unit, and
# one sheet says what another says: all tanks of the demo with all its kits in
# all its regions, by python3's decimal arithmetic.
set -u
cd "$(dirname "$0")/../.." || exit 3
: "${BUILD:=build}" "${PYTHON:=python3}"
scratch=$(mktemp -d) || exit 3
trap 'rm -rf "$scratch"' EXIT
XDG_DATA_HOME=$scratch/none HOME=$scratch LC_ALL=C.UTF-8
export XDG_DATA_HOME HOME LC_ALL
"$PYTHON" tests/sheet/sums.py "$BUILD/tankcost"
