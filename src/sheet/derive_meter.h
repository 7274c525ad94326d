/* SPDX-License-Identifier: MIT */
/*
 * derive_meter.h - who uses how much electricity or water in a month, and what so
 * many units cost by their tariff, as terms (derive.h).
 */
#ifndef TC_SHEET_DERIVE_METER_H
#define TC_SHEET_DERIVE_METER_H

#include "sheet/derive.h"

/* What is billed: electricity to its consumers, or water to its uses. */
struct tc_meter {
    struct tc_derive *derive;
    bool energy;
    int month, season;                     /* of the tariff, from 0 */
    const struct tc_tariff *tariff;        /* major units */
    const struct tc_tariff_margin *margin; /* minor units */
    const struct tc_tariff_cost *total, *parts;
    const char *name; /* of the tariff; "" where the region has a flat price */
    double scale;
    int count;
};

/* Of electricity or water, for a month; "kWh", "m³". */
struct tc_meter tc_meter_of(struct tc_derive *derive, bool energy, int month);
const char *tc_meter_unit(const struct tc_meter *m);

/* A month's bill for so many units, whose hours cost so much (NULL: nothing). */
const struct tc_term *tc_meter_bill(const struct tc_meter *m, const char *symbol, const char *words,
                                    const struct tc_term *units, const struct tc_term *hours, double value);

/* Units of a consumer or use in the month, NULL: none; of all, U. */
const struct tc_term *tc_meter_used(const struct tc_meter *m, int i);
const struct tc_term *tc_meter_all_used(const struct tc_meter *m);

/* What the hours of a consumer cost, and of all, H; NULL where the month has no rates by the hour. */
const struct tc_term *tc_meter_hours(const struct tc_meter *m, int i);
const struct tc_term *tc_meter_all_hours(const struct tc_meter *m);

/* What the hours of such units cost that are used evenly over the day: u; NULL: nothing. */
const struct tc_term *tc_meter_even_hours(const struct tc_meter *m, const char *words,
                                          const struct tc_term *units, double value);

/*
 * What is on the bill without them, the household's own units and those of tanks billed first (derive.h,
 * before), u; and what their hours cost; NULL: hours cost nothing.
 */
const struct tc_term *tc_meter_own_units(const struct tc_meter *m);
const struct tc_term *tc_meter_own_hours(const struct tc_meter *m);

#endif
