#!/bin/sh
# SPDX-License-Identifier: MIT
# The sheet of the years: crossings, replacements, the measures of NIST Handbook 135.
exec "$(dirname "$0")/with_tankcost" years.py
