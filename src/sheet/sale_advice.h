/* SPDX-License-Identifier: MIT */
/*
 * sale_advice.h - what a knowledgeable friend would say of prices and sales: wait or buy, where, and up to
 * which price.
 */
#ifndef TC_SHEET_SALE_ADVICE_H
#define TC_SHEET_SALE_ADVICE_H

#include "sheet/advice.h"
#include "sheet/scenario.h"

/* What can be had today: the best way to buy each alternative, and the best of all that suit. */
struct tc_sale_today {
    int best; /* the alternative that ranks first by the plan's goal; -1: nothing can be had */
    bool known[TC_CANDIDATES_MAX];
    tc_money own[TC_CANDIDATES_MAX];               /* present value of each alternative, where known */
    tc_money to_buy[TC_CANDIDATES_MAX];            /* what it takes to buy it so */
    tc_money each[TC_CANDIDATES_MAX];              /* the price of one tank in that way */
    const struct tc_sale *sale[TC_CANDIDATES_MAX]; /* it is had in; NULL: in none */
};

/* Takes an outcome of today for an alternative, where it is the cheapest so far. */
void tc_sale_today_take(struct tc_sale_today *today, const struct tc_advice *advice, int alternative,
                        const struct tc_outcome *outcome);

/*
 * The most that an alternative of a scenario may cost before the best of the others gives more of the plan's
 * goal for its cost; rival: that other one, or -1 where there is none, and then nothing is worked out.
 */
enum tc_status tc_sale_goal_walkaway(const struct tc_advice *advice, const struct tc_scenario *scenario,
                                     int index, int *rival, struct tc_walkaway *walkaway);

/*
 * Adds the findings, the most useful first: wait or buy, and where; who is left out; up to which price by
 * the plan's own way of buying. wait: of each alternative. TC_OVERFLOW, TC_NO_MEMORY, TC_RANGE.
 */
enum tc_status tc_sale_advise(struct tc_sheet *sheet, const struct tc_advice *advice,
                              const struct tc_sale_today *today, const struct tc_wait wait[],
                              const struct tc_scenario *planned);

#endif
