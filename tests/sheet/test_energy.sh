#!/bin/sh
# SPDX-License-Identifier: MIT
# The sheet of the energy: lids, meters, shared air, warm rooms, tanks that need no heater.
exec "$(dirname "$0")/with_tankcost" energy.py
