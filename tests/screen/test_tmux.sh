#!/bin/sh
# SPDX-License-Identifier: MIT
# The real program in a real terminal, which tmux is: pick, type a price, see
# the new total, undo, save, leave, resize, kill, stop and continue; and what
# the terminal is like afterwards. Everything is waited for, nothing timed.
set -u
cd "$(dirname "$0")/../.." || exit 3
. tests/support/need.sh
: "${BUILD:=build}" "${UTF8_LOCALE:=C.UTF-8}"
need tmux
case $BUILD in /*) program=$BUILD/tankcost ;; *) program=$PWD/$BUILD/tankcost ;; esac
failed=0
scratch=$(mktemp -d) || exit 3
unset TMUX NO_COLOR LINES COLUMNS XDG_DATA_HOME
TMUX_TMPDIR=$scratch HOME=$scratch LC_ALL=$UTF8_LOCALE # of tmux itself
export TMUX_TMPDIR HOME LC_ALL
profiles=tests/data/profiles
servers=0 # each run has a server of its own: one that is about to end takes no more
mux() { tmux -L "screen$servers" -f /dev/null "$@"; }
trap 'mux kill-server 2>/dev/null; rm -rf "$scratch"' EXIT

screen() { mux capture-pane -p -J 2>/dev/null; }

fault() {
    echo "$name: $*"
    screen
    failed=1
}

# Waits until a command succeeds.
until_true() {
    tries=0
    while ! "$@"; do
        tries=$((tries + 1))
        [ "$tries" -lt 500 ] || return 1
        sleep 0.02
    done
}

shows() { screen | grep -qF -- "$1"; }
hides() { ! shows "$1"; }
wait_for() { until_true shows "$1" || fault "never shows '$1'"; }
wait_until_gone() { until_true hides "$1" || fault "goes on showing '$1'"; }
keys() { mux send-keys "$@"; }

# Starts the program in a terminal of that size: start WIDTHxHEIGHT [NAME=VALUE...] [-- ARGUMENT...]
start() {
    name=$1
    width=${1%x*} height=${1#*x}
    shift
    variables="LC_ALL=$UTF8_LOCALE TERM=tmux-256color"
    while [ $# -gt 0 ] && [ "$1" != -- ]; do
        variables="$variables $1"
        shift
    done
    [ $# -eq 0 ] || shift
    mux kill-server 2>/dev/null
    servers=$((servers + 1))
    rm -f "$scratch/pid" "$scratch/before" "$scratch/after" "$scratch/stopped"
    cat >"$scratch/run" <<RUN || exit 3
set -m
trap : INT
how() { [ "\$1" -lt 128 ] && echo "ended: \$1" || echo "ended: \$(kill -l "\$((\$1 - 128))")"; }
stty -g >"$scratch/before"
sh -c 'echo \$\$ >"$scratch/pid"; exec env $variables "$program" --profiles $profiles --today 2026-03-05 $*'
status=\$?
while [ "\$(how \$status)" = "ended: TSTP" ]; do
    stty -g >"$scratch/stopped"
    stops=\$((\${stops:-0} + 1))
    echo "stop \$stops"
    read -r line
    fg >/dev/null
    status=\$?
done
stty -g >"$scratch/after"
how \$status
exec sleep 1000
RUN
    mux new-session -d -x "$width" -y "$height" "exec sh '$scratch/run'"
}

# The terminal is as it was before: modes, alternate screen, cursor, keypad, mouse.
assert_clean() {
    cmp -s "$scratch/before" "$scratch/$1" || fault "the terminal's modes have changed"
    flags=$(mux display -p '#{alternate_on}#{cursor_flag}#{keypad_flag}#{keypad_cursor_flag}#{mouse_any_flag}')
    [ "$flags" = 01000 ] || fault "the terminal is left in another state: $flags"
}

# The first figure of the first row that begins with these words.
figure() { screen | sed -n "s/^ *$1  *\([0-9][0-9 ]*\.[0-9][0-9]\).*/\1/p" | head -n 1; }

