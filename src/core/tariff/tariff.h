/* SPDX-License-Identifier: MIT */
/*
 * tariff.h - what a month's use costs, and what a tank adds to the bill.
 *
 * One tariff type serves everything that is billed by the month and by the
 * unit: electricity (unit: kWh) and water (unit: m3). All rates are in minor
 * units of money per unit (12.5 for 12.5 cents per kWh), all charges in minor
 * units, before tax.
 *
 * A month's bill before tax is the sum of what applies of
 *
 *     every_unit x units          a rate on all units (the whole of a flat
 *                                 tariff; also a fuel or power cost rider)
 *     blocks                      by the units of the whole month
 *     hours                       by hour of the day, workday or weekend
 *
 * and of a minimum charge; blocks, hours and minimum may change with the
 * season. So a flat tariff, rising or falling blocks, time of use, and time of
 * use with blocks on top are one shape, and what a tariff does not have is
 * zero. A standing charge is left out: a tank does not cause it.
 *
 * What a tank costs is the bill with it less the bill without it, month by
 * month, on top of the household's own use. The tank's units come last, so
 * they pay the rates of the blocks they fall into.
 *
 * Limits: months are calendar months and the limits of blocks are per month
 * (a limit per day times the days of the month is near enough for a plan);
 * rates change at full hours (where one changes within an hour, its mean over
 * that hour is exact for a constant load); holidays count as workdays unless
 * workday_share says otherwise; no demand (kW) charge.
 */
#ifndef TC_CORE_TARIFF_TARIFF_H
#define TC_CORE_TARIFF_TARIFF_H

#include <stdbool.h>

#include "core/tariff/load.h"
#include "core/money/money.h"
#include "core/base/status.h"

enum {
    TC_TARIFF_SEASONS = 4,
    TC_TARIFF_BLOCKS = 12,
    TC_TARIFF_CONSUMERS = 16, /* most consumers one bill is shared among */
    TC_WORKDAY = 0,
    TC_WEEKEND = 1,
    TC_DAY_TYPES = 2
};

/*
 * A block holds the units of a month above the limit of the block before it
 * (0 for the first) up to and including its own limit. The last limit is
 * HUGE_VAL. Usually each unit pays the rate of the block it lies in. Where
 * `everything` is set and the month's last unit lies in this block, all units
 * of the month pay this block's rate. (Such a bill jumps at the limit, and
 * falls there if the rate does; a tank may then save money.)
 */
struct tc_tariff_block {
    double limit; /* units a month */
    double rate;  /* minor units of money per unit */
    bool everything;
};

/*
 * Whether units go beyond a limit. Units are sums of many hours, so a use of
 * exactly the limit may come out a hair above it: a billionth does not count.
 */
static inline bool tc_tariff_beyond(double units, double limit)
{
    return units > limit * (1 + 1e-9);
}

struct tc_tariff_season {
    int block_count; /* 0: no blocks */
    struct tc_tariff_block block[TC_TARIFF_BLOCKS];

    bool by_hour; /* whether the rates of hour[][] apply */
    double hour[TC_DAY_TYPES][TC_HOURS];

    /*
     * Minimum charge a month. With minimum_covers > 0 it pays for that many
     * first units, and the rates apply to the units beyond, each in the block
     * it lies in (not together with by_hour). With minimum_covers = 0 the
     * month's bill is never less than the minimum.
     */
    double minimum;
    double minimum_covers;
};

/* A tax of more than ten times the price is taken for a slip. */
#define TC_TARIFF_MOST_TAX 10.0

struct tc_tariff {
    double every_unit;               /* rate on all units */
    double tax;                      /* share added to all charges: 0.07 for 7 % */
    double workday_share[TC_MONTHS]; /* share of the month's days that are workdays */
    int season_count;                /* 1 to TC_TARIFF_SEASONS */
    int season_of_month[TC_MONTHS];  /* index into season[] */
    struct tc_tariff_season season[TC_TARIFF_SEASONS];
};

