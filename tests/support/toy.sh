# SPDX-License-Identifier: MIT
# Sourced by tests of the Makefile: makes a tree of a few lines with the real
# Makefile, profiles and man pages in the folder $toy, so that building it is
# quick and disturbs no other test. `fault TEXT` counts a failure.
# shellcheck shell=sh
set -u
top=$(cd "$(dirname "$0")/../.." && pwd)
toy=$top/$BUILD/toy-$(basename "$0" .sh)
case $BUILD in /*) toy=$BUILD/toy-$(basename "$0" .sh) ;; esac
unset BUILD CFLAGS CPPFLAGS LDFLAGS WERROR # how this test's own tree was built
failed=0
fault() { echo "$*"; failed=1; }

rm -rf "$toy"
mkdir -p "$toy/src/core" "$toy/tests" || exit 3
for part in Makefile profiles man; do
    [ ! -e "$top/$part" ] || { cp -R "$top/$part" "$toy" && chmod -R u+w "$toy/$part"; }
done
mkdir -p "$toy/src/command" && cp -R "$top/src/command/completion" "$toy/src/command" || exit 3
echo 1.2.3 >"$toy/src/version.txt"
echo '#define TOY 1' >"$toy/src/core/toy.h"
printf '#include "core/toy.h"\nint toy(void);\nint toy(void) { return TOY; }\n' >"$toy/src/core/toy.c"
printf 'int spare(void);\nint spare(void) { return 0; }\n' >"$toy/src/core/spare.c"
cat >"$toy/src/main.c" <<'END'
#include <stdio.h>
#ifndef EXTRA
#define EXTRA "none"
#endif
int toy(void);
int main(int argc, char **argv)
{
    (void)argv;
    return printf("%d %s %s %s %d\n", toy(), TC_VERSION, TC_DATADIR, EXTRA, argc) < 0;
}
END
cd "$toy" || exit 3
