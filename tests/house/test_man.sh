#!/bin/sh
# SPDX-License-Identifier: MIT
# The man pages are well-formed mdoc, as mandoc sees it.
set -u
cd "$(dirname "$0")/../.." || exit 3
ls man/tankcost.1 man/tankcost-profiles.5 man/tankcost-model.7 >/dev/null || exit 1
. tests/support/need.sh
need mandoc
# Pages of this project refer to each other before they are installed, and to
# others that a machine without its manual pages has not. A clock that is slow
# is no fault of a page.
mandoc -T lint -W style man/*.[1-8] 2>/dev/null |
    grep -vE 'referenced manual not found: Xr |date in the future' | grep . && exit 1
exit 0
