#!/bin/sh
# SPDX-License-Identifier: MIT
# Profiles can be read where /proc, and with it /dev/fd, is not mounted: a bare
# container or chroot.
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
grep -q 'LeakSanitizer has encountered a fatal error' "$scratch/said" && status=0 # it wants /proc for itself
if [ $status -ne 0 ] || ! grep -q '^no faults: ' "$scratch/said"; then
    echo "check without /proc: ended with $status"
    cat "$scratch/said"
    exit 1
fi
