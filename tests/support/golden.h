/* SPDX-License-Identifier: MIT */
/*
 * golden.h - comparing output with a file that holds what it should be.
 *
 * The files lie in tests/golden. With UPDATE_GOLDEN=1 in the environment they
 * are written instead: look at the difference before you commit it.
 */
#ifndef TC_TESTS_GOLDEN_H
#define TC_TESTS_GOLDEN_H

/* Fails the running cmocka test unless tests/golden/NAME holds exactly this text. */
void assert_golden(const char *name, const char *text);

#endif
