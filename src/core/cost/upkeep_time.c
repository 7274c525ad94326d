/* SPDX-License-Identifier: MIT */
#include "core/cost/upkeep_time.h"

#include <math.h>

#define MINUTES_A_CHANGE 10.0
#define MINUTES_A_M3     100.0 /* 1 for 10 litres */
#define MINUTES_A_WEEK   10.0

/* Minutes a year that one filter is cleaned. */
static double filter_minutes(enum tc_filter_kind kind)
{
    switch (kind) {
    case TC_FILTER_SPONGE: return 12 * 5;
    case TC_FILTER_HANG_ON: return 12 * 10;
    case TC_FILTER_CANISTER: return 4 * 30;
    case TC_FILTER_NONE: break;
    }
    return 0;
}

struct tc_upkeep_time tc_upkeep_time(const struct tc_case *c, const struct tc_equipment *equipment)
{
    const struct tc_setup *setup = c->setup;
    const struct tc_filled *filter = &equipment->slot[TC_SLOT_FILTER];
    double slower = 1 + 0.5 * fmax(0, equipment->size.reach - TC_UPKEEP_EASY_REACH) / TC_UPKEEP_FAR_REACH;
    double hours = c->quantity / 60.0;
    struct tc_upkeep_time time = {.tanks = hours * slower * MINUTES_A_WEEK * 365 / 7};
    if (setup->change_share > 0 && setup->change_interval > 0) {
        double moved = setup->change_share * equipment->size.water_volume;
        time.changes =
            hours * slower * (MINUTES_A_CHANGE + MINUTES_A_M3 * moved) * 365 / setup->change_interval;
    }
    if (filter->offer)
        time.filters = hours * filter->count * filter_minutes(filter->offer->part->as.filter.kind);
    time.total = time.changes + time.tanks + time.filters;
    return time;
}
