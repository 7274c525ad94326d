/* SPDX-License-Identifier: MIT */
/* near.h - comparing doubles in tests; cmocka's own macro goes through float. */
#ifndef TC_TESTS_NEAR_H
#define TC_TESTS_NEAR_H

/* Fails the running cmocka test unless |actual - wanted| <= tolerance. */
#define assert_near(actual, wanted, tolerance)                                                               \
    tc_assert_near((actual), (wanted), (tolerance), #actual, __FILE__, __LINE__)

void tc_assert_near(double actual, double wanted, double tolerance, const char *what, const char *file,
                    int line);

#endif
