/* SPDX-License-Identifier: MIT */
/*
 * exchange.h - money of one currency told in another.
 *
 * Rates are quoted here and there: a euro bought so many dollars on one day, a
 * yen so many on another. From such a handful of quotes a conversion is found
 * between any two currencies that they connect, through the currencies they
 * share and in either direction (the cross rate of a currency trader). A
 * quote is a price somebody once paid, not a promise: the spread between
 * buying and selling and a bank's fee are left out.
 */
#ifndef TC_CORE_MONEY_EXCHANGE_H
#define TC_CORE_MONEY_EXCHANGE_H

#include <stdbool.h>

#include "core/money/currency.h"
#include "core/base/date.h"
#include "core/money/money.h"

/* What one unit of a currency bought of another on a day. */
struct tc_quote {
    struct tc_currency from, to;
    double rate; /* major units of `to` for one major unit of `from`, > 0 */
    struct tc_date date;
};

/* Quotes of a conversion that are kept by their places; more steps are hardly worth a rate. */
enum { TC_CONVERSION_KEPT = 8 };

struct tc_conversion {
    struct tc_currency from, to;
    double rate;         /* major units of `to` for one of `from` */
    int steps;           /* quotes it goes through; 0 where the two are the same currency */
    struct tc_date date; /* of the oldest of these quotes; none where steps is 0 */
    struct {
        int quote;            /* its index */
        bool back;            /* divided by, since it is quoted the other way */
    } by[TC_CONVERSION_KEPT]; /* the first of the steps, in their order */
};

/*
 * Finds the conversion through the fewest quotes. Between the same two
 * currencies the latest quote counts, of equally late ones the first; of
 * several ways with as many steps the one whose oldest quote is the latest. A
 * quote whose rate is no figure above 0 is not looked at. TC_NO_RESULT where
 * the others do not connect the two.
 */
enum tc_status tc_conversion_find(struct tc_conversion *conversion, const struct tc_quote *quotes, int count,
                                  struct tc_currency from, struct tc_currency to);

/* An amount of `from` in `to`, rounded once (see money.h); sticky status. */
tc_money tc_conversion_money(const struct tc_conversion *conversion, tc_money amount, enum tc_status *status);

#endif
