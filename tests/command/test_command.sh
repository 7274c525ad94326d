#!/bin/sh
# SPDX-License-Identifier: MIT
# The command line: exit statuses, wrong usage and the nearest right name, where
# output goes and how it looks there, and what is cleaned on its way.
set -u
cd "$(dirname "$0")/../.." || exit 3
. tests/support/need.sh
: "${BUILD:=build}" "${UTF8_LOCALE:=C.UTF-8}" "${PYTHON:=python3}"
need "$PYTHON"
scratch=$(mktemp -d) || exit 3
trap 'rm -rf "$scratch"' EXIT
unset NO_COLOR COLUMNS LINES
XDG_DATA_HOME=$scratch/none HOME=$scratch LC_ALL=$UTF8_LOCALE
export XDG_DATA_HOME HOME LC_ALL
out=$scratch/out err=$scratch/err
failed=0
fault() { echo "$*"; failed=1; }

# ends STATUS WORD...: runs tankcost with the demo, into $out and $err.
ends() {
    wanted=$1 && shift
    "$BUILD/tankcost" --profiles profiles --today 2026-11-25 "$@" >"$out" 2>"$err"
    status=$?
    [ "$status" -eq "$wanted" ] && return
    fault "tankcost $*: exit status $status, not $wanted:"
    cat "$err"
}

# says TEXT: the standard error of the run before holds it.
says() { grep -qF -- "$1" "$err" || { fault "not said: $1; but:" && cat "$err"; }; }
silent() { [ ! -s "$out" ] || fault "something was printed: $(head -n 3 "$out")"; }

# wrong TEXT WORD...: wrong usage; nothing is done, TEXT is said and the way to the help.
wrong() {
    text=$1 && shift
    ends 2 "$@"
    silent
    says "tankcost: $text"
}

# -- 0: done
for sheet in bill years sale energy fit list doubts whatif; do
    ends 0 "$sheet" start
    [ -s "$out" ] && [ ! -s "$err" ] || fault "$sheet: $(cat "$err")"
done
ends 0 && cp "$out" "$scratch/bare"
ends 0 bill start && cmp -s "$out" "$scratch/bare" || fault "where output is no terminal, the bill is not printed"
ends 0 --help
for word in bill doubts stock check --tank --seed NO_COLOR 'Exit status'; do
    grep -qe "$word" "$out" || fault "--help lacks $word"
done
ends 0 --version
[ "$(cat "$out")" = "tankcost $(cat src/version.txt)" ] || fault "--version: $(cat "$out")"
ends 0 --help --nonsense-follows

# The report: a page with the sheets that matter for the plan, or the same sheets as text and Markdown.
third='Is this a good price'
for plan in start three-places; do
    ends 0 report $plan --draws 1000
    [ ! -s "$err" ] || fault "report $plan: $(cat "$err")"
    sed -n 's/^<h2>\(.*\)<\/h2>$/\1/p' "$out" >"$scratch/titles"
    [ "$(wc -l <"$scratch/titles")" -eq 6 ] && sed -n 3p "$scratch/titles" | grep -q "$third" ||
        fault "report $plan: $(cat "$scratch/titles")"
    third='place by place'
