#!/bin/sh
# SPDX-License-Identifier: MIT
# What a file of src shows to others, others use: each function and constant that
# is not static is used by another file of src, or by its own file and by a test
# that asks it directly (a formula with a published value, say). What tests alone
# call belongs into tests/support. A toy tree shows that both faults are found.
set -u
cd "$(dirname "$0")/../.." || exit 3
: "${BUILD:=build}"
failed=0

# The faults of the tree $1, whose objects lie in $2/src.
faults() {
    objects=$(cd "$1" && find src -name "*.c" | sed "s,^,$2/,; s,c\$,o,")
    # Lines such as "src/core/base/date.c tc_date_number": shown, and used by no other object.
    # shellcheck disable=SC2086 # a list of names
    nm -A -g $objects | awk -v start=$((${#2} + 2)) '
        { object = $1; sub(/\.o:.*/, ".c", object) }
        $(NF - 1) == "U" { used[$NF] = 1; next }
        { shown[$NF] = substr(object, start) }
        END { for (name in shown) if (!(name in used) && name != "main") print shown[name], name }' |
        sort | while read -r file name; do
        if [ "$(grep -cw -- "$name" "$1/$file")" -lt 2 ]; then
            echo "$file: $name is called by nothing in src: into tests/support with it, or out"
        elif ! grep -qrw --include='*.c' -- "$name" "$1/tests"; then
            echo "$file: $name is used in this file alone: make it static"
        fi
    done
}

toy=$BUILD/toy-exports
rm -rf "$toy" && mkdir -p "$toy/src" "$toy/tests" || exit 3
printf 'int %s(void);\n' shown asked alone idle >"$toy/src/a.h"
cat >"$toy/src/a.c" <<'END'
#include "a.h"
int asked(void) { return 1; }
int alone(void) { return 2; }
int shown(void) { return asked() + alone(); }
int idle(void) { return 3; }
END
printf '#include "a.h"\nint main(void) { return shown(); }\n' >"$toy/src/main.c"
printf 'asked() == 1, idle() == 3\n' >"$toy/tests/test_a.c"
for file in a main; do
    ${CC:-cc} -c -o "$toy/src/$file.o" "$toy/src/$file.c" || exit 3
done
wanted='src/a.c: alone is used in this file alone: make it static
src/a.c: idle is called by nothing in src: into tests/support with it, or out'
[ "$(faults "$toy" "$toy")" = "$wanted" ] || { echo "finds in a toy tree: $(faults "$toy" "$toy")"; failed=1; }

# Instrumented objects define and call what their sources do not.
if ! grep -qE -e '-fsanitize|--coverage|-flto' "$BUILD/flags"; then
    faults . "$BUILD" | grep . && failed=1
fi
exit "$failed"
