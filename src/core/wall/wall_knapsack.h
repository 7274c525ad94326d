/* SPDX-License-Identifier: MIT */
/*
 * wall_knapsack.h - a wall's question as a packing problem (internal to wall_solve and wall_sensitivity).
 *
 * Every way to stand every model's tanks (wall_bays.h) becomes a choice with a
 * row of whole figures. Limits and goals are both linear in those figures, so
 * each is given by its factors.
 */
#ifndef TC_CORE_WALL_WALL_KNAPSACK_H
#define TC_CORE_WALL_WALL_KNAPSACK_H

#include <stdint.h>

#include "core/knapsack/knapsack.h"
#include "core/base/status.h"
#include "core/wall/wall.h"
#include "core/wall/wall_bays.h"

enum tc_wall_quantity {
    TC_WALL_TANKS,
    TC_WALL_LENGTH, /* of the first stretch, then of the others; tc_wall_length_units is the limit */
    TC_WALL_POWER = TC_WALL_LENGTH + TC_WALL_STRETCHES_MAX, /* mW on the first circuit, then on the others */
    TC_WALL_COST = TC_WALL_POWER + TC_WALL_CIRCUITS_MAX,    /* to buy, racks included */
    TC_WALL_COST_OVER_PERIOD,
    TC_WALL_AREA,  /* mm2 */
    TC_WALL_WATER, /* ml */
    TC_WALL_BAYS,
    TC_WALL_QUANTITIES
};

/* Sum of factor * figure. */
struct tc_wall_line {
    int64_t factor[TC_WALL_QUANTITIES];
};

struct tc_wall_limit_line {
    struct tc_wall_line line;
    int64_t limit; /* the line may not be above this */
};

struct tc_wall_choice {
    int model;
    int way; /* in the ways of the model */
    int64_t figure[TC_WALL_QUANTITIES];
};

struct tc_wall_knapsack {
    int models;
    struct tc_wall_ways *ways;     /* per model */
    struct tc_wall_choice *choice; /* model after model */
    int *first;                    /* models + 1: the choices of each model */
    int count;
    int64_t most[TC_WALL_QUANTITIES]; /* the largest figure of any choice */
};

/*
 * The choices of the models on the wall. Statuses as tc_wall_mix_find's. A
 * model that cannot reach its least number has no choice. Freed with
 * tc_wall_knapsack_free (also a zeroed one).
 */
enum tc_status tc_wall_knapsack_create(const struct tc_wall *wall, const struct tc_wall_model *models,
                                       int count, struct tc_wall_knapsack *choices);
void tc_wall_knapsack_free(struct tc_wall_knapsack *choices);

/* The limits the wall sets: lengths, power, budget. Writes to limits, which has room for TC_WALL_LIMITS;
 * returns how many. */
enum { TC_WALL_LIMITS = TC_WALL_STRETCHES_MAX + TC_WALL_CIRCUITS_MAX + 2 };
int tc_wall_knapsack_limits(const struct tc_wall *wall, struct tc_wall_limit_line *limits);

/* The figures of one tank at its list price, on the first circuit and without a rack. */
void tc_wall_tank_figures(const struct tc_wall_model *model, int64_t *figure);

/* Sum of factor * figure, which the caller knows to be within range. */
int64_t tc_wall_line_value(const struct tc_wall_line *line, const int64_t *figure);

/*
 * As tc_knapsack_solve, with goals to be as large as possible, in order;
 * picked[model] is an index of choice.
 */
enum tc_status tc_wall_knapsack_solve(const struct tc_wall_knapsack *choices,
                                      const struct tc_wall_limit_line *limits, int limit_count,
                                      const struct tc_wall_line *goals, int goal_count,
                                      const struct tc_knapsack_effort *effort,
                                      struct tc_knapsack_answer *answer, int *picked);

#endif
