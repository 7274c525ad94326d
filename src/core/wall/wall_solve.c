/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_solve.h"

#include <stdlib.h>

#include "core/wall/wall_objective.h"
#include "core/wall/wall_knapsack.h"
#include "core/wall/wall_place.h"

enum tc_status tc_wall_mix_find(const struct tc_wall *wall, const struct tc_wall_model *models, int count,
                                const struct tc_wall_goal *goal, const struct tc_knapsack_effort *effort,
                                struct tc_wall_mix *mix)
{
    *mix = (struct tc_wall_mix){0};
    struct tc_wall_knapsack choices = {0};
    int *picked = calloc((size_t)(count > 0 ? count : 0) + 1, sizeof *picked);
    enum tc_status status = picked ? tc_wall_knapsack_create(wall, models, count, &choices) : TC_NO_MEMORY;
    struct tc_wall_objectiveed aimed;
    if (status == TC_OK)
        status = tc_wall_objective_solve(wall, &choices, goal, effort, &aimed, picked);
    if (status == TC_OK) {
        mix->reached = aimed.reached;
        mix->bound = aimed.bound;
        mix->proven = aimed.answer.proven;
        mix->goals_proven = aimed.answer.goals_proven;
        mix->nodes = aimed.answer.nodes;
        status = tc_wall_place(wall, models, &choices, picked, mix);
    }
    tc_wall_knapsack_free(&choices);
    free(picked);
    if (status != TC_OK)
        tc_wall_mix_free(mix);
    return status;
}

void tc_wall_mix_free(struct tc_wall_mix *mix)
{
    free(mix->count);
    free(mix->on_sale);
    free(mix->column);
    free(mix->bay);
    *mix = (struct tc_wall_mix){0};
}
