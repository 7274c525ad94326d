# SPDX-License-Identifier: MIT
# Sourced by tests that ask a program from outside the project.
# shellcheck shell=sh

# need PROGRAM...: ends the test as skipped (status 77, see tests/run) where one is missing.
need() {
    for needed; do
        command -v "$needed" >/dev/null && continue
        echo "skipped: there is no $needed here (make deps check installs it)"
        exit 77
    done
}
