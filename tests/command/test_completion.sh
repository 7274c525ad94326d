#!/bin/sh
# SPDX-License-Identifier: MIT
# Completion: what the program proposes, and that bash, zsh and fish show it when
# Tab is pressed. A shell that is not there is passed over, and said so.
set -u
cd "$(dirname "$0")/../.." || exit 3
. tests/support/need.sh
: "${BUILD:=build}"
scratch=$(mktemp -d) || exit 3
socket=tankcost-completion-$$
trap 'for shell in bash zsh; do tmux -L "$socket-$shell" kill-server 2>/dev/null; done; rm -rf "$scratch" 2>/dev/null || { sleep 1; rm -rf "$scratch"; }' EXIT
HOME=$scratch XDG_DATA_HOME=$scratch/none TANKCOST_DATA=$PWD/profiles LC_ALL=C.UTF-8
export HOME XDG_DATA_HOME TANKCOST_DATA LC_ALL
failed=0
fault() { echo "$*"; failed=1; }

# -- what the program proposes
# proposes WANTED WORD...: one of the lines is WANTED, but for what a tab sets off.
proposes() {
    wanted=$1 && shift
    "$BUILD/tankcost" complete "$@" >"$scratch/out" 2>"$scratch/err" || fault "complete $*: exit status $?"
    [ ! -s "$scratch/err" ] || fault "complete $*: $(cat "$scratch/err")"
    cut -f 1 "$scratch/out" | grep -qxF -- "$wanted" || fault "complete $*: no '$wanted' but $(head -n 3 "$scratch/out")"
}
# nothing WORD...: a file belongs there, or anything.
nothing() {
    "$BUILD/tankcost" complete "$@" >"$scratch/out" 2>&1
    [ ! -s "$scratch/out" ] || fault "complete $*: $(head -n 3 "$scratch/out")"
}
proposes bill ''
proposes stock st
proposes start st
proposes new-wall wall new
proposes --setup --se
proposes --setup=rock-lake --setup=ro
proposes planted-display bill --setup pl
proposes lowmere places --region lowmere --region ''
proposes light stock li
proposes 20-high --tank 20
proposes best --sale ''
proposes tank-fair --sale t
proposes markdown --format m
proposes html --format h
proposes report rep
proposes new-wall report new
proposes JPY places --money J
proposes always --color ''
proposes region/room-swing= bill --set region/
proposes region/tax=included bill --set region/tax=
proposes plan/region=mizune --set plan/region=m
proposes setup/heater=no --set setup/heater=
proposes 'candidate 3/filter-price=' bill start --set 'candidate 3/f'
proposes 'candidate 1/heater=h50' --set 'candidate 1/heater='
proposes region/room= whatif --vary region/room
proposes explain exp
proposes bill explain bi
proposes new-wall explain wall new
proposes 20-high/buy/stand explain bill 20-high/b
proposes '29-high/present/less resale' explain bill start 29-high/present
nothing check ''
nothing bill --output ''
nothing --profiles ''
nothing bill start x
nothing explain bill start 20-high/buy/stand ''
nothing --years ''
"$BUILD/tankcost" complete bill start --set 'candidate 4/' | grep -q . && fault "start has three candidates, not four"
# Every command and sheet is proposed, with what it does; so is every option.
"$BUILD/tankcost" complete '' >"$scratch/out"
"$BUILD/tankcost" --help | sed -n 's/^    \([a-z]*\)  *[A-Z].*?$/\1/p' | while read -r sheet; do
    grep -q "^$sheet	" "$scratch/out" || echo "the sheet $sheet is not proposed"
done >"$scratch/lacks"
"$BUILD/tankcost" --help | sed -n 's/^    tankcost \([a-z][a-z]*\) .*/\1/p' | while read -r command; do
    grep -q "^$command	" "$scratch/out" || echo "the command $command is not proposed"
done >>"$scratch/lacks"
"$BUILD/tankcost" complete -- >"$scratch/out"
"$BUILD/tankcost" --help | grep -o -e '--[a-z]*' | sort -u | while read -r option; do
    grep -qx -e "$option" "$scratch/out" || echo "the option $option is not proposed"
