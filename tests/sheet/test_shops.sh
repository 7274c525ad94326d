#!/bin/sh
# SPDX-License-Identifier: MIT
# The cheapest spread over shops, against every way to spread a list.
exec "$(dirname "$0")/with_tankcost" shops.py
