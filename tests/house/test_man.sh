#!/bin/sh
# SPDX-License-Identifier: MIT
# The man pages are well-formed mdoc, as mandoc sees it.
set -u
cd "$(dirname "$0")/../.." || exit 3
for page in man/*.[1-8]; do
    [ -e "$page" ] || continue
    # Pages of this project refer to each other before they are installed.
    mandoc -T lint -W style "$page" | grep -v 'referenced manual not found: Xr tankcost'
done | grep . && exit 1
exit 0
