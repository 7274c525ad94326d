/* SPDX-License-Identifier: MIT */
/*
 * swap.h - a last look at the parts chosen: would another one lower the whole
 * bill?
 *
 * Parts are chosen slot by slot, by what each costs itself (equipment.h). What
 * its heat saves the heater, and whether its price makes delivery free, shows on
 * the bill alone. So slot by slot each other part that fits is tried in place of
 * one that the plan leaves open, once with all else as it is and once with what
 * follows from it (equipment.h) chosen anew, and the best is kept where it lowers
 * the present value of the bill; until no swap does. More pieces than before must
 * save more than TC_FIT_FEWER of what the part costs itself, as in fit.h.
 *
 * In a market that is done twice: first as if each thing were bought where it is
 * cheapest and delivery were free, then by the bill itself, which depends on all
 * things together, with the cheapest few of the other parts of each slot.
 *
 * What cannot lower the bill is not tried where the case has a counter (bound.h).
 */
#ifndef TC_CORE_SWAP_H
#define TC_CORE_SWAP_H

#include "core/cost/cost.h"

/* Improves the equipment chosen for a case at these prices, in place. TC_RANGE, TC_OVERFLOW as tc_cost_value.
 */
enum tc_status tc_swap_parts(const struct tc_case *c, const struct tc_prices *prices,
                             struct tc_equipment *equipment);

#endif
