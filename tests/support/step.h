/* SPDX-License-Identifier: MIT */
/*
 * step.h - how many of its cases a long test passes over.
 */
#ifndef TC_TESTS_STEP_H
#define TC_TESTS_STEP_H

/*
 * 1, or what the environment's TEST_STEP says: under a tool that makes all of
 * it slow (valgrind), a test of thousands of cases tries each so-and-so-many-th.
 */
int test_step(void);

#endif
