#!/bin/sh
# SPDX-License-Identifier: MIT
# One plan has one cost, on whichever sheet: for the plans of the demo and 200
# random ones.
set -u
: "${BUILD:=build}" "${PYTHON:=python3}"
cd "$(dirname "$0")/../.." || exit 3
. tests/support/need.sh
need "$PYTHON"
XDG_DATA_HOME=/nowhere
export XDG_DATA_HOME
exec "$PYTHON" tests/truth/laws.py "$BUILD/tankcost" profiles
