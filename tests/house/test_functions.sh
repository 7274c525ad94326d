#!/bin/sh
# SPDX-License-Identifier: MIT
# How long and how branched functions of src may be, counted by pmccabe: 60 lines of
# body, and a cyclomatic complexity of 15 but for those named here, with the reason.
set -u
cd "$(dirname "$0")/../.." || exit 3
command -v pmccabe >/dev/null || { echo "skipped: there is no pmccabe here (.ci/run installs it)"; exit 77; }

faults() {
    pmccabe "$@" | awk '
        function argued(function_name, why) { reasons[function_name] = why }
        BEGIN {
            argued("tc_wall_check", "a flat list of ranges, one a line")
            argued("tc_wall_check_model", "a flat list of ranges, one a line")
            argued("tc_heat_check", "a flat list of ranges, one a line")
            argued("tc_utf8_decode", "the table of RFC 3629, byte by byte")
            argued("add_code", "one case after another, each of one line")
            argued("mix", "one step after another, each of which may end it")
            argued("run", "one step after another, each of which may end it")
            argued("read_sweep", "one step after another, each of which may end it")
        }
        $5 > 60 { print $6 ": " $7 " has " $5 " lines: is it two?" }
        $1 > 15 && !($7 in reasons) { print $6 ": " $7 " branches " $1 " times: is it two?" }'
}

# Both can be found: a function of 70 lines and 16 branches.
toy=$BUILD/toy-functions.c
{
    echo 'int toy(int x)'
    echo '{'
    for _ in 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17; do
        printf '    if (x > 0)\n        x -= 2;\n    x++;\n    x++;\n'
    done
    echo '    return x;'
    echo '}'
} >"$toy"
[ "$(faults "$toy" | grep -c 'is it two?')" -eq 2 ] || { echo "finds in a toy: $(faults "$toy")"; exit 1; }

# shellcheck disable=SC2046 # a list of names
! faults $(find src -name '*.c') | grep .
