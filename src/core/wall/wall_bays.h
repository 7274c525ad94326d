/* SPDX-License-Identifier: MIT */
/*
 * wall_bays.h - all the ways worth having to stand N equal tanks on a wall.
 *
 * For one model and every number of tanks: the sets of bays, along the wall
 * and end-on, that no other set beats in both wall length and price of rack.
 * Found by dynamic programming over the number of tanks, adding one bay at a
 * time. Everything else (price of tanks, power, water, mass) depends on the
 * number alone, so this is all the optimiser has to know about a model.
 */
#ifndef TC_CORE_WALL_WALL_BAYS_H
#define TC_CORE_WALL_WALL_BAYS_H

#include <stddef.h>
#include <stdbool.h>
#include <stdint.h>

#include "core/money/money.h"
#include "core/base/status.h"
#include "core/wall/wall.h"

enum {
    TC_WALL_TANKS_MAX = 5000,     /* of one model on one wall */
    TC_WALL_BAY_COLUMNS_MAX = 40, /* in one bay, however long it may be */
};

/* A bay of one model: `columns` columns, all but the last `tiers` high, with `tanks` tanks. */
struct tc_wall_bay_kind {
    bool end_on;
    int columns, tiers, tanks;
    int64_t length; /* whole units, see tc_wall_bay_units */
    tc_money price; /* of the rack */
};

struct tc_wall_way {
    int tanks;
    int64_t length;
    tc_money price;
    int bays;
    int kind;   /* the bay added last; -1 for no tanks */
    int before; /* the way without it; -1 for no tanks */
};

struct tc_wall_ways {
    struct tc_wall_bay_kind *kinds;
    int kind_count;
    struct tc_wall_way *ways; /* by rising number of tanks; the first is no tanks */
    int way_count;
    size_t way_capacity;
};

/*
 * Ways for 0 to `most` tanks, or as many as the wall is long enough for. wall
 * and model must have passed their checks. Freed with tc_wall_ways_free (also
 * a zeroed one). TC_NO_MEMORY; TC_OVERFLOW of money; TC_RANGE where more than
 * TC_WALL_TANKS_MAX tanks could stand.
 */
enum tc_status tc_wall_ways_create(const struct tc_wall *wall, const struct tc_wall_model *model, int most,
                                   struct tc_wall_ways *ways);
void tc_wall_ways_free(struct tc_wall_ways *ways);

#endif
