#!/bin/sh
# SPDX-License-Identifier: MIT
# Every total that is printed is the sum of its lines, to the minor unit, and
# one sheet says what another says.
exec "$(dirname "$0")/with_tankcost" sums.py
