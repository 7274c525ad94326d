#!/bin/sh
# SPDX-License-Identifier: MIT
# Where the figures of the sheets come from: each worked out again from its
# leaves, and each leaf found where it is said to stand.
exec "$(dirname "$0")/with_tankcost" explain.py
