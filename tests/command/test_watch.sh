#!/bin/sh
# SPDX-License-Identifier: MIT
# Long work of a command: progress where standard error is a terminal and nowhere
# else; Ctrl-C there ends it with what is known so far, and a script sees that it did.
set -u
# shellcheck source=tests/support/need.sh
. tests/support/need.sh
need "$PYTHON"
exec $PYTHON tests/command/watch.py "$BUILD/tankcost"
