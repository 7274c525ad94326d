/* SPDX-License-Identifier: MIT */
/*
 * basket.h - at which shop each thing of a list is bought: the cheapest spread
 * over several shops.
 *
 * All that is bought at one shop comes in one order. It costs the shop's
 * delivery, or nothing where the goods of the order are worth `free_from`;
 * fees count for nothing there. What is paid is the sum of
 *
 *     (price + fee) (1 + tax)   over the things, at the shop each is bought at, and
 *     delivery                  over the shops that something is bought at.
 *
 * This is an uncapacitated facility location problem in which a facility that
 * sells enough opens for nothing. It is solved exactly. Up to eight things are
 * given out shop after shop, each subset of them once (dynamic programming, as
 * Held and Karp, 1962, do it for routes). Of more, shops are decided first (not used, used, used and brought
 * for nothing), each with a bound from the least prices still possible; then things, where an order must be
 * made large enough, with the bound of a fractional knapsack cover.
 *
 * Amounts are minor units of one currency.
 */
#ifndef TC_CORE_COST_BASKET_H
#define TC_CORE_COST_BASKET_H

#include <stdbool.h>

#include "core/base/status.h"
#include "core/goods/market.h"
#include "core/money/money.h"

enum { TC_BASKET_ITEMS_MAX = 128 };

struct tc_basket_item {
    tc_money price[TC_SHOPS_MAX]; /* 0 or more, or TC_NOT_SOLD */
    tc_money fee[TC_SHOPS_MAX];   /* 0 or more, beside the price: of a special order */
};

struct tc_basket {
    struct tc_shop_terms shop[TC_SHOPS_MAX];
    int shop_count;
    struct tc_basket_item item[TC_BASKET_ITEMS_MAX];
    int item_count;
};

struct tc_basket_answer {
    int shop[TC_BASKET_ITEMS_MAX]; /* of each item; -1: no shop sells it */
    tc_money goods[TC_SHOPS_MAX];  /* worth of each order, without fees */
    bool used[TC_SHOPS_MAX];       /* something is bought there */
    bool delivered[TC_SHOPS_MAX];  /* and delivery is paid */
    int unsold;                    /* items that no shop sells, left out of what is paid */
    double paid;                   /* not rounded */
    bool proven;                   /* false: the search gave up; a good answer, perhaps not the best */
};

/*
 * Finds the cheapest spread; of equally cheap ones always the same. TC_RANGE
 * where a count or an amount is out of range.
 */
enum tc_status tc_basket_spread(const struct tc_basket *basket, struct tc_basket_answer *answer);

/* Works out what is paid where answer->shop says for each item where it is bought; fills in the rest. */
void tc_basket_add_up(const struct tc_basket *basket, struct tc_basket_answer *answer);

#endif
