#!/bin/sh
# SPDX-License-Identifier: MIT
# tests/deps on machines of several kinds, each a folder of commands that stand
# in for the real ones and write down what they were asked.
set -u
top=$(cd "$(dirname "$0")/../.." && pwd)
work=$BUILD/test-deps
rm -rf "$work" && mkdir -p "$work/bin" || exit 3
work=$(cd "$work" && pwd)
failed=0
fault() { echo "$*"; failed=1; }

for tool in sh env cat grep sort tr sed; do
    ln -s "$(command -v $tool)" "$work/bin/$tool"
done
# has COMMAND [WHAT IT DOES]: a command of this machine, which notes its use.
has() {
    printf '#!/bin/sh\n%s\n' "${2:-echo "$1 \$*" >>'$work/used'}" >"$work/bin/$1"
    chmod +x "$work/bin/$1"
}
# deps GROUP...: runs tests/deps there; its output to said, its status to $status.
deps() {
    rm -f "$work/used"
    (PATH=$work/bin CC=cc exec "$top/tests/deps" "$@") >"$work/said" 2>&1
    status=$?
}
says() { grep -q -e "$1" "$work/said" || fault "does not say '$1' but: $(cat "$work/said")"; }

has cc 'while read -r _ header; do case $header in *cmocka*) exit 1 ;; esac; done; exit 0'
has python3 'exit 0'
has id 'echo 0'
for tool in make pkg-config tmux glpsol units faketime bash zsh fish; do has $tool 'exit 0'; done

# No apt-get: everything missing is named for each system, in one line each.
deps build check outside
[ "$status" -eq 1 ] || fault "status $status without apt-get"
says 'missing: header:cmocka.h command:mandoc $'
says 'apt-get install libcmocka-dev mandoc $'
says 'dnf install libcmocka-devel mandoc $'
says 'pacman -S cmocka mandoc $'
says 'apk add cmocka-dev mandoc $'
says 'brew install cmocka mandoc $'

# apt-get and root: one update, one install of just these.
has apt-get
deps build check outside
[ "$status" -eq 0 ] || fault "status $status as root"
[ "$(grep -c update "$work/used")" -eq 1 ] || fault "did not update once: $(cat "$work/used")"
grep -q 'apt-get .*install.* libcmocka-dev mandoc *$' "$work/used" || fault "as root: $(cat "$work/used")"
! grep -q sudo "$work/used" || fault "sudo as root"

# A group not asked for is not looked at.
deps build
[ "$status" -eq 0 ] && [ ! -e "$work/used" ] || fault "build alone asked for: $(cat "$work/used")"

# Not root: through sudo, or a word what to do.
has id 'echo 1000'
deps build check outside
[ "$status" -eq 1 ] || fault "status $status with neither root nor sudo"
says 'As root: apt-get install libcmocka-dev mandoc'
[ ! -e "$work/used" ] || fault "ran apt-get without being root"
has sudo "echo \"sudo \$*\" >>'$work/used'; exec \"\$@\""
deps build check outside
[ "$status" -eq 0 ] && grep -q '^sudo .*apt-get .*install' "$work/used" || fault "sudo: $(cat "$work/used")"

# An install that fails is a failure.
has apt-get 'case "$*" in *install*) exit 100 ;; esac'
deps build check outside
[ "$status" -ne 0 ] || fault "a failed installation passed"

# Where only a program is missing that can be done without, it goes on and says so.
has cc 'exit 0'
deps build check outside
[ "$status" -eq 0 ] || fault "status $status where only mandoc is missing"
says 'missing: command:mandoc $'
says 'compare with: python3 numpy tmux glpsol units mandoc jsonschema html5lib lxml dateutil bash zsh fish faketime'
says 'the tests that ask one of these are skipped'
rm "$work/bin/sudo" "$work/bin/apt-get"
deps build check outside
[ "$status" -eq 0 ] || fault "status $status where only mandoc is missing and nothing installs it"

# The compilers of other machines can all be done without.
deps machines
[ "$status" -eq 0 ] || fault "status $status without the compilers of other machines"
says 'missing: .*command:musl-gcc .*command:s390x-linux-gnu-gcc '
says 'apt-get install .*gcc-s390x-linux-gnu .*musl-tools '

# All there: no word, and nothing asked of anybody.
has mandoc 'exit 0'
has apt-get
deps build check outside
[ "$status" -eq 0 ] && [ ! -e "$work/used" ] && [ ! -s "$work/said" ] || fault "all there: $(cat "$work/used" "$work/said" 2>&1)"

# Every package has a name for every system that takes part.
sed -n '/^build  /p; /^check  /p; /^outside  /p' "$top/tests/deps" | while read -r line; do
    [ "$(echo "$line" | wc -w)" -eq 7 ] || echo "tests/deps: a column is missing: $line"
done | grep . && failed=1
exit "$failed"
