#!/bin/sh
# SPDX-License-Identifier: MIT
# In twenty situations the first sentence says what a knowledgeable friend would
# say; no sentence is too long; no finding tells what the tables do not hold.
exec "$(dirname "$0")/with_tankcost" situations.py
