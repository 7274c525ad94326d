/* SPDX-License-Identifier: MIT */
/*
 * knapsack_heuristic.h - valid answers near a relaxed one (internal to pack).
 *
 * The sooner the search knows a good answer, the more its bounds exclude. Each
 * class is rounded to the choice the relaxation takes most of, or to the
 * smaller one where that breaks a limit, and what is then left is filled up.
 * None of this is proof of anything.
 */
#ifndef TC_CORE_KNAPSACK_KNAPSACK_HEURISTIC_H
#define TC_CORE_KNAPSACK_KNAPSACK_HEURISTIC_H

#include <stdbool.h>
#include <stdint.h>

#include "core/knapsack/knapsack_bound.h"
#include "core/knapsack/knapsack_presolve.h"
#include "core/base/status.h"

struct tc_knapsack_heuristic {
    const struct tc_knapsack_table *table; /* borrowed */
    int *trial;                            /* a choice for each class */
    int *offer;                            /* scratch: what each class would be exchanged for */
    int64_t
        left[TC_KNAPSACK_TABLE_ROWS]; /* what the trial leaves of each limit; negative where it breaks it */
};

enum tc_status tc_knapsack_heuristic_create(struct tc_knapsack_heuristic *round,
                                            const struct tc_knapsack_table *table);
void tc_knapsack_heuristic_free(struct tc_knapsack_heuristic *round);

/* Takes the choices given as the trial; whether it keeps all limits. */
bool tc_knapsack_heuristic_take(struct tc_knapsack_heuristic *round, const int *choices);

/*
 * Rounds the answer of a relaxation, with its runs and its basis, to a trial
 * within the runs; whether it keeps all limits.
 */
bool tc_knapsack_heuristic_off(struct tc_knapsack_heuristic *round, const struct tc_knapsack_bound *relax,
                               const int *low, const int *high, const int *key, const int *work);

#endif
