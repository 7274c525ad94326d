#!/bin/sh
# SPDX-License-Identifier: MIT
# The sentences of a wall and its shopping list, against its tables.
exec "$(dirname "$0")/with_tankcost" wall.py
