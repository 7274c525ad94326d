/* SPDX-License-Identifier: MIT */
/*
 * wall_one_goal.h - what a line can come to on a wall, and several goals made one
 * line (internal to wall_mixed).
 */
#ifndef TC_CORE_WALL_WALL_ONE_GOAL_H
#define TC_CORE_WALL_WALL_ONE_GOAL_H

#include <stdbool.h>

#include "core/wall/wall_knapsack.h"
#include "core/wall/wall_master.h"

/*
 * More than a line can come to, either way or (below) less than nothing,
 * whatever stands on the wall: by the space that each tank takes.
 */
double tc_wall_most_of_line(const struct tc_wall_master *master, const struct tc_wall_line *line, bool below);

/*
 * The goals as one: each so much more than the ones behind it can come to.
 * Returns how many of them there was room for; scale is what the first was
 * multiplied by, behind more than all the others can add to it.
 */
int tc_wall_one_goal(const struct tc_wall_master *master, const struct tc_wall_line *goals, int count,
                     struct tc_wall_line *one, double *scale, double *behind);

#endif
