/* SPDX-License-Identifier: MIT */
/*
 * wall_master.h - the linear program of a wall's bays (internal to wall_mixed).
 *
 * Every pattern on every circuit is a column, found when the prices of the
 * columns before call for it (column generation). Its rows are the limit lines,
 * what is wanted of a model at least and at most, and the sale: how many of a
 * model go at the sale price is a column of its own, not above the tanks there
 * are.
 */
#ifndef TC_CORE_WALL_WALL_MASTER_H
#define TC_CORE_WALL_WALL_MASTER_H

#include <stdbool.h>
#include <stdint.h>

#include "core/knapsack/knapsack.h"
#include "core/knapsack/simplex.h"
#include "core/base/status.h"
#include "core/wall/wall.h"
#include "core/wall/wall_knapsack.h"
#include "core/wall/wall_pattern.h"
#include "core/wall/wall_price.h"
#include "core/wall/wall_rows.h"

/* What is asked of the bays: one goal, already one line. */
struct tc_wall_master {
    const struct tc_wall *wall;
    const struct tc_wall_model *models;
    int count;
    const struct tc_wall_limit_line *limits;
    int limit_count;
    struct tc_wall_line goal;

    int stretches, circuits;
    struct tc_wall_frame *frame; /* one a stretch; owned, as the patterns and the program */
    struct tc_wall_patterns patterns;
    int64_t (*tank)[TC_WALL_QUANTITIES]; /* the figures of one of each model */

    /* Rows behind the limit lines; -1 where a model has none. */
    int rows;
    int *least, *most, *sale, *sale_most; /* per model */
    int64_t *limit;                       /* per row */
    struct tc_simplex *program;
    int sales;          /* columns in front of the patterns' */
    int *sale_model;    /* of them */
    double *multiplier; /* per row */
    bool feasible;      /* the program has a solution: the multipliers are of the goal */
    bool whole;         /* no bay that would gain was overlooked */
    int64_t steps;      /* spent on it */
    double size;        /* magnitude of what is added up in a bound, for margins */
};

/*
 * Sets the program up, without patterns. TC_NO_MEMORY; TC_RANGE: too many
 * limits. Freed with tc_wall_master_free whatever the status.
 */
enum tc_status tc_wall_master_make(struct tc_wall_master *master, const struct tc_wall *wall,
                                   const struct tc_wall_model *models, int count,
                                   const struct tc_wall_limit_line *limits, int limit_count,
                                   const struct tc_wall_line *goal);
void tc_wall_master_free(struct tc_wall_master *master);

/* Adds the pattern added last to the program. */
enum tc_status tc_wall_master_add(struct tc_wall_master *master);

/* Solves the program, adding patterns as long as they gain, or until go_on says no (TC_STOPPED). */
enum tc_status tc_wall_master_solve(struct tc_wall_master *master, const struct tc_knapsack_effort *effort);

/* Measures what bounds add up, after other multipliers were put. */
void tc_wall_master_measure(struct tc_wall_master *master);

/* The figures of a pattern on a circuit, and how many of each model it holds (NULL: not asked). */
void tc_wall_master_figures(const struct tc_wall_master *master, int pattern, int circuit, int64_t *figure,
                            int *tanks);

/*
 * What a pattern on a circuit uses of each row of the program, for rows that
 * start at 0. figure and tanks as above.
 */
void tc_wall_master_uses(const struct tc_wall_master *master, int pattern, int circuit, int64_t *figure,
                         int *tanks, int64_t *uses);

/* What the sale takes off one tank's costs, as figures. */
void tc_wall_master_rebate(const struct tc_wall_master *master, int model, int64_t *figure);

/*
 * The prices at the multipliers on a circuit. length: whether those of the
 * limits of length alone count; *each is the price of a unit of length.
 */
void tc_wall_master_prices(const struct tc_wall_master *master, int stretch, int circuit, bool length,
                           struct tc_wall_prices *prices, double *each);

/* The bound but for what bays add: what the limits, those of length alone left out, and the sale are worth.
 */
double tc_wall_master_base(const struct tc_wall_master *master);

#endif
