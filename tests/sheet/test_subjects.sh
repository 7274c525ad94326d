#!/bin/sh
# SPDX-License-Identifier: MIT
# Rows and columns keep their subjects when figures, prices or units change, and
# no two are about the same.
exec "$(dirname "$0")/with_tankcost" subjects.py
