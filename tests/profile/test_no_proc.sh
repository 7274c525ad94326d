#!/bin/sh
# SPDX-License-Identifier: MIT
# Profiles can be read, and files written, where /proc, and with it /dev/fd, is not
# mounted: a bare container or chroot.
set -u
cd "$(dirname "$0")/../.." || exit 3
: "${BUILD:=build}"
program=$(cd "$BUILD" && pwd)/tankcost
if ! unshare -m sh -c 'umount -l /proc' 2>/dev/null; then
    echo "skipped: no right to unmount /proc in a namespace of its own"
    exit 0
fi
scratch=$(mktemp -d) || exit 3
trap 'rm -rf "$scratch"' EXIT
export program HOME="$scratch"
unset XDG_DATA_HOME
unshare -m sh -c 'umount -l /proc && "$program" check --profiles profiles' >"$scratch/said" 2>&1
status=$?
ended='' # LeakSanitizer wants /proc for itself, and then to be told by it what it should not look for
grep -q 'LeakSanitizer has encountered a fatal error' "$scratch/said" && status=0 ended='||:'
if [ $status -ne 0 ] || ! grep -q '^no faults: ' "$scratch/said"; then
    echo "check without /proc: ended with $status"
    cat "$scratch/said"
    exit 1
fi

# The same bill, printed and written, and a list of prices taken over.
printf 'kind,name,price\ntank,20-high,31\n' >"$scratch/list.csv"
export scratch
"$program" bill --profiles profiles --today 2026-01-10 --format csv --output "$scratch/usual.csv" || exit 1
unshare -m sh -c "umount -l /proc"'
    set -- --profiles profiles --today 2026-01-10
    { "$program" bill "$@" --format csv >"$scratch/printed" '"$ended"'; } &&
        { "$program" bill "$@" --output "$scratch/written.csv" '"$ended"'; } &&
        { "$program" prices lowmere-shop "$scratch/list.csv" --yes "$@" >"$scratch/taken" '"$ended"'; }' 2>"$scratch/said" || {
    echo "without /proc: $(cat "$scratch/said")"
    exit 1
}
cmp "$scratch/usual.csv" "$scratch/printed" || exit 1
cmp "$scratch/usual.csv" "$scratch/written.csv" && grep -q '^Written to ' "$scratch/taken"
