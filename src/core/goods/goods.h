/* SPDX-License-Identifier: MIT */
/*
 * goods.h - what tanks and parts have in common: a name, prices, a life.
 *
 * Records are plain values without pointers: they can be copied, kept for
 * undo and varied in a study of doubts without anybody owning anything.
 * Amounts of money in records are in major units (45.10) as the profile gives
 * them; they become exact money, rounded once, where a bill is made (see
 * currency.h).
 */
#ifndef TC_CORE_GOODS_GOODS_H
#define TC_CORE_GOODS_GOODS_H

#include <stdbool.h>

#include "core/money/currency.h"
#include "core/base/name.h"

enum { TC_TITLE_SIZE = 96, TC_PRICES_MAX = 6 };

struct tc_price {
    struct tc_currency currency;
    double amount; /* major units */
};

/* Prices of one thing in several currencies, at most one of each. */
struct tc_price_list {
    struct tc_price price[TC_PRICES_MAX];
    int count;
};

struct tc_goods {
    char name[TC_NAME_SIZE];
    char title[TC_TITLE_SIZE];
    struct tc_price_list price;  /* to buy one */
    struct tc_price_list upkeep; /* supplies for one, a year: cartridges, air stones; may be empty */
    double life;                 /* service life, years, > 0 */
    bool invented;               /* its figures, as of a demonstration */
    double resale; /* share of a new one's price that one as good as new fetches second-hand, 0..1 */
};

/* The price in a currency, or NULL where the list has none. */
const struct tc_price *tc_price_in(const struct tc_price_list *list, struct tc_currency currency);

/*
 * What one costs there, major units: what the shop itself asks, or, where own
 * is NAN, the price in the currency. False where there is neither.
 */
bool tc_goods_price(const struct tc_goods *goods, double own, struct tc_currency currency, double *amount);

#endif
