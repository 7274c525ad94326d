/* SPDX-License-Identifier: MIT */
/*
 * upkeep_time.h - the hours a year that a candidate's tanks take their keeper.
 *
 * From the setup's habits, all figures common practice, no source:
 *
 *   a change of water   10 minutes to lay out and put away, and 1 for each 10 liters that go out and in
 *   a tank and week     10 minutes for its glass, plants and a close look
 *   a filter            5 minutes a month for a sponge, 10 for a hang-on, 30 every three months for a
 * canister
 *
 * Where the arm has further than 45 cm to the bed, changes and the weekly work take longer: half as long
 * again for each 30 cm beyond. Feeding is not counted. Keepers differ: the range is 0.6 to 1.6 times that.
 */
#ifndef TC_CORE_COST_UPKEEP_TIME_H
#define TC_CORE_COST_UPKEEP_TIME_H

#include "core/goods/part.h"
#include "core/goods/setup.h"
#include "core/goods/tank.h"

/* Up to here the arm reaches easily, m; so much beyond takes half as long again. */
#define TC_UPKEEP_EASY_REACH 0.45
#define TC_UPKEEP_FAR_REACH  0.30

/* The range about the sum. */
#define TC_UPKEEP_LEAST 0.6
#define TC_UPKEEP_MOST  1.6

/* Hours a year. */
struct tc_upkeep_time {
    double changes, tanks, filters;
    double total;
};

/* Of so many equal tanks, each with so many of a filter; NULL: none. */
struct tc_upkeep_time tc_upkeep_time(const struct tc_setup *setup, const struct tc_tank_size *size,
                                     const struct tc_filter *filter, int filter_count, int quantity);

/* That one filter of a kind is cleaned. */
double tc_upkeep_filter_hours(enum tc_filter_kind kind);

#endif
