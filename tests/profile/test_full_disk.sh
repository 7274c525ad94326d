#!/bin/sh
# SPDX-License-Identifier: MIT
# A disk without room: one clear word, and what was there stays. The disks are small
# ones in memory, mounted in a namespace of its own.
set -u
cd "$(dirname "$0")/../.." || exit 3
: "${BUILD:=build}"
if ! unshare -m sh -c 'mount -t tmpfs -o size=64k none /mnt && umount -l /proc' 2>/dev/null; then
    echo "skipped: no right to mount in a namespace of its own"
    exit 0
fi
scratch=$(mktemp -d) || exit 3
trap 'rm -rf "$scratch"' EXIT
mkdir "$scratch/home" "$scratch/there" && cp "$BUILD/tankcost" "$scratch" && cp -R profiles "$scratch/there" || exit 3
unset XDG_DATA_HOME
export HOME=/mnt/home ASAN_OPTIONS=detect_leaks=0 # the exit status is the program's own
failed=0
fault() { echo "$*"; failed=1; }

# on_full_disk FOLDER COMMAND...: with a full disk mounted there, on which a file `old` of one line lies.
on_full_disk() {
    disk=$1
    shift
    unshare -m sh -c '
        disk=$1; shift
        mount --bind "$scratch" /mnt && cd /mnt && mount -t tmpfs -o size=64k none "$disk" && echo old >"$disk/old" || exit 99
        dd if=/dev/zero of="$disk/full" 2>/dev/null
        "$@" >/mnt/out 2>/mnt/said
        echo $? >/mnt/status
        cp "$disk/old" /mnt/old
        (cd "$disk" && find . -type f | sort) >/mnt/names' sh "$disk" "$@"
    status=$(cat "$scratch/status")
}
export scratch
says() { # says STATUS WORDS
    [ "$status" -eq "$1" ] && [ "$(cat "$scratch/said")" = "$2" ] || fault "wanted $1: $2
got $status: $(cat "$scratch/said")"
    [ "$(cat "$scratch/old")" = old ] || fault "what was there is gone"
    [ "$(tr '\n' ' ' <"$scratch/names")" = './full ./old ' ] || fault "left behind: $(cat "$scratch/names")"
}
tankcost() { on_full_disk "$1" sh -c 'shift; exec ./tankcost "$@" --today 2026-01-10 --profiles there/profiles' sh "$@"; }

# A sheet to a full disk, over a file that is there and as a new one.
tankcost home bill --output home/old
says 3 'home/old: the file could not be written: No space left on device'
tankcost home bill --format csv --output home/new.csv
says 3 'home/new.csv: the file could not be written: No space left on device'

# A shop's list of prices.
printf 'kind,name,price\ntank,20-high,31\n' >"$scratch/list.csv"
tankcost home prices lowmere-shop list.csv --yes
says 3 "$HOME/.local/share/tankcost/shops/lowmere-shop.ini: the file could not be written: No space left on device"

# LeakSanitizer wants /proc for itself, and cannot be told without it to look for nothing.
grep -q LeakSanitizer "$BUILD/tankcost" && exit "$failed"

# No room for what is read, either, where there is no /proc and so no file in memory.
on_full_disk /tmp sh -c 'umount -l /proc && exec ./tankcost bill --today 2026-01-10 --profiles there/profiles'
says 3 'profiles: could not be read: a temporary file could not be written: No space left on device
tankcost: stopped: reading or writing failed'
[ ! -s "$scratch/out" ] || fault "a sheet was printed of nothing"
exit "$failed"
