/* SPDX-License-Identifier: MIT */
/*
 * wall_mixed.h - the best bays of a wall whose tiers may mix (internal to
 * wall_solve and wall_sensitivity).
 *
 * 1. The linear program of all bays there could be is solved by column
 *    generation (wall_master.h). Its prices bound every answer from above; the
 *    bound is made tighter by filling each stretch with whole bays at them.
 * 2. The bays met on the way, in whole numbers, are a multiple-choice knapsack
 *    (knapsack.h): a good answer.
 * 3. An answer that is better holds only bays that lie near enough to the
 *    bound. Those nearest are listed first (wall_price.h) and searched, which
 *    mostly brings a better answer, with which fewer are near enough; at last
 *    all of them: the best answer of all, and proven. Where they are too many,
 *    what the others could reach stays as the bound, sought again by prices
 *    that bound more tightly.
 * (Bounds by Lagrangian relaxation: Geoffrion 1974; fixing columns by them:
 * Nemhauser and Wolsey, Integer and Combinatorial Optimization, 1988, II.5.)
 *
 * Answers are compared as whole numbers. Floating point serves prices and
 * bounds, each of which holds for any prices and carries a margin, so it can
 * cost time and no optimum.
 */
#ifndef TC_CORE_WALL_WALL_MIXED_H
#define TC_CORE_WALL_WALL_MIXED_H

#include <stddef.h>

#include "core/knapsack/knapsack.h"
#include "core/base/status.h"
#include "core/wall/wall.h"
#include "core/wall/wall_knapsack.h"
#include "core/wall/wall_pattern.h"

/* The bays of an answer. Owns its memory. */
struct tc_wall_bays {
    struct tc_wall_patterns patterns; /* each as often as it stands */
    int *circuit;                     /* of each, counted from 0 */
    size_t capacity;
};
void tc_wall_bays_free(struct tc_wall_bays *bays); /* also of zeroed ones */

/* Adds a copy of a pattern of others on a circuit; TC_NO_MEMORY. */
enum tc_status tc_wall_bays_add(struct tc_wall_bays *bays, const struct tc_wall_patterns *from, int pattern,
                                int circuit);

/* What bays come to, the sale included. */
void tc_wall_bays_figures(const struct tc_wall *wall, const struct tc_wall_model *models, int count,
                          const struct tc_wall_bays *bays, int64_t *figure, int *tanks);

/*
 * Makes the goals, in their order, as large as they can be under the limits and
 * what is wanted of each model. bays: an answer to start from on entry, where
 * start is set; the best found on return. Statuses as tc_knapsack_solve's.
 */
enum tc_status tc_wall_mixed_solve(const struct tc_wall *wall, const struct tc_wall_model *models, int count,
                                   const struct tc_wall_limit_line *limits, int limit_count,
                                   const struct tc_wall_line *goals, int goal_count,
                                   const struct tc_knapsack_effort *effort, bool start,
                                   struct tc_wall_bays *bays, struct tc_knapsack_answer *answer);

/*
 * Whether one goal can come to as much as `enough`: TC_OK with any bays that do; TC_NO_RESULT: none do,
 * which is proven; TC_STOPPED: none were found in the work allowed. bays and start as above.
 */
enum tc_status tc_wall_mixed_reach(const struct tc_wall *wall, const struct tc_wall_model *models, int count,
                                   const struct tc_wall_limit_line *limits, int limit_count,
                                   const struct tc_wall_line *goal, int64_t enough,
                                   const struct tc_knapsack_effort *effort, bool start,
                                   struct tc_wall_bays *bays);

#endif
