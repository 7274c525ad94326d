#!/bin/sh
# SPDX-License-Identifier: MIT
# A candidate with a setup of its own costs what it costs in a plan of that setup.
exec "$(dirname "$0")/with_tankcost" setups.py
