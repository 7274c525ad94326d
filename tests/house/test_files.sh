#!/bin/sh
# SPDX-License-Identifier: MIT
# What every file has to keep to: its place, its licence line, no trailing
# blanks, and functions that are not used for a reason.
set -u
cd "$(dirname "$0")/../.." || exit 3
failed=0
fault() { echo "$*"; failed=1; }

# The files of the project: git knows them; in a release all that is there is.
if git rev-parse --git-dir >/dev/null 2>&1; then
    files=$(git ls-files | while IFS= read -r file; do [ ! -e "$file" ] || printf '%s\n' "$file"; done)
else
    files=$(find . -type f ! -path './build*' | sed 's,^\./,,')
fi
tree=$(sed -n 's/^TREE := //p' Makefile)

for file in $files; do
    case " $tree " in
    *" ${file%%/*} "*) ;;
    *) fault "$file: does not belong at the top; there is $tree" ;;
    esac

    # Data of tests is as the tests need it; version.txt is one line to be read.
    case $file in
    *.c | *.h | *.sh | Makefile | .* | man/* | profiles/*) licensed=1 ;;
    *) head -n 1 "$file" | grep -q '^#!' && licensed=1 || licensed= ;;
    esac
    if [ "$licensed" ] && ! head -n 4 "$file" | grep -q 'SPDX-License-Identifier: MIT'; then
        fault "$file: lacks the line SPDX-License-Identifier: MIT"
    fi
    case $file in
    *.c | *.h | *.sh | Makefile | *.md | man/* | profiles/*)
        grep -nE '[[:blank:]]$' "$file" /dev/null | sed 's/$/<- blank at the end/' | grep . && failed=1
        ;;
    esac
    case $file in
    src/*/*.c) [ -e "${file%.c}.h" ] || fault "$file: has no header of the same name" ;;
    *.sh | .ci/run) [ -x "$file" ] || case $file in tests/support/*) ;; *) fault "$file: is not executable" ;; esac ;;
    esac
done

# Each line: functions not to be used, then why; "except FILE" where one file may.
while IFS='|' read -r names except why; do
    grep -nE "(^|[^[:alnum:]_>.])($(echo $names | tr ' ' '|'))[[:space:]]*\(" $(find src -name '*.[ch]') |
        grep -vE '^[^:]*:[0-9]+: ?\*|^[^:]*:[0-9]+:[[:space:]]*/[*/]' |
        grep -vE "^src/($(echo ${except:-none} | tr ' ' '|')):" | sed "s|$|  <- $why|" | grep . && failed=1
done <<'END'
atof atoi atol atoll strtod strtof strtold strtol strtoul strtoll strtoull sscanf fscanf scanf|core/number.c|core/number reads numbers, and reports what is none
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
