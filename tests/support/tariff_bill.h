/* SPDX-License-Identifier: MIT */
/* tariff_bill.h - whole bills of a tariff, to hold what a tank adds to them against. */
#ifndef TC_TESTS_TARIFF_BILL_H
#define TC_TESTS_TARIFF_BILL_H

#include "core/tariff/tariff.h"

/* The bill of one month (0 to 11) for the given units by hour of day: minor units with tax, unrounded. */
double tariff_bill(const struct tc_tariff *tariff, int month, const double use[TC_HOURS]);

/* What one load adds, as money: tc_tariff_shared with one consumer. */
enum tc_status tariff_cost(const struct tc_tariff_margin *margin, const struct tc_load *load,
                           struct tc_tariff_cost *cost);

/* Sets the workday share of each month from counts: a year's calendar less its holidays. */
void tariff_set_days(struct tc_tariff *tariff, const int workdays[TC_MONTHS], const int days[TC_MONTHS]);

#endif
