#!/bin/sh
# SPDX-License-Identifier: MIT
# Some forty worlds at random, in which the program and a second implementation of
# tankcost-model(7) agree to the minor unit, and some walls with their rooms. `make truth` compares many more.
set -u
: "${BUILD:=build}" "${PYTHON:=python3}" "${TEST_STEP:=1}"
cd "$(dirname "$0")/../.." || exit 3
. tests/support/need.sh
need "$PYTHON"
XDG_DATA_HOME=/nowhere
export XDG_DATA_HOME
"$PYTHON" tests/truth/compare.py "$BUILD/tankcost" --worlds $((40 / TEST_STEP + 1)) || exit
exec "$PYTHON" tests/truth/room.py "$BUILD/tankcost" profiles --walls $((3 / TEST_STEP + 1))
