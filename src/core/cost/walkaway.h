/* SPDX-License-Identifier: MIT */
/*
 * walkaway.h - the most that a tank may cost before another candidate is the
 * better buy.
 *
 * The walk-away price is the highest price of one tank, in whole minor units,
 * at which the present value of owning it is no more than a target: that of
 * the best other candidate. A minor unit more, and the other is cheaper. It is
 * found by bisection over the rounded bill itself, so it holds to the cent.
 *
 * The present value rises with the price, by 1 + tax for each unit: what the
 * tank brings at the end follows the price of a new one. But for one step down, where the goods are worth
 * enough to be delivered free; both sides of the step are searched, the costlier one first. In a market the
 * price is that of the deal's shop, and there is a step for each choice of parts that may be bought with the
 * tank.
 */
#ifndef TC_CORE_COST_WALKAWAY_H
#define TC_CORE_COST_WALKAWAY_H

#include "core/cost/cost.h"

enum tc_walkaway_kind {
    TC_WALKAWAY_PRICE,
    TC_WALKAWAY_NONE, /* no price is low enough: even as a gift it costs more to own */
    TC_WALKAWAY_ANY   /* worth any price up to TC_WALKAWAY_MOST */
};

/* Prices above this many minor units a tank are not looked at. */
#define TC_WALKAWAY_MOST INT64_C(100000000000)

struct tc_walkaway {
    enum tc_walkaway_kind kind;
    tc_money price; /* of one tank, before fee and a tax the till adds; TC_WALKAWAY_PRICE only */
};

/*
 * cost is the candidate's cost as computed, with which it starts; prices its
 * deal. All tanks of the candidate are taken at the price looked for, beside
 * which the deal's fee for a special order stays due. The price of a new one is
 * that of the deal; only where it has none is it the price looked for. The
 * discount rate must not be negative. TC_OVERFLOW where amounts leave the range
 * of money.
 */
enum tc_status tc_walkaway_find(const struct tc_case *c, const struct tc_equipment *equipment,
                                const struct tc_prices *prices, const struct tc_cost *cost, tc_money target,
                                struct tc_walkaway *walkaway);

#endif