/*
 * A flat tariff of one season, without tax, five workdays in seven. Other
 * tariffs start from tc_tariff_flat(0) or from the rate all units pay.
 */
struct tc_tariff tc_tariff_flat(double rate);

/* Multiplies all rates and charges: from major to minor units of money, say. */
void tc_tariff_scale(struct tc_tariff *tariff, double factor);

/*
 * What is wrong with a tariff, as a lower-case English phrase, or NULL: limits
 * that do not ascend, a rate that is negative or NaN, and so on. All
 * other functions here ask for a tariff without fault.
 */
const char *tc_tariff_fault(const struct tc_tariff *tariff);

/*
 * A tariff with the household's own use worked in, made once and asked often
 * (some tens of nanoseconds a year for a tariff without hours, a few hundred
 * with them). Each season's blocks become straight pieces: up to `limit` units
 * a month, the charge is fixed + slope x units, tax included.
 */
enum { TC_TARIFF_PIECES = TC_TARIFF_BLOCKS + 1 };

struct tc_tariff_piece {
    double limit, fixed, slope;
};

struct tc_tariff_curve {
    int count;
    struct tc_tariff_piece piece[TC_TARIFF_PIECES];
    double least; /* the charge is never below this, hours included */
};

struct tc_tariff_margin {
    int season_of_month[TC_MONTHS];
    struct tc_tariff_curve curve[TC_TARIFF_SEASONS];
    bool by_hour[TC_MONTHS];
    double hour_rate[TC_MONTHS][TC_HOURS]; /* mean over workdays and weekends, with tax */
    double mean_rate[TC_MONTHS];           /* its mean over the day */
    double own_units[TC_MONTHS];           /* what the household uses without the tank, */
    double own_hours[TC_MONTHS];           /* what its hours cost, */
    double own_bill[TC_MONTHS];            /* and its bill */
};

/* own may be NULL: nothing else is on the bill. The tariff and own are not needed afterwards. */
void tc_tariff_margin(struct tc_tariff_margin *margin, const struct tc_tariff *tariff,
                      const struct tc_load *own);

/*
 * What a load adds to the year's bill, in minor units, unrounded: for studies
 * that ask many times. The second form takes a load spread evenly over the day
 * (a filter, a water change at no certain hour) by its units a month; it is
 * right for any load where the bill does not ask for the hour.
 */
bool tc_tariff_by_hour(const struct tc_tariff_margin *margin);
double tc_tariff_added(const struct tc_tariff_margin *margin, const struct tc_load *load);
double tc_tariff_added_even(const struct tc_tariff_margin *margin, const double units[TC_MONTHS]);

/*
 * Between which prices of a further unit a load stays, minor units, that uses no more than so many units a
 * month: what it adds changes by no less and no more than these for each unit. Without bounds where a bill
 * jumps on the way.
 */
void tc_tariff_slopes(const struct tc_tariff_margin *margin, double units, double *low, double *high);

/*
 * The same as money. Every month is rounded once and the year is the sum of
 * its months, so that a printed table adds up both ways; the year may thus
 * differ from the rounded exact_year by a few minor units.
 */
struct tc_tariff_cost {
    tc_money month[TC_MONTHS];
    tc_money year;
    double exact_month[TC_MONTHS];
    double exact_year;
};

/*
 * What the consumers of a tank (heater, light, filter ...) add together, and
 * each one's part of it: parts[i].month[m] over all i is total->month[m], to
 * the minor unit, and parts[i].year is the sum of its months. Within a month
 * each consumer bears what its own hours cost and, of what blocks and minimum
 * charges add, its share of the tank's units: none of them came first.
 * parts[i].exact_* are the parts before rounding. TC_RANGE where count is not 1
 * to TC_TARIFF_CONSUMERS or an amount is NaN, TC_OVERFLOW where one
 * leaves the range of money.
 */
enum tc_status tc_tariff_shared(const struct tc_tariff_margin *margin, const struct tc_load consumers[],
                                int count, struct tc_tariff_cost *total, struct tc_tariff_cost parts[]);

#endif
