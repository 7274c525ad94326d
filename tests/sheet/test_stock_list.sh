#!/bin/sh
# SPDX-License-Identifier: MIT
# What each shop asks, side by side, and whose each thing is.
exec "$(dirname "$0")/with_tankcost" stock.py
