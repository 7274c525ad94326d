/* SPDX-License-Identifier: MIT */
/* draw.h - random cases for tests, from a seed that each test fixes, so that a failure comes again. */
#ifndef TC_TESTS_DRAW_H
#define TC_TESTS_DRAW_H

#include "core/base/random.h"

/* A generator started at a seed. */
struct tc_random draw_from(uint64_t seed);

/* A number inside (low, high). */
double draw_between(struct tc_random *random, double low, double high);

/* A whole number from 0 to bound - 1, each equally likely; bound > 0. The second as PCG's own library draws.
 */
int draw_below(struct tc_random *random, int bound);
uint32_t draw_index(struct tc_random *random, uint32_t bound);

#endif
