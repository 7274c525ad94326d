/* SPDX-License-Identifier: MIT */
/*
 * wall_packing.h - the bays of a wall's linear program as a knapsack: how often each of them stands (internal
 * to wall_mixed).
 */
#ifndef TC_CORE_WALL_WALL_PACKING_H
#define TC_CORE_WALL_WALL_PACKING_H

#include "core/knapsack/knapsack.h"
#include "core/wall/wall_master.h"

/*
 * Its rows are the limit lines and those of models, but for the sale's own limit, which is a class's. Its
 * classes: how many of each model are bought in the sale, then how often each pattern stands on each circuit.
 */
struct tc_wall_packing {
    struct tc_knapsack *pack; /* owned: tc_knapsack_free */
    int rows;
    int row[TC_SIMPLEX_ROWS_MAX]; /* of the master */
    int classes;
    double choices;
};

/* Of the patterns the master has. TC_NO_MEMORY, TC_RANGE, TC_OVERFLOW: free the pack all the same. */
enum tc_status tc_wall_packing_make(const struct tc_wall_master *master, struct tc_wall_packing *packing);

#endif