for size in 80x24 120x40 200x60; do
    start "$size" -- spring
    wait_for "To buy"
    old_tank=$(figure tank) old_total=$(figure "to buy")
    keys t
    wait_for "Tanks to compare"
    keys 240
    wait_for "type to narrow: 240"
    keys Enter
    until_true hides "1 ×" || fault "the tank is not taken out"
    keys Escape
    wait_until_gone "Tanks to compare"
    hides "240-metric" || fault "the tank is still compared"
    keys 45
    wait_for "29-high: price"
    keys Enter
    wait_for "45.00"
    [ "$(figure "to buy")" != "$old_total" ] || fault "the total does not follow the price"
    total=$(figure "to buy")
    keys u
    wait_for "$old_tank"
    [ "$(figure "to buy")" = "$old_total" ] || fault "undo does not bring the total back"
    keys U
    wait_for "45.00"
    keys s
    wait_for "Save the plan as"
    keys C-u
    keys -l "$scratch/p$size.ini"
    keys Enter
    wait_for "Saved as"
    hides "not saved" || fault "the plan is said not to be saved"
    keys q
    wait_for "ended: 0"
    assert_clean after
    # The command says the same of the saved plan as the screen did.
    "$program" --profiles tests/data/profiles --today 2026-03-05 bill "$scratch/p$size.ini" >"$scratch/bill" 2>/dev/null
    printed=$(sed -n 's/^ *to buy  *\([0-9][0-9 ]*\.[0-9][0-9]\).*/\1/p' "$scratch/bill" | head -n 1)
    [ "$printed" = "$total" ] || fault "the screen says $total to buy, the command $printed"
done

# What the shell says of the size does not count, the terminal does.
start 80x24 LINES=5 COLUMNS=20 -- spring
name="LINES and COLUMNS"
wait_for "Enter change"
keys q
wait_for "ended: 0"

# From the bill to the sheet about the sale and its walk-away prices: two keys.
start 80x24 -- spring
wait_for "To buy"
keys g 3
wait_for "walk away above"

# Resizing: a notice where it gets too small, and all of it again.
mux resize-window -x 40 -y 10
wait_for "is 40 × 10"
mux resize-window -x 1 -y 1
mux resize-window -x 200 -y 60
wait_for "At list price"
wait_for "help"
mux resize-window -x 80 -y 24
wait_for "As planned"
keys q
wait_for "ended: 0"
assert_clean after

# Long work, here of minutes, tells how far it is, lets itself be looked past, stopped, and left.
start 80x24 -- spring --draws 10000000
name="long work"
wait_for "help"
keys g 9
wait_for "Working it out:"
keys Escape
wait_for "Stopped"
keys Enter
wait_for "Working it out:"
keys g 1
wait_for "To buy"
wait_until_gone "Working it out:"
keys g 9
wait_for "Working it out:"
keys q
wait_for "ended: 0"
assert_clean after
start 80x24 -- spring --draws 10000000
name="killed at long work"
wait_for "help"
keys g 9
wait_for "Working it out:"
kill -s TERM "$(cat "$scratch/pid")"
wait_for "ended: TERM"
assert_clean after

# Killed: the parent sees by what, and finds the terminal clean.
for signal in TERM HUP INT QUIT ABRT; do
    start 80x24 -- spring
    name="killed by $signal"
    wait_for "help"
    keys 4
    wait_for "29-high: price"
    kill -s "$signal" "$(cat "$scratch/pid")"
    wait_for "ended: $signal"
    assert_clean after
done

# Stopped by its key and by a signal, and continued: the shell has its terminal meanwhile.
start 80x24 -- spring
name=stopped
wait_for "help"
keys 45
keys Enter
wait_for "45.00"
keys C-z
wait_for "stop 1"
assert_clean stopped
keys Enter
wait_for "45.00"
wait_for "help"
kill -s TSTP "$(cat "$scratch/pid")"
wait_for "stop 2"
assert_clean stopped
keys Enter
wait_for "45.00"
keys u
wait_for "59.50"
keys q
wait_for "ended: 0"
assert_clean after

# Stopped without being asked, and continued in the background of nothing: it draws itself anew.
start 80x24 -- spring
name=continued
wait_for "help"
kill -s CONT "$(cat "$scratch/pid")"
keys Down
wait_for "29-high, stand"
keys q
wait_for "ended: 0"
assert_clean after

# Without UTF-8 and without colours all is there, in ASCII.
start 80x24 LC_ALL=C TERM=vt100 -- spring
name="a vt100 without UTF-8"
wait_for "29-high, tank: 59.50"
wait_for "~~~"
screen | LC_ALL=C grep -q '[^ -~]' && fault "shows what is not ASCII"
keys t
wait_for "30 1/4 x 12 1/2 x 1"
keys Escape
keys q
wait_for "ended: 0"
cmp -s "$scratch/before" "$scratch/after" || fault "the terminal's modes have changed"

