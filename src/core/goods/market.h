/* SPDX-License-Identifier: MIT */
/*
 * market.h - the shops of a region that one purchase may be spread over, and
 * what each takes beside its prices.
 *
 * Amounts are minor units of one currency. Prices by shop are arrays in the
 * order of the market's shops; TC_NOT_SOLD stands for what a shop does not sell.
 */
#ifndef TC_CORE_GOODS_MARKET_H
#define TC_CORE_GOODS_MARKET_H

#include <stdbool.h>

#include "core/money/money.h"

enum { TC_SHOPS_MAX = 16 };

/* The price of what a shop does not sell. */
#define TC_NOT_SOLD (-1)

struct tc_shop_terms {
    tc_money delivery;  /* of one order, or of fetching it; 0 or more */
    tc_money free_from; /* goods worth this are brought for nothing; 0: never */
    double tax;         /* share that the checkout adds to prices and fees */
    bool once;          /* sells once: a later one comes from another shop where one has it */
};

struct tc_market {
    struct tc_shop_terms shop[TC_SHOPS_MAX];
    int count;
};

#endif
