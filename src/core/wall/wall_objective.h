/* SPDX-License-Identifier: MIT */
/*
 * wall_objective.h - what "best" means for a wall, as lines to be made as large as
 * possible (internal to wall_mix and wall_relief). The meaning is told in
 * wall_solve.h.
 */
#ifndef TC_CORE_WALL_WALL_OBJECTIVE_H
#define TC_CORE_WALL_WALL_OBJECTIVE_H

#include <stdint.h>

#include "core/knapsack/knapsack.h"
#include "core/base/status.h"
#include "core/wall/wall.h"
#include "core/wall/wall_knapsack.h"
#include "core/wall/wall_solve.h"

enum { TC_WALL_GOALS = 3, TC_WALL_LIMITS = 6 };

struct tc_wall_objectiveed {
    struct tc_knapsack_answer answer; /* nodes of all rounds together */
    double reached, bound;            /* in the units of tc_wall_mix */
};

/* What is best under the wall's limits and the wanted number. Statuses as tc_wall_mix_find's. */
enum tc_status tc_wall_objective_solve(const struct tc_wall *wall, const struct tc_wall_knapsack *choices,
                                       const struct tc_wall_goal *goal,
                                       const struct tc_knapsack_effort *effort,
                                       struct tc_wall_objectiveed *aimed, int *picked);

/* All limits of the wall and the goal; returns how many of the TC_WALL_LIMITS there is room for. */
int tc_wall_objective_limits(const struct tc_wall *wall, const struct tc_wall_goal *goal,
                             struct tc_wall_limit_line *limits);

/* The figure the goal's cost is. */
enum tc_wall_quantity tc_wall_objective_cost(const struct tc_wall_goal *goal);

#endif
