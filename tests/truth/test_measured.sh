#!/bin/sh
# SPDX-License-Identifier: MIT
# Heaters and evaporation as others measured them.
set -u
: "${BUILD:=build}" "${PYTHON:=python3}"
cd "$(dirname "$0")/../.." || exit 3
. tests/support/need.sh
need "$PYTHON"
XDG_DATA_HOME=/nowhere
export XDG_DATA_HOME
exec "$PYTHON" tests/truth/measured.py "$BUILD/tankcost"
