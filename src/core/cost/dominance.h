/* SPDX-License-Identifier: MIT */
/*
 * dominance.h - what counts between tanks, and which alternatives no other one beats in all of it.
 *
 * Alternatives that do not do the same service cannot be ranked by cost alone (NIST Handbook 135, 2.2: they
 * must meet the same need). What can be said of any two is whether one is at least as good in every respect
 * and better in one: then the other need not be looked at (Pareto dominance). The rest are a choice.
 */
#ifndef TC_CORE_DOMINANCE_H
#define TC_CORE_DOMINANCE_H

#include <stdbool.h>
#include <stddef.h>

#include "core/base/status.h"

/* What counts between tanks. */
enum tc_respect {
    TC_RESPECT_COST,   /* present value, minor units: less is better */
    TC_RESPECT_WATER,  /* actual water, m3: more */
    TC_RESPECT_BOTTOM, /* inner bottom, m2: more */
    TC_RESPECT_SWIM,   /* inner length, m: more */
    TC_RESPECT_REACH,  /* rim to substrate, m: less */
    TC_RESPECT_WALL,   /* length along a wall or shelf, m: less */
    TC_RESPECT_TANKS,  /* of a wall that is filled, how many: more; 0 of anything else */
    TC_RESPECT_COUNT
};

struct tc_merits {
    double of[TC_RESPECT_COUNT];
};

/* What the cost is weighed by: nothing, or the amount of what is wanted. A plan's own goal is none of tanks.
 */
enum tc_goal { TC_GOAL_COST, TC_GOAL_WATER, TC_GOAL_BOTTOM, TC_GOAL_LENGTH, TC_GOAL_TANKS };

/* The less the better: the cost, or the cost of a unit of the goal (the cost itself where there is none of
 * it). */
double tc_goal_score(const struct tc_merits *merits, enum tc_goal goal);

/* True if a is at least as good as b in every respect and better in one. */
bool tc_dominates(const struct tc_merits *a, const struct tc_merits *b);

/* True if they are the same in every respect but cost, within a millimetre or its like. */
bool tc_merits_alike(const struct tc_merits *a, const struct tc_merits *b);

/*
 * For each of count alternatives, in beaten_by, the index of one that dominates it and is itself beaten by
 * none, or -1 for those that none does: the choice. TC_NO_MEMORY. Time grows with count times the number of
 * those.
 */
enum tc_status tc_dominance_find(const struct tc_merits merits[], size_t count, int beaten_by[]);

#endif
