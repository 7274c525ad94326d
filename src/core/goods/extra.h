/* SPDX-License-Identifier: MIT */
/*
 * extra.h - what a tank costs beside the tank and its parts: food, animals,
 * plants, tests. Lines of the user's own on every bill.
 */
#ifndef TC_CORE_GOODS_EXTRA_H
#define TC_CORE_GOODS_EXTRA_H

#include <stdbool.h>

#include "core/base/name.h"
#include "core/goods/goods.h"

/* So many may count at once. */
enum { TC_EXTRAS_MAX = 12 };

struct tc_extra {
    char name[TC_NAME_SIZE];
    char title[TC_TITLE_SIZE];
    struct tc_price_list amount; /* as it is paid, any tax included */
    bool once;                   /* paid at the start; else at the end of each year */
    bool each_tank;              /* for each tank; else for a candidate, however many tanks it has */
    double escalation;           /* how much faster than all prices a yearly one rises, a year */
    bool invented;
};

/* What one comes to in a place. */
struct tc_due {
    double amount; /* minor units, not rounded; NAN where it has no amount in the place's currency */
    bool once, each_tank;
    double escalation;
};

struct tc_due tc_extra_due(const struct tc_extra *extra, struct tc_currency currency);

#endif
