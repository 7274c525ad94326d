/* SPDX-License-Identifier: MIT */
/*
 * knapsack_branch.h - branch and bound over a packing table (internal to pack).
 *
 * Depth first. A node allows each class a run of its choices; it is bounded by
 * its linear relaxation (knapsack_bound.h), the runs are shortened at their ends
 * by every choice the bound excludes, a valid answer is sought by rounding,
 * and the run of the class that is mixed most evenly is cut in two where the
 * relaxation mixes it.
 */
#ifndef TC_CORE_KNAPSACK_KNAPSACK_BRANCH_H
#define TC_CORE_KNAPSACK_KNAPSACK_BRANCH_H

#include <stdbool.h>
#include <stdint.h>

#include "core/knapsack/knapsack_size.h"
#include "core/knapsack/knapsack_presolve.h"
#include "core/base/status.h"

struct tc_knapsack_found {
    bool any;      /* in: picks hold a valid answer to start from; out: they hold the best found */
    bool proven;   /* nothing better exists (or, where not any, nothing at all) */
    int64_t gain;  /* of the picks, if any */
    int64_t bound; /* nothing surpasses it; = gain where proven */
    int64_t nodes; /* out: nodes searched */
    double *reach; /* NULL, or per choice, by table->number: out: no valid answer with it gains more than
                      this; untouched where the choice is in no valid answer worth having */
};

/*
 * Solves the table, which is made smaller on the way. picks[class] is a
 * choice's table->number. TC_OK whatever was found; TC_NO_MEMORY.
 */
enum tc_status tc_knapsack_branch(struct tc_knapsack_table *table, const struct tc_knapsack_effort *effort,
                                  struct tc_knapsack_found *found, int *picks);

#endif
