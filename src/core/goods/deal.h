/* SPDX-License-Identifier: MIT */
/*
 * deal.h - what the tanks of one candidate cost at the till.
 *
 * A deal is how a number of equal tanks is bought: some at a first price (a
 * sale with a limit per customer), the rest at the list price, perhaps with a
 * fee for a special order, perhaps with parts thrown in. Amounts are money of
 * the region, before a tax the till adds.
 */
#ifndef TC_CORE_GOODS_DEAL_H
#define TC_CORE_GOODS_DEAL_H

#include <stdbool.h>

#include "core/goods/market.h"
#include "core/goods/sale.h"
#include "core/money/money.h"

enum tc_deal_kind { TC_DEAL_LIST, TC_DEAL_SALE, TC_DEAL_ORDER, TC_DEAL_TYPED };

/* The tanks of a deal as one shop of a market sells them. */
struct tc_deal_at {
    bool open;   /* they may be bought there */
    bool listed; /* it has them on its list */
    bool sold;   /* and they can be: */
    tc_money each, list, fee;
};

struct tc_deal {
    enum tc_deal_kind kind;
    bool known;     /* false: the region has no price for the tank */
    bool listed;    /* the region has a list price */
    int quantity;   /* tanks, 1 or more */
    tc_money each;  /* of each of the first */
    int first;      /* how many cost `each`: quantity, unless a sale limits it */
    tc_money list;  /* of each of the rest; `each` if not listed */
    tc_money later; /* of a new one: of every later replacement, and what one fetches follows it */
    tc_money fee;   /* special order, for all of them */
    const struct tc_sale *sale; /* TC_DEAL_SALE: borrowed; else NULL */
    int shops;                  /* 0: of the region's one shop; else of a market of so many: */
    int shop;                   /* the one whose prices stand above; the cheapest before anything is bought */
    struct tc_deal_at at[TC_SHOPS_MAX];
};

/* What the terms of a shop of a market are. */
struct tc_deal_shop {
    bool open;   /* the tanks may be bought there */
    bool once;   /* sells once (market.h) */
    bool listed; /* as in tc_deal_terms */
    tc_money list, order_fee;
};

/* All that a deal follows from. */
struct tc_deal_terms {
    int quantity; /* tanks, 1 or more */
    struct tc_currency currency;
    double nominal_volume;      /* of one, m3 */
    bool listed;                /* there is a list price */
    tc_money list;              /* of one; looked at only where listed */
    bool typed;                 /* a price was typed by hand */
    tc_money price;             /* of one; looked at only where typed */
    const struct tc_sale *sale; /* one that covers the tank, or NULL: no sale; borrowed */
    bool ordered;               /* not on the shelf, or ordered all the same */
    tc_money order_fee;         /* of the region, for each tank on special order */
    int shops;     /* 0: one shop, as above; else a market of so many, each with its list price and fee: */
    int sale_shop; /* the one whose sale it is */
    struct tc_deal_shop shop[TC_SHOPS_MAX];
};

/*
 * The one place where price, fee and limit of a purchase are worked out.
 *
 * A typed price beats all, for all of the tanks, and takes them out of any
 * sale; without a list price, replacements are taken to cost as much. A sale
 * with a limit is for the first tanks, the rest cost the list price. The fee
 * for a special order is due for every tank that is ordered and not bought in
 * the sale, whatever was agreed on for its price. A share off needs a list price, and so do tanks beyond a
 * limit; without one the deal is not known.
 *
 * In a market the tanks of a deal are bought at one shop, which is not decided
 * yet: a sale's only at its own, a price that was typed at any that has the tank
 * on its list, or else at any at all. A later one costs what the cheapest open
 * shop asks that does not sell just once.
 *
 * TC_OVERFLOW where an amount leaves the range of money, TC_RANGE where a
 * sale's figure is NaN.
 */
enum tc_status tc_deal_make(const struct tc_deal_terms *terms, struct tc_deal *deal);

/*
 * The deal with another price for every tank, its fee as it is and its price of
 * a new one too, if it has one: for the search of a price. In a market at the
 * shop in front alone, where one has a price. TC_OVERFLOW.
 */
enum tc_status tc_deal_at_price(struct tc_deal *deal, tc_money each);

/* What all tanks of the deal cost, without the fee; sticky status. */
tc_money tc_deal_sum(const struct tc_deal *deal, enum tc_status *status);

/* The same at a shop of its market; TC_NOT_SOLD where they are not to be had there. */
tc_money tc_deal_sum_at(const struct tc_deal *deal, int shop, enum tc_status *status);

/* Puts the prices of a shop of its market, which sells them, in front. */
void tc_deal_settle(struct tc_deal *deal, int shop);

/* The deal where its tanks may be bought at one shop of its market alone. */
void tc_deal_keep_to(struct tc_deal *deal, int shop);

#endif
