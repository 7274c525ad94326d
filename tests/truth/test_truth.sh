#!/bin/sh
# SPDX-License-Identifier: MIT
# Forty worlds at random, in which the program and a second implementation of
# tankcost-model(7) agree to the minor unit. `make truth` compares many more.
set -u
: "${BUILD:=build}" "${PYTHON:=python3}"
exec "$PYTHON" "$(dirname "$0")/compare.py" "$BUILD/tankcost" --worlds 40
