/* SPDX-License-Identifier: MIT */
/*
 * mixed_case.h - random walls whose tiers may mix, and the same question as an
 * integer program in the CPLEX LP format.
 *
 * The program says what a person would: so many bays there may be; how many
 * tanks of each model stand along or end-on on each tier of each; what a tier
 * and a bay are high, long and bear. It is written from the whole figures of
 * support/wall_case.h alone and shares no code with core/wall*, which see
 * finished bays instead.
 */
#ifndef TC_TESTS_MIXED_CASE_H
#define TC_TESTS_MIXED_CASE_H

#include <stdio.h>

#include "support/wall_case.h"

/* A wall of a few bays at most, of up to three models, some with two stretches or two circuits. */
void mixed_case_draw(struct wall_case *c, uint64_t seed, enum tc_wall_objective aim);

/*
 * Writes the program; also, where not NULL, has to reach at_least as well. worths gets
 * what one of each variable that counts is worth, the first in the file; returns
 * how many these are. Where `to` is NULL nothing is written.
 */
int mixed_case_write(const struct wall_case *c, const struct wall_case_worth *worth,
                     const struct wall_case_worth *also, int64_t at_least, int64_t *worths, FILE *to);

#endif
