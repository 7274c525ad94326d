/* SPDX-License-Identifier: MIT */
/*
 * knapsack_presolve.h - a packing problem with one goal, made small (internal to pack).
 *
 * The dense form the search works on. It is equivalent to the problem it was
 * filled with: choices that can be in no answer and rows that can never bind
 * are dropped; what every answer uses and gains anyway is taken out.
 */
#ifndef TC_CORE_KNAPSACK_KNAPSACK_PRESOLVE_H
#define TC_CORE_KNAPSACK_KNAPSACK_PRESOLVE_H

#include <stdbool.h>
#include <stdint.h>

#include "core/knapsack/knapsack_size.h"
#include "core/base/status.h"

/* Each goal reached becomes one more row for the goals after it. */
enum { TC_KNAPSACK_TABLE_ROWS = TC_KNAPSACK_ROWS_MAX + TC_KNAPSACK_GOALS_MAX - 1 };

struct tc_knapsack_table {
    int classes;
    int rows;      /* rows left */
    int choices;   /* choices left, all classes together */
    int room;      /* choices there is memory for */
    int *first;    /* classes + 1 entries: class i holds choices first[i] .. first[i+1]-1 */
    int *number;   /* the caller's number of the choice */
    int64_t *gain; /* the least of each class is 0 */
    int64_t *use[TC_KNAPSACK_TABLE_ROWS];  /* the least of each class is 0 */
    int64_t limit[TC_KNAPSACK_TABLE_ROWS]; /* never negative */
    int64_t base;                          /* gain of the problem = base + sum of gain */
    double *weight;                        /* gain as double */
    double *share[TC_KNAPSACK_TABLE_ROWS]; /* use / limit, so each limit is 1 */
};

/* Room for a table; TC_NO_MEMORY. Freed with tc_knapsack_table_free, which may be called on a zeroed table.
 */
enum tc_status tc_knapsack_table_create(struct tc_knapsack_table *table, int classes, int rows, int choices);
void tc_knapsack_table_free(struct tc_knapsack_table *table);

/*
 * Makes the table small, after the caller has filled first, number, gain, use
 * and limit (any sign, base 0). TC_NO_RESULT: no answer keeps all
 * limits. keep, if not NULL, has one flag per choice: the others are dropped
 * first.
 */
enum tc_status tc_knapsack_table_reduce(struct tc_knapsack_table *table, const bool *keep);

#endif
