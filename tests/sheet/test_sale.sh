#!/bin/sh
# SPDX-License-Identifier: MIT
# The sheet of a sale against bills and calendars worked out on their own.
exec "$(dirname "$0")/with_tankcost" sale.py
