/* SPDX-License-Identifier: MIT */
/*
 * wall_aim.h - what "best" means for a wall, as lines to be made as large as
 * possible (internal to wall_mix and wall_relief). The meaning is told in
 * wall_mix.h.
 */
#ifndef TC_CORE_WALL_WALL_AIM_H
#define TC_CORE_WALL_WALL_AIM_H

#include <stdint.h>

#include "core/knapsack/pack.h"
#include "core/base/status.h"
#include "core/wall/wall.h"
#include "core/wall/wall_choices.h"
#include "core/wall/wall_mix.h"

enum { TC_WALL_GOALS = 3, TC_WALL_LIMITS = 6 };

struct tc_wall_aimed {
    struct tc_pack_answer answer; /* nodes of all rounds together */
    double reached, bound;        /* in the units of tc_wall_mix */
};

/* What is best under the wall's limits and the wanted number. Statuses as tc_wall_mix_find's. */
enum tc_status tc_wall_aim_solve(const struct tc_wall *wall, const struct tc_wall_choices *choices,
                                 const struct tc_wall_goal *goal, const struct tc_pack_effort *effort,
                                 struct tc_wall_aimed *aimed, int *picked);

/* All limits of the wall and the goal; returns how many of the TC_WALL_LIMITS there is room for. */
int tc_wall_aim_limits(const struct tc_wall *wall, const struct tc_wall_goal *goal,
                       struct tc_wall_limit_line *limits);

/* The figure the goal's cost is. */
enum tc_wall_quantity tc_wall_aim_cost(const struct tc_wall_goal *goal);

#endif
