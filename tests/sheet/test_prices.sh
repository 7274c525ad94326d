#!/bin/sh
# SPDX-License-Identifier: MIT
# Changing one price in a profile changes the lines that depend on it, and no other.
exec "$(dirname "$0")/with_tankcost" prices.py