# A terminal that has more lines than its description says: all of them are drawn where they belong.
for terminal in xterm vt100; do
    start 90x40 LC_ALL=C TERM=$terminal -- spring
    name="40 lines on $terminal"
    wait_for "29-high, tank: 59.50"
    keys Down
    wait_for "29-high, stand"
    screen >"$scratch/lines-$terminal"
    keys q
    wait_for "ended: 0"
done
cmp -s "$scratch/lines-xterm" "$scratch/lines-vt100" || fault "$(diff "$scratch/lines-xterm" "$scratch/lines-vt100")"

# Lines of charts are braille where the terminal's font has it: the bytes E2 A0 80 to E2 A3 BF.
braille() { screen | LC_ALL=C grep -q "$(printf '\342[\240-\243]')"; }
for terminal in tmux-256color linux; do
    start 80x24 TERM=$terminal -- spring
    name="charts on $terminal"
    wait_for "29-high, tank: 59.50"
    keys Tab c
    wait_for "1 of 3"
    case $terminal in
    linux) braille && fault "draws with braille" ;;
    *) braille || fault "does not draw with braille" ;;
    esac
done

coloured() { mux capture-pane -p -e | grep -qE "$(printf '\033')\[([0-9;]*;)?(3[0-7]|4[0-7]|9[0-7])m"; }
start 80x24 -- spring
name=colour
wait_for "help"
coloured || fault "has no colours"
start 80x24 NO_COLOR=1 -- spring
name=NO_COLOR
wait_for "help"
coloured && fault "has colours"
mux capture-pane -p -e | grep -q "$(printf '\033')\[7m" || fault "does not show what is selected"

# Where it cannot draw it prints.
start 80x24 TERM=dumb -- spring
name="a dumb terminal"
wait_for "ended: "
wait_for "29-high"
[ "$(mux display -p '#{alternate_on}')" = 0 ] || fault "takes the alternate screen"

# The owner of a wall, from an empty home: 14 ft, 8 ft high, a rack of one's own, 2500 to spend, 15 A with 200 W
# used, a room of 12 x 14 ft. In at most 60 presses besides digits the first sentences answer it.
pressed=0
press() {
    for key in "$@"; do
        case $key in [0-9]) ;; *) pressed=$((pressed + 1)) ;; esac
    done
    keys "$@"
}
take() { # what to type to narrow the list, how far down, the figure's keys: then the list says the figure
    narrow=$1 down=$2 said=$3
    shift 3
    [ -z "$narrow" ] || press $narrow
    while [ "$down" -gt 0 ]; do
        press Down
        down=$((down - 1))
    done
    press Enter "$@" Enter
    wait_for "$said"
}
if [ "${TEST_STEP:-1}" = 1 ]; then
    profiles=profiles
    start 80x24 -- ''
    profiles=tests/data/profiles name="the owner of a wall"
    wait_for "help"
    press o n e w Enter
    wait_for "The most water this wall holds"
    press a
    wait_for "length-2"
    take "" 0 "length                  14 ft" 1 4 f t
    take "" 1 "height                  8 ft" 8 f t
    take "c i r c" 0 "circuit-current         15 A" 1 5 A
    take "" 2 "circuit-used            200 W" 2 0 0 W
    take "C-u b u d" 0 "budget                  2500" 2 5 0 0
    take "C-u r a c" 0 "rack-price              30" 3 0
    take "C-u r o o m" 0 "room-loss               estimate" C-u
    take "" 1 "room-length             14 ft" 1 4 f t
    take "" 1 "room-width              12 ft" 1 2 f t
    wait_until_gone "Working it out"
    press Escape
    wait_for "The wall holds"
    for answer in "6 × 20-long" "USD to buy" "each year" "kWh" "Bay 1, lowest shelf first" "Heat the room, not the tanks" \
        "To buy: "; do
        wait_for "$answer"
    done
    [ "$pressed" -le 60 ] || fault "takes $pressed presses besides digits"
    screen | grep -c '^▸' | grep -qx '[45]' || fault "does not answer in five sentences"
    keys q
fi

exit "$failed"