done
ends 0 report three-places --draws 1000 --format markdown
[ "$(sed -n 's/^## //p' "$out")" = "$(sed 's/&#39;/'"'"'/g' "$scratch/titles")" ] || fault "report as Markdown: $(grep '^## ' "$out")"
ends 0 report --draws 1000 --output "$scratch/report.txt"
grep -q '^Shopping list' "$scratch/report.txt" || fault "report as text: $(head -n 3 "$scratch/report.txt")"
wrong "a report is html, markdown or text, not csv: ask for one sheet" report --format csv
wrong "--walls goes with bill and years, not with report" report --walls
wrong "one plan at a time, not 'new-wall' as well" report start new-wall

# Options may stand behind words, whatever the environment asks of getopt.
POSIXLY_CORRECT=1 ends 0 bill start --format csv
head -n 1 "$out" | grep -q '^kind,' || fault "POSIXLY_CORRECT: $(head -n 3 "$out")"

# What is tried out before it is installed stands below one's own profiles, not above them.
mkdir -p "$scratch/mine/tankcost/plans"
sed 's/^title *=.*/title = My own start/' profiles/plans/start.ini >"$scratch/mine/tankcost/plans/start.ini"
XDG_DATA_HOME=$scratch/mine TANKCOST_DATA=profiles "$BUILD/tankcost" bill start --today 2026-11-25 --format json >"$out" 2>"$err" &&
    grep -q 'lowmere' "$out" || fault "TANKCOST_DATA: $(cat "$err")"
XDG_DATA_HOME=$scratch/mine TANKCOST_DATA=profiles "$BUILD/tankcost" stock plan >"$out" 2>"$err"
grep -q 'My own start' "$out" || fault "the demonstration hides a plan of one's own: $(cat "$out" "$err")"
rm -r "$scratch/mine"

# Names do not mind their case.
ends 0 BILL Start --tank 20-HIGH --setup Planted-Display && grep -q '20-high' "$out" || fault "names mind their case"
ends 0 stock TANK
alike() { # the same sheet with words in capitals as without, but for units, whose case has a meaning
    sheet=$1 && shift
    ends 0 "$sheet" --draws 1000 "$@" && cp "$out" "$scratch/capitals"
    # shellcheck disable=SC2046 # words without blanks
    ends 0 "$sheet" --draws 1000 $(echo "$@" | tr '[:upper:]' '[:lower:]' | sed 's/\([0-9]\)c/\1C/g') && cmp -s "$out" "$scratch/capitals" || fault "case matters: $sheet $*"
}
alike bill --region MIZUNE --sale LIST --units METRIC
alike bill --set REGION/ROOM=20C --format CSV --color NEVER
alike bill --sale TANK-FAIR --years 5
alike doubts --set Setup/Water-Change=25% --units US
alike whatif --vary REGION/ROOM=18..22C
alike whatif --vary ROOM=18..22C
ends 0 doubts --draws 1000 --set 'setup/water-change=25 % TO 45 % Likely 35 %'
alike places --region LOWMERE --region MIZUNE --money JPY

# -- 2: wrong usage, with the nearest right name
wrong "no sheet and no plan 'bil'; did you mean 'bill'?" bil
says "Try 'tankcost --help'."
wrong "no sheet and no plan 'stat'; did you mean 'start'?" bill stat
wrong "no sheet and no plan ''" ''
wrong "one plan at a time, not 'new-wall' as well" bill start new-wall
wrong "option '--kit' is called --setup now" --kit planted-display
wrong "option '--kit' is called --setup now" bill --kit=planted-display
wrong "--output replaces no profile; write to a .txt, .csv, .md, .json or .html, not 'my.INI'" bill --output my.INI
wrong "--draws wants a whole number from 100 to 10000000" doubts --draws 10000001
wrong "unknown option '--fromat'; did you mean '--format'?" bill --fromat csv
wrong "unknown option '--tanks'; did you mean '--tank'?" --tanks=3
wrong "unknown option '--colour'; did you mean '--color'?" --colour always
wrong "unknown option '-x'" -x
wrong "unknown option '-y'" bill -yx
wrong "option '--t' may be one of several" --t 3
wrong "option '--help' takes no value" --help=bill
wrong "option '--tank' wants an argument" --tank
wrong "no format 'cvs'; did you mean 'csv'?" --format cvs
wrong "no kind 'tnak' of profiles; did you mean 'tank'?" stock tnak
wrong "one kind at a time, not 'lid' as well" stock tank lid
wrong "--set wants PATH=VALUE, not 'foo'" --set foo
wrong "candidate 9/price: " --set candidate\ 9/price=3
wrong "candidate 1/price: 'abc' is not a number" --tank 20-high=abc
wrong "candidate 1/price: '-3' is negative" --tank 20-high=-3
wrong "plan/years: '0 years' is out of range" --years 0
wrong "plan/units: 'imperial' is not known here" --units imperial
wrong "--today wants a date such as 2026-03-01, not '2026-02-29'" --today 2026-02-29
wrong "--width wants a whole number" --width 10
wrong "--seed wants a whole number" --seed -1
wrong "--draws wants a whole number" --draws 5
wrong "--threads wants a whole number" --threads 0
wrong "--color wants auto, always or never, not 'red'" --color red
wrong "--walls goes with bill and years, not with list" list new-wall --walls
wrong "there is no assumption 'yeers'; did you mean 'years'?" whatif --vary yeers=1..3
set -- && for n in 1 2 3 4 5 6 7 8 9 10 11 12 13; do set -- "$@" --tank 10-gal; done
wrong "too many of them: --tank" "$@"

# -- 1: the input has faults; what could be done was done
ends 1 bill --tank 20-hig && says "no tank '20-hig'; did you mean '20-high'?" && silent
ends 1 bill --tank 20-hig --tank 20-long && grep -q "20-long" "$out" || fault "one wrong tank spoils the bill"
ends 1 bill --setup planted-dispaly && says "no setup 'planted-dispaly'; did you mean 'planted-display'?" && silent
ends 1 bill --region lowmer && says "no region 'lowmer'; did you mean 'lowmere'?" && silent
ends 1 bill --sale autum-fair && says "no sale 'autum-fair'; did you mean 'autumn-fair'?" && silent
[ "$(wc -l <"$err")" -eq 1 ] || fault "a misspelt sale is told more than once"
ends 1 bill --set candidate\ 2/lid=glass-30x1 && says "no lid 'glass-30x1'; did you mean 'glass-30x12'?"
ends 1 bill "$scratch/none.ini" && says "no plan could be read from '$scratch/none.ini'" && silent
ends 1 check "$scratch/none.ini" && says "none.ini: the file cannot be read" && silent
ends 1 check profiles && says "this is a folder"

# A plan that was left out for a fault of its tank is neither unknown nor quietly another one.
cp -R profiles "$scratch/faulty" && chmod -R u+w "$scratch/faulty" # sources may be read-only
sed -i.old 's/^\[tank 20-long\]/&\nbogus = 1/' "$scratch/faulty/tanks/us-sizes.ini"
ends 1 bill start --profiles "$scratch/faulty" && says "plan 'start' was left out for its faults" && silent
ends 1 bill --profiles "$scratch/faulty" &&
    says "plan 'start' was left out for its faults; this is plan 'three-places'"

# The cheapest is named with what it lacks.
ends 0 bill start --tank 75-standard --tank 10-gal && tr '\n' ' ' <"$out" | grep -q "10-gal does not suit: it is too short" ||
    fault "a tank too short for its animals is praised"

# A file is written in the format its name asks for, unless another one is.
ends 0 bill start --output "$scratch/bill.csv" && grep -q '^kind,' "$scratch/bill.csv" || fault "bill.csv is no CSV"
ends 0 bill start --format text --output "$scratch/bill.json" && grep -q '^What each' "$scratch/bill.json" ||
    fault "--format does not count"

# check: a good file, a bad one with its place, and both at once.
ends 0 check profiles/plans/start.ini
ends 0 check && grep -q "^no faults: [0-9]* tanks, [0-9]* parts, 4 setups" "$out" || fault "check: $(cat "$out")"
printf '[tank bad]\nnominal = 20 gal\nlength = 30\n' >"$scratch/bad.ini"
cp profiles/tanks/us-sizes.ini "$scratch/good.ini"
ends 1 check "$scratch/good.ini" "$scratch/bad.ini" && says "$scratch/bad.ini:3: [tank bad] length: "
silent

# A faulty item in --profiles is left out, loudly, and the rest works.
mkdir -p "$scratch/own/tanks"
printf '[tank 20-high]\nlength = 3 parsec\n[tank mine]\nnominal = 9 gal\nlength = 20 in\nwidth = 10 in\nheight = 10 in\nglass = 4 mm\nprice = 9 USD\n' \
    >"$scratch/own/tanks/own.ini"
cp -r profiles/setups profiles/parts profiles/regions "$scratch/own/" && chmod -R u+w "$scratch/own"
"$BUILD/tankcost" --profiles "$scratch/own" --today 2026-11-25 bill --tank mine --setup breeding-plain \
    --region lowmere >"$out" 2>"$err"
[ $? -eq 1 ] && grep -q '^To buy' "$out" && says "own.ini:2: [tank 20-high] length: " || fault "the rest does not work"

# No plan, no profiles.
"$BUILD/tankcost" --profiles "$scratch/own" bill >"$out" 2>"$err"
[ $? -eq 2 ] && says "no plan to make the bill of: name one, or --tank, --setup and --region" || fault "no plan: $(cat "$err")"
mkdir -p "$scratch/empty/tanks"
"$BUILD/tankcost" --profiles "$scratch/empty" bill >"$out" 2>"$err"
status=$?
# What `make install` put on this machine may be found.
[ "$status" -eq 2 ] && says "no profile of a tank" || [ "$status" -eq 0 ] || fault "no profiles: exit status $status"

# -- 3: the machine failed
if [ -w /dev/full ]; then
    for words in bill stock check --help --version 'doubts --format csv' 'bill --format json'; do
        # shellcheck disable=SC2086 # several words
        "$BUILD/tankcost" --profiles profiles $words >/dev/full 2>"$err"
        status=$?
        [ "$status" -eq 3 ] || fault "$words >/dev/full: exit status $status"
        says "standard output: "
    done
fi
ends 3 bill --output "$scratch/no/such" && says "could not be written" && silent

# -- where output goes
ends 0 bill --format csv && cp "$out" "$scratch/csv"
echo old >"$scratch/file"
ends 0 bill --format csv --output "$scratch/file" && silent
cmp -s "$scratch/file" "$scratch/csv" || fault "--output writes something else than standard output gets"
ends 0 bill --format csv --output - && cmp -s "$out" "$scratch/csv" || fault "--output - is not standard output"
[ ! -e ./- ] || fault "--output - made a file"
"$BUILD/tankcost" --profiles profiles --today 2026-11-25 bill --format csv --output /dev/stdout 2>"$err" | cat >"$out"
cmp -s "$out" "$scratch/csv" || fault "--output /dev/stdout into a pipe: $(cat "$err")"
{ "$BUILD/tankcost" --profiles profiles --today 2026-11-25 bill --format csv --output /dev/fd/3 3>&1 >/dev/null 2>"$err"; } | cat >"$out"
cmp -s "$out" "$scratch/csv" || fault "--output into a pipe a shell handed over: $(cat "$err")"
[ "$(find "$scratch" -name 'file*' | wc -l)" -eq 1 ] || fault "--output leaves files beside the one it writes"
# Whole or not at all: a folder that takes no new file keeps the old one (root writes everywhere).
if [ "$(id -u)" -ne 0 ]; then
    mkdir "$scratch/locked" && cp "$scratch/csv" "$scratch/locked/file" && chmod 500 "$scratch/locked"
    ends 3 list --output "$scratch/locked/file"
    cmp -s "$scratch/locked/file" "$scratch/csv" || fault "a write that failed changed the file"
    chmod 700 "$scratch/locked"
fi

# -- how it looks there
escape=$(printf '\033')
# Wrong words are said again without what would drive a terminal.
for words in --format --today --color --money --vary --set --seed --sale --units --years; do
    "$BUILD/tankcost" --profiles profiles bill "$words" "${escape}[2Jx=y" >"$out" 2>"$err"
    ! grep -q "$escape" "$err" || fault "$words says an escape code again"
done
for words in "${escape}[2J" "${escape}[2J.ini" "--${escape}[2J" "--set=${escape}[2J"; do
    "$BUILD/tankcost" --profiles profiles bill "$words" >"$out" 2>"$err"
    ! grep -q "$escape" "$err" || fault "an escape code is said again: $(cat -v "$err")"
done
"$BUILD/tankcost" --profiles profiles stock "${escape}[2J" 2>&1 | grep -q "$escape" && fault "stock says an escape code again"

coloured() { grep -q "$escape" "$out"; }
ends 0 bill && ! coloured || fault "piped output is coloured"
ends 0 bill --color always && coloured || fault "--color always gives no colour"
sed "s/$escape\\[[0-9;]*m//g" "$out" | cmp -s - "$scratch/bare" || fault "colour changes more than the colour"
NO_COLOR=1 ends 0 bill --color always && coloured || fault "NO_COLOR beats an option"
ends 0 bill --color never && ! coloured || fault "--color never gives colour"
# On a terminal, with script(1) of util-linux.
if command -v script >/dev/null && script -qec true /dev/null >/dev/null 2>&1; then
    columns=
    on_terminal() {
        script -qec "$columns env TERM=xterm $* '$BUILD/tankcost' --profiles profiles --today 2026-11-25 bill start" \
            /dev/null </dev/null >"$out" 2>&1
    }
    on_terminal && coloured || fault "no colour on a terminal"
    on_terminal NO_COLOR=1 && ! coloured || fault "NO_COLOR is not honoured"
    on_terminal NO_COLOR= && coloured || fault "an empty NO_COLOR is heeded"
    columns='stty cols 60000 &&'
    on_terminal && [ "$(wc -c <"$out")" -lt 100000 ] || fault "a terminal without bounds gets $(wc -c <"$out") bytes"
fi
LC_ALL=C ends 0 fit && ! LC_ALL=C grep -q '[^ -~]' "$out" || fault "LANG=C prints more than ASCII"
LC_ALL=C ends 0 bill --format json && LC_ALL=$UTF8_LOCALE "$PYTHON" -m json.tool "$out" >/dev/null || fault "json in LANG=C"
ends 0 fit --width 60 && [ "$(wc -L <"$out")" -le 60 ] || fault "--width 60 prints $(wc -L <"$out") columns"
ends 0 fit && [ "$(wc -L <"$out")" -le 80 ] || fault "80 columns are $(wc -L <"$out")"

# -- stock
for kind in tank stand lid light filter air-pump heater substrate setup region tariff sale plan; do
    ends 0 stock "$kind" --format csv
    [ "$(wc -l <"$out")" -ge 3 ] || fault "stock $kind lists $(wc -l <"$out") lines"
done
ends 0 stock tank --units us --format csv && grep -q '24 × 12 × 16 in' "$out" || fault "stock does not heed --units us"
ends 2 stock tank --units yards && says "'yards' is not known here"
ends 0 stock --format csv && all=$(grep -c ',line,\|line' "$out")
[ "$all" -ge 100 ] || fault "stock lists $all items"

# -- what profiles hold is cleaned on its way; the user's own lie over the others
own=$XDG_DATA_HOME/tankcost/plans
mkdir -p "$own"
printf '[plan odd]\ntitle = "=1+1"\nsetup = breeding-plain\nregion = lowmere\n[candidate 1]\ntank = 10-gal\n' >"$own/odd.ini"
printf '[plan formula]\ntitle = @SUM(1+1)|calc\nsetup = breeding-plain\nregion = lowmere\n[candidate 1]\ntank = 10-gal\n' \
    >"$own/formula.ini"
printf '[plan red]\ntitle = \033[31mred\007\nsetup = \302\233red\n' >"$own/red.ini"
printf '[plan \033[31mred]\n' >"$own/redder.ini"
for words in 'stock plan' 'bill odd' check; do
    for format in text csv markdown json html; do
        # shellcheck disable=SC2086 # several words
        "$BUILD/tankcost" --profiles profiles $words --format "$format" >"$out" 2>"$err"
        cat "$out" "$err" >"$scratch/both"
        [ -s "$scratch/both" ] || fault "$words as $format prints nothing"
        if LC_ALL=C grep -q "$(printf '[\001-\010\013\014\016-\037\177]')" "$scratch/both"; then
            fault "$words as $format prints control characters:" && cat -v "$scratch/both"
        fi
    done
done
"$BUILD/tankcost" --profiles profiles stock plan --format csv >"$out" 2>"$err"
says "red.ini:2: [plan red] title: the value holds the control character U+001B"
grep -qF "'@SUM" "$out" && grep -qF "'=1+1" "$out" || fault "a spreadsheet would run a title: $(cat "$out")"
grep -qE "(^|[,\"])[=+@]" "$out" && fault "a spreadsheet would run $(grep -E "(^|[,\"])[=+@]" "$out")"
exit "$failed"
