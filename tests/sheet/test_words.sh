#!/bin/sh
# SPDX-License-Identifier: MIT
# The words, cautions and measures of all sheets.
exec "$(dirname "$0")/with_tankcost" words.py
