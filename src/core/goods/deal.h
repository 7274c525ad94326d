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

#include "core/money/money.h"
#include "core/goods/sale.h"

enum tc_deal_kind { TC_DEAL_LIST, TC_DEAL_SALE, TC_DEAL_ORDER, TC_DEAL_TYPED };

struct tc_deal {
    enum tc_deal_kind kind;
    bool known;    /* false: the region has no price for the tank */
    bool listed;   /* the region has a list price */
    int quantity;  /* tanks, 1 or more */
    tc_money each; /* of each of the first */
    int first;     /* how many cost `each`: quantity, unless a sale limits it */
    tc_money list; /* of each of the rest, and of every later replacement; `each` if not listed */
    tc_money fee;  /* special order, for all of them */
    const struct tc_sale *sale; /* TC_DEAL_SALE: borrowed; else NULL */
};

/*
 * Each fills *deal and returns TC_OK; TC_OVERFLOW where an amount leaves the
 * range of money, TC_RANGE where a sale's figure is no number. listed says
 * whether there is a list price, and list is that price.
 */
enum tc_status tc_deal_at_list(struct tc_deal *deal, int quantity, bool listed, tc_money list);
enum tc_status tc_deal_on_order(struct tc_deal *deal, int quantity, bool listed, tc_money list,
                                tc_money fee_each);
/* A price typed by hand beats all; without a list price, replacements are taken to cost as much. */
enum tc_status tc_deal_typed(struct tc_deal *deal, int quantity, bool listed, tc_money list, tc_money each);
/* The sale must cover the tank. A share off needs a list price; without one the deal is not known. */
enum tc_status tc_deal_on_sale(struct tc_deal *deal, int quantity, bool listed, tc_money list,
                               const struct tc_sale *sale, const struct tc_tank *tank,
                               struct tc_currency currency);

/* What all tanks of the deal cost, without the fee; sticky status. */
tc_money tc_deal_sum(const struct tc_deal *deal, enum tc_status *status);

#endif