done >>"$scratch/lacks"
[ ! -s "$scratch/lacks" ] || fault "$(cat "$scratch/lacks")"
# A profile's title drives no terminal.
mkdir "$scratch/bad" "$scratch/bad/setups"
printf '[setup odd]\ntitle = a\tb\nfilter = none\n' >"$scratch/bad/setups/x.ini"
[ "$("$BUILD/tankcost" complete --profiles "$scratch/bad" --setup odd | tr -cd '\033\007' | wc -c)" -eq 0 ] ||
    fault "control characters are proposed"

# -- in the shells, as one presses Tab
need tmux
mkdir "$scratch/bin"
ln -s "$(cd "$(dirname "$BUILD/tankcost")" && pwd)/tankcost" "$scratch/bin/tankcost"
scripts=$PWD/src/command/completion
screen() { tmux -L "$socket-$shell" capture-pane -p 2>&1; }
# shows TEXT: within ten seconds.
shows() {
    for _ in 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20; do
        screen | grep -qF -- "$1" && return
        sleep 0.5
    done
    fault "$shell does not show '$1' but:"
    screen | grep . | tail -n 5
}
# tab TYPED SHOWN: what stands on the line after Tab.
tab() {
    tmux -L "$socket-$shell" send-keys C-u
    tmux -L "$socket-$shell" send-keys -l "$1"
    tmux -L "$socket-$shell" send-keys Tab
    shows "$2"
}
start() {
    tmux -L "$socket-$shell" -f /dev/null new-session -d -x 150 -y 40 \
        "env -i PATH='$scratch/bin:$PATH' HOME='$scratch' TERM=screen LC_ALL=C.UTF-8 TANKCOST_DATA='$TANKCOST_DATA' $1"
}
pressed() {
    tab 'tankcost bil' 'tankcost bill'
    tab 'tankcost bill --setup pl' '--setup planted-display'
    tab 'tankcost stock air' 'stock air-pump'
    tab 'tankcost fit --set region/room-sw' '--set region/room-swing='
    tab 'tankcost fit --set region/tax=inc' '--set region/tax=included'
    tab 'tankcost fit --tank 40-br' '--tank 40-breeder'
    tab 'tankcost explain bill start 20-high/buy/st' '20-high/buy/stand'
}
for shell in bash zsh fish; do
    command -v "$shell" >/dev/null || { echo "passed over: there is no $shell here" && continue; }
    case $shell in
    bash)
        start "PS1='ready> ' bash --norc --noprofile -i"
        shows 'ready>'
        tmux -L "$socket-$shell" send-keys -l ". '$scripts/tankcost.bash'"
        tmux -L "$socket-$shell" send-keys Enter
        pressed
        tab "tankcost fit --set candidate\\ 1/stand-p" 'candidate\ 1/stand-price='
        tab 'tankcost fit --set "candidate 1/stand-p' '"candidate 1/stand-price='
        ;;
    zsh)
        start "PS1='ready> ' zsh -f -i"
        shows 'ready>'
        tmux -L "$socket-$shell" send-keys -l "fpath=('$scripts' \$fpath); autoload -U compinit; compinit -u -D"
        tmux -L "$socket-$shell" send-keys Enter
        pressed
        tab "tankcost fit --set candidate\\ 1/stand-p" 'candidate\ 1/stand-price='
        ;;
    fish)
        asked() { fish -N -c "source '$scripts/tankcost.fish'; complete -C '$1'" | cut -f 1 | grep -qxF -- "$2" || fault "fish: '$1' is not completed to '$2'"; }
        PATH=$scratch/bin:$PATH
        asked 'tankcost bil' bill
        asked 'tankcost bill --setup pl' planted-display
        asked 'tankcost stock air' air-pump
        asked 'tankcost fit --set region/room-sw' region/room-swing=
        asked 'tankcost explain bill start 20-high/buy/st' 20-high/buy/stand
        asked 'tankcost bill --setup=pl' --setup=planted-display
        asked 'tankcost check src/main' src/main.c
        ;;
    esac
done
exit "$failed"
