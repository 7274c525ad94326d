/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_solve.h"

#include "core/wall/wall_objective.h"
#include "core/wall/wall_place.h"

enum tc_status tc_wall_mix_find(const struct tc_wall *wall, const struct tc_wall_model *models, int count,
                                const struct tc_wall_goal *goal, const struct tc_knapsack_effort *effort,
                                struct tc_wall_mix *mix)
{
    *mix = (struct tc_wall_mix){0};
    struct tc_wall_bays bays = {.capacity = 0};
    struct tc_wall_reached_goal aimed;
    const struct tc_wall_asked asked = {wall, models, count, goal, effort};
    enum tc_status status = tc_wall_objective_solve(&asked, &aimed, &bays);
    if (status == TC_OK) {
        mix->reached = aimed.reached;
        mix->bound = aimed.bound;
        mix->proven = aimed.answer.proven;
        mix->goals_proven = aimed.answer.goals_proven;
        mix->nodes = aimed.answer.nodes;
        status = tc_wall_place(wall, models, count, &bays, mix);
    }
    tc_wall_bays_free(&bays);
    if (status != TC_OK)
        tc_wall_mix_free(mix);
    return status;
}
