/* SPDX-License-Identifier: MIT */
/*
 * wall_solve.h - which tanks to put on a wall, and where: the best mix.
 *
 * Each stretch of wall is filled with bays, each bay with tiers, each tier with
 * tanks of any models side by side, under the lengths, the ratings, the power
 * of the circuits (each bay is on one), the budget, and what is wanted. Solved
 * exactly where that is proven in the work allowed (wall_mixed.h), else the
 * best found is told with the bound that nothing surpasses. It is never worse
 * than the best of bays that hold one model each, which is proven first.
 *
 * What is best is told in wall_goal.h.
 *
 * Whole units: mm2 of bottom, ml of water, rounded to the nearest; mW of
 * power, rounded up and the limit down; minor units of money.
 */
#ifndef TC_CORE_WALL_WALL_SOLVE_H
#define TC_CORE_WALL_WALL_SOLVE_H

#include <stdbool.h>
#include <stdint.h>

#include "core/money/money.h"
#include "core/knapsack/knapsack.h"
#include "core/base/status.h"
#include "core/wall/wall.h"
#include "core/wall/wall_goal.h"
#include "core/wall/wall_mix.h"

/*
 * Finds the best mix of models[0..count-1]. On TC_OK the mix holds memory of
 * its own, to be freed with tc_wall_mix_free; on anything else none. TC_OK also
 * where the search was stopped by effort (NULL: never) after finding a mix;
 * see mix->goals_proven and mix->bound. A mix of no tanks is a valid answer.
 *
 * TC_NO_RESULT: what is wanted at least cannot be had on this wall.
 * TC_STOPPED: the search was stopped before it found a mix. TC_RANGE: a figure
 * is out of range (tc_wall_check), too many models or tanks, or the aim is
 * water per money and some mix costs nothing. TC_OVERFLOW, TC_NO_MEMORY.
 */
enum tc_status tc_wall_mix_find(const struct tc_wall *wall, const struct tc_wall_model *models, int count,
                                const struct tc_wall_goal *goal, const struct tc_knapsack_effort *effort,
                                struct tc_wall_mix *mix);

#endif
