#!/bin/sh
# SPDX-License-Identifier: MIT
# A plan that buys at several shops, against every way to spread what it buys.
exec "$(dirname "$0")/with_tankcost" several.py
