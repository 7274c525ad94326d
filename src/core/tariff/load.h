/* SPDX-License-Identifier: MIT */
/*
 * load.h - how much of something is used in each hour of the day, month by month.
 *
 * A load says, for each month (0 January to 11 December) and each hour of the
 * day (0: from midnight to one o'clock, local time), the units used in that
 * hour over the whole month: kWh of electricity or m3 of water. The year has
 * 365 days; every day of a month is taken to be alike, workday or not.
 *
 * A load is a plain value: copy it, keep it, forget it.
 */
#ifndef TC_CORE_TARIFF_LOAD_H
#define TC_CORE_TARIFF_LOAD_H

enum { TC_MONTHS = 12, TC_HOURS = 24 };

struct tc_load {
    double use[TC_MONTHS][TC_HOURS]; /* units a month in that hour of the day */
};

/* Days of a month in a year of 365; 0 for a month that does not exist. */
int tc_load_days(int month);

/* A load spread evenly over the day: units[month] a month. */
void tc_load_even(struct tc_load *load, const double units[TC_MONTHS]);

/*
 * A device that runs at a constant power every day: rate units an hour (kW for
 * kWh) from the hour `from` (0 up to 24, such as 9.5 for half past nine) for
 * `hours` (0 to 24), past midnight if need be.
 */
void tc_load_daily(struct tc_load *load, double rate, double from, double hours);

/* Adds the units of other, times a factor, to load. */
void tc_load_add(struct tc_load *load, const struct tc_load *other, double factor);

/* Units of one month, and of the year. */
double tc_load_month(const struct tc_load *load, int month);
double tc_load_year(const struct tc_load *load);

#endif
