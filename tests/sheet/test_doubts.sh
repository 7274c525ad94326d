#!/bin/sh
# SPDX-License-Identifier: MIT
# Random draws against a closed form, and what whatif finds against bills on both sides of it.
exec "$(dirname "$0")/with_tankcost" doubts.py
