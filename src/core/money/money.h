/* SPDX-License-Identifier: MIT */
/*
 * money.h - exact amounts of money.
 *
 * A tc_money is a whole number of minor units (cents, pence, yen) of a
 * currency the caller knows (see currency.h). An amount that comes from a
 * computation is rounded once, half away from zero as tills and utility bills
 * do, when it comes into being (tc_money_round); from then on it is only
 * added, subtracted and multiplied by whole numbers, which is exact. So every
 * printed column adds up to its printed total.
 *
 * Amounts are kept within +-TC_MONEY_MAX; leaving that range is an error, never
 * a wrap. The status argument is sticky: a failing operation stores
 * TC_OVERFLOW (or TC_RANGE for a figure that is NaN) in *status and
 * returns 0; a succeeding one leaves *status alone. A sum of many amounts is
 * thus checked once, at its end. Set *status to TC_OK before the first call.
 */
#ifndef TC_CORE_MONEY_MONEY_H
#define TC_CORE_MONEY_MONEY_H

#include <stdint.h>

#include "core/base/status.h"

typedef int64_t tc_money;

/* 9e15 minor units: every amount up to here is exact in a double as well. */
#define TC_MONEY_MAX INT64_C(9000000000000000)

/* a + b, a - b, a * n. */
tc_money tc_money_add(tc_money a, tc_money b, enum tc_status *status);
tc_money tc_money_subtract(tc_money a, tc_money b, enum tc_status *status);
tc_money tc_money_times(tc_money a, int64_t n, enum tc_status *status);

/* Sum of count amounts. */
tc_money tc_money_sum(const tc_money *amounts, int count, enum tc_status *status);

/*
 * Rounds an amount given in minor units to the nearest whole one, halves away
 * from zero. A fraction within 1e-6 of a half counts as a half, so that a
 * product such as 550 x 4.75 that is a half in decimals, but not quite one in
 * binary, rounds as it does by hand.
 */
tc_money tc_money_round(double minor_units, enum tc_status *status);

/* amount * share rounded as above; share is a plain fraction (0.07 for 7 %). */
tc_money tc_money_share(tc_money amount, double share, enum tc_status *status);

#endif
