/* SPDX-License-Identifier: MIT */
/*
 * knapsack_size.h - how large a knapsack problem may be, and how much work is
 * spent on it: what the solver (knapsack.h) shares with its parts.
 */
#ifndef TC_CORE_KNAPSACK_KNAPSACK_SIZE_H
#define TC_CORE_KNAPSACK_KNAPSACK_SIZE_H

#include <stdbool.h>
#include <stdint.h>

enum {
    TC_KNAPSACK_ROWS_MAX = 60, /* limits */
    TC_KNAPSACK_GOALS_MAX = 4  /* goals, in order */
};

/* Figures, and the sum over all classes of the largest figure, stay within this. */
#define TC_KNAPSACK_FIGURE_MAX INT64_C(2000000000000000000)

/* How much work to spend; zero-initialised: no limit. */
struct tc_knapsack_effort {
    int64_t nodes;                               /* most nodes of the search per goal; 0: no limit */
    bool (*go_on)(void *context, int64_t nodes); /* asked now and then, may be NULL; false stops the search */
    void *context;                               /* handed to go_on */
};

#endif
