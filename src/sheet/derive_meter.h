/* SPDX-License-Identifier: MIT */
/*
 * derive_meter.h - what a month's units of electricity or water cost by their
 * tariff, and what the household's own do, as terms (derive.h).
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

/* The mean rate of an hour over workdays and weekends, with tax. */
const struct tc_term *tc_meter_hour_rate(const struct tc_meter *m, int hour);

/* A month's bill for so many units, whose hours cost so much (NULL: nothing). */
const struct tc_term *tc_meter_bill(const struct tc_meter *m, const char *symbol, const char *words,
                                    const struct tc_term *units, const struct tc_term *hours, double value);

/* What the hours of such units cost that are used evenly over the day: u; NULL: nothing. */
const struct tc_term *tc_meter_even_hours(const struct tc_meter *m, const char *words,
                                          const struct tc_term *units, double value);

/* The household's own units of a month, and what their hours cost; NULL: hours cost nothing. */
const struct tc_term *tc_meter_own_units(const struct tc_meter *m);
const struct tc_term *tc_meter_own_hours(const struct tc_meter *m);

#endif
