#!/bin/sh
# SPDX-License-Identifier: MIT
# What every file has to keep to: its place, its licence line, no trailing
# blanks, and functions that are not used for a reason.
set -u
cd "$(dirname "$0")/../.." || exit 3
failed=0
fault() { echo "$*"; failed=1; }

# The files of the project: git knows them; in a release all that is there is.
# Whose clone it is does not matter; an unpacked release in a clone is unknown to git.
files=$(git -c safe.directory='*' ls-files 2>/dev/null |
    while IFS= read -r file; do [ ! -e "$file" ] || printf '%s\n' "$file"; done)
[ -n "$files" ] || files=$(find . -type f ! -path './build*' ! -path './.git/*' | sed 's,^\./,,')
case $files in *src/main.c*) ;; *) fault "finds no files" ;; esac
tree=$(sed -n 's/^TREE := //p' Makefile)

for file in $files; do
    case " $tree " in
    *" ${file%%/*} "*) ;;
    *) fault "$file: does not belong at the top; there is $tree" ;;
    esac
    case $file in
    src/*/*.c) [ -e "${file%.c}.h" ] || fault "$file: has no header of the same name" ;;
    tests/support/*.sh) ;; # sourced, not run
    *.sh | .ci/run) [ -x "$file" ] || fault "$file: is not executable" ;;
    esac
done

# Data of tests is as the tests need it, and version.txt one line to be read;
# all else says its licence near its top and has no blanks at the end of lines.
# shellcheck disable=SC2086 # a list of names
awk '
    FNR == 1 {
        ours = FILENAME ~ /\.([ch]|sh)$|^Makefile$|^\.|^(man|profiles)\// || /^#!/
        checked = ours || FILENAME ~ /\.md$/
        if (unlicensed)
            print unlicensed ": lacks the line SPDX-License-Identifier: MIT"
        unlicensed = ours ? FILENAME : ""
    }
    FNR <= 4 && /SPDX-License-Identifier: MIT/ { unlicensed = "" }
    checked && /[ \t]$/ { print FILENAME ":" FNR ": blank at the end" }
    END {
        if (unlicensed)
            print unlicensed ": lacks the line SPDX-License-Identifier: MIT"
    }' $files | grep . && failed=1

# Each line: functions not to be used, then why; "except FILE" where one file may.
while IFS='|' read -r names except why; do
    grep -nE "(^|[^[:alnum:]_>.])($(echo $names | tr ' ' '|'))[[:space:]]*\(" $(find src -name '*.[ch]') |
        grep -vE '^[^:]*:[0-9]+: ?\*|^[^:]*:[0-9]+:[[:space:]]*/[*/]' |
        grep -vE "^src/($(echo ${except:-none} | tr ' ' '|')):" | sed "s|$|  <- $why|" | grep . && failed=1
done <<'END'
atof atoi atol atoll strtod strtof strtold strtol strtoul strtoll strtoull sscanf fscanf scanf|core/base/number.c|core/number reads numbers, and reports what is none
gets sprintf vsprintf strcpy stpcpy strncpy strcat strncat||does not know how much room there is: snprintf, memcpy, core/text
strtok localtime gmtime ctime asctime strerror_r readdir_r||keeps or hands out memory that others change: the _r form, or our own
setlocale|main.c|the locale belongs to the whole process
exit|main.c|only main ends the program
rand srand random drand48||has a hidden state: core has a seeded generator
system popen execlp execvp||no shell, no other program
tmpnam tempnam mktemp||names a file others can take first: mkstemp
alloca||an amount of stack nobody checked
END
exit "$failed"
