/* SPDX-License-Identifier: MIT */
/*
 * wall_objective.h - what "best" means for a wall, as lines to be made as large as
 * possible (internal to wall_solve and wall_sensitivity). The meaning is told in
 * wall_goal.h.
 */
#ifndef TC_CORE_WALL_WALL_OBJECTIVE_H
#define TC_CORE_WALL_WALL_OBJECTIVE_H

#include "core/knapsack/knapsack.h"
#include "core/base/status.h"
#include "core/wall/wall.h"
#include "core/wall/wall_knapsack.h"
#include "core/wall/wall_goal.h"
#include "core/wall/wall_mixed.h"

enum { TC_WALL_GOALS = 2 };

/* What is asked of a wall, for the functions below. */
struct tc_wall_asked {
    const struct tc_wall *wall;
    const struct tc_wall_model *models;
    int count;
    const struct tc_wall_goal *goal;
    const struct tc_knapsack_effort *effort;
};

struct tc_wall_reached_goal {
    struct tc_knapsack_answer answer; /* nodes of all rounds together */
    double reached, bound;            /* in the units of tc_wall_mix */
};

/* The bays that are best under the wall's limits and the wanted number. Statuses as tc_wall_mix_find's. */
enum tc_status tc_wall_objective_solve(const struct tc_wall_asked *asked, struct tc_wall_reached_goal *aimed,
                                       struct tc_wall_bays *bays);

/* Bays with which a goal comes to as much as `enough`; statuses as those of tc_wall_mixed_reach. */
enum tc_status tc_wall_line_reach(const struct tc_wall_asked *asked, const struct tc_wall_limit_line *limits,
                                  int limit_count, const struct tc_wall_line *goal, int64_t enough,
                                  struct tc_wall_bays *bays);

/* All limits of the wall and the goal; returns how many of the TC_WALL_LIMITS there is room for. */
int tc_wall_objective_limits(const struct tc_wall *wall, const struct tc_wall_goal *goal,
                             struct tc_wall_limit_line *limits);

/* The figure the goal's cost is. */
enum tc_wall_quantity tc_wall_objective_cost(const struct tc_wall_goal *goal);

#endif
