/* SPDX-License-Identifier: MIT */
#include "core/cost/upkeep_time.h"

#include <math.h>

#define MINUTES_A_CHANGE 10.0
#define MINUTES_A_M3     100.0 /* 1 for 10 litres */
#define MINUTES_A_WEEK   10.0

double tc_upkeep_filter_hours(enum tc_filter_kind kind)
{
    switch (kind) {
    case TC_FILTER_SPONGE: return 12 * 5 / 60.0;
    case TC_FILTER_HANG_ON: return 12 * 10 / 60.0;
    case TC_FILTER_CANISTER: return 4 * 30 / 60.0;
    case TC_FILTER_NONE: break;
    }
    return 0;
}

struct tc_upkeep_time tc_upkeep_time(const struct tc_setup *setup, const struct tc_tank_size *size,
                                     const struct tc_filter *filter, int filter_count, int quantity)
{
    double slower = 1 + 0.5 * fmax(0, size->reach - TC_UPKEEP_EASY_REACH) / TC_UPKEEP_FAR_REACH;
    double hours = quantity / 60.0;
    struct tc_upkeep_time time = {.tanks = hours * slower * MINUTES_A_WEEK * 365 / 7};
    if (setup->change_share > 0 && setup->change_interval > 0) {
        double moved = setup->change_share * size->water_volume;
        time.changes =
            hours * slower * (MINUTES_A_CHANGE + MINUTES_A_M3 * moved) * 365 / setup->change_interval;
    }
    if (filter)
        time.filters = quantity * filter_count * tc_upkeep_filter_hours(filter->kind);
    time.total = time.changes + time.tanks + time.filters;
    return time;
}
