/* SPDX-License-Identifier: MIT */
/*
 * lifecycle.h - what money at different times is worth today.
 *
 * The method is that of NIST Handbook 135 (Fuller and Petersen, Life-Cycle
 * Costing Manual) and ASTM E917:
 *
 *     LCC = I + Repl - Res + E + W + OM&R      (all present values)
 *
 * over one study period for every alternative, in constant money with a real
 * discount rate. The purchase is at time 0; yearly amounts fall at the end of
 * each year. Rates are plain fractions per year (0.03 for 3 %).
 *
 * Amounts here are doubles in minor units of a currency and are not rounded:
 * the caller rounds each printed line once, with tc_money_round. A factor
 * asked for outside its domain is not-a-number, which tc_money_round refuses.
 * Nothing allocates, and nothing is kept between calls.
 */
#ifndef TC_CORE_COST_LIFECYCLE_H
#define TC_CORE_COST_LIFECYCLE_H

#include "core/base/status.h"

/* The longest study period, in years. */
#define TC_YEARS_MAX 100

/* The shortest life of anything that is replaced, in years: just under a week. */
#define TC_LIFE_MIN (1.0 / 53.0)

/*
 * Factors. d is the discount rate, e the escalation of a price, both above -1;
 * n is a time in years, 0 or later.
 */

/* Single present value, (1 + d)^-n: an amount paid once, n years from now. */
double tc_single_present_value(double d, double n);

/*
 * Uniform present value, (1 - (1 + d)^-n) / d, in the limit n where d is 0:
 * the same amount at the end of each of n years.
 */
double tc_uniform_present_value(double d, double n);

/*
 * Modified uniform present value, UPV*, the sum of ((1 + e) / (1 + d))^k for
 * k = 1..n: a yearly amount whose price rises by e a year, n where e equals d.
 * The amount is given at today's price; what is paid at the end of the first
 * year is already (1 + e) of it.
 */
double tc_escalated_present_value(double d, double e, double n);

/* Capital recovery, A/P = 1 / UPV, n above 0: a present value as equal yearly amounts. */
double tc_capital_recovery(double d, double n);

/*
 * Something bought, used up and bought again: a tank, a light, a heater.
 *
 * The first one lasts first_life years, each later one life years. So
 * replacements fall at first_life + k * life, k = 0, 1, ..., as long as that
 * is before the end of the study period: none is bought at its very end. Each
 * is discounted from that exact time, whole or not, and belongs to the year
 * it falls in: one at 2.5 years to year 3, one at 3 years to year 3.
 *
 * At the end, what is left is sold. Who buys second-hand looks at the price of
 * a new one, not at the receipt: it is worth new_price times the share of a new
 * one's life that remains (straight line, NIST Handbook 135, 2022, 4.5.3) times
 * resale_share. The handbook takes the share of the initial cost, which it takes
 * to be the market's.
 */
struct tc_item_life {
    double price;             /* paid at time 0, minor units, 0 or more */
    double replacement_price; /* paid each later time, minor units in today's money, 0 or more */
    double life;              /* years a new one lasts; INFINITY: for ever */
    double first_life;        /* years the first one lasts: life, or less for one bought used */
    double resale_share;      /* 0 to 1: of its remaining worth, what a buyer pays */
    double new_price;         /* what a new one costs when it is sold, minor units, without tax, 0 or more */
};

/* TC_RANGE where a figure is outside the bounds above or a life below TC_LIFE_MIN; else TC_OK. */
enum tc_status tc_item_check(const struct tc_item_life *item);

/*
 * How often the item is replaced within `years` (0 to TC_YEARS_MAX). 0 for an
 * item that tc_item_check refuses; the amounts below are then not-a-number.
 */
int tc_item_replacements(const struct tc_item_life *item, int years);

/* Years from the start to replacement k, counted from 0. */
double tc_item_replacement_time(const struct tc_item_life *item, int k);

/* The year, counted from 1, in which a time above 0 falls; its end still belongs to it. */
int tc_year_of(double time);

/* Present value of all replacements within `years`, minor units. */
double tc_item_replacements_value(const struct tc_item_life *item, double d, int years);

/* What the item is sold for after `years`, minor units of that day: times the SPV it is the present value. */
double tc_item_residual(const struct tc_item_life *item, int years);

/*
 * A flow: everything one alternative costs, year by year. Element 0 of the
 * arrays is the purchase, element y what falls in year y = 1..years; elements
 * beyond are 0. Capital and running costs are kept apart because the saving-
 * to-investment ratio needs them so (see invest.h), and the residual because
 * it comes only to whom sells.
 */
struct tc_amount {
    double paid;    /* as paid, in constant money, minor units */
    double present; /* discounted to time 0, minor units */
};

struct tc_flow {
    double rate; /* real discount rate */
    int years;
    struct tc_amount capital[TC_YEARS_MAX + 1]; /* purchases and replacements */
    struct tc_amount running[TC_YEARS_MAX + 1]; /* energy, water, upkeep */
    struct tc_amount residual;                  /* received at the end, a positive amount */
};

/* Empties the flow. TC_RANGE where years is not 1..TC_YEARS_MAX or the rate not a figure above -1. */
enum tc_status tc_flow_start(struct tc_flow *flow, double rate, int years);

/* Adds an item's price, replacements and residual. TC_RANGE, and nothing added, where tc_item_check refuses
 * it. */
enum tc_status tc_flow_add_item(struct tc_flow *flow, const struct tc_item_life *item);

/*
 * Adds a yearly running cost given at today's price, rising by escalation a
 * year: amount * (1 + escalation)^y at the end of year y. Negative amounts are
 * income. TC_RANGE, and nothing added, where a figure is not finite or the
 * escalation not above -1.
 */
enum tc_status tc_flow_add_yearly(struct tc_flow *flow, double amount, double escalation);

/*
 * Writes what has been paid up to the end of each year, capital and running
 * together, into total[0..years]. The residual is not yet taken off.
 */
void tc_flow_cumulate(const struct tc_flow *flow, struct tc_amount *total);

#endif
