/* SPDX-License-Identifier: MIT */
/* need.h - tests that ask a program from outside the project, where it may be missing. */
#ifndef TC_TESTS_NEED_H
#define TC_TESTS_NEED_H

#include <stdbool.h>

/* Whether there is a command of that name. */
bool program_present(const char *name);

/* Skips the running cmocka test, saying why, unless `present`: `what` is what it needs. */
void skip_without(bool present, const char *what);

#endif
