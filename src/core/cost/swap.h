/* SPDX-License-Identifier: MIT */
/*
 * swap.h - a last look at the parts chosen: would another one lower the whole
 * bill?
 *
 * Parts are chosen slot by slot, by what each costs itself (equipment.h). What
 * its heat saves the heater, and whether its price makes delivery free, shows on
 * the bill alone. So each part that the plan leaves open is swapped for each
 * other that fits, with the heater, air pump, stand and, under a lid, light that
 * follow from it, and kept where the present value of the bill is lower; until no
 * swap lowers it. More pieces than before must save more than TC_FIT_FEWER of
 * what the part costs itself, as in fit.h.
 *
 * A part that costs more itself than heater, its energy and delivery together
 * could save is not tried.
 */
#ifndef TC_CORE_SWAP_H
#define TC_CORE_SWAP_H

#include "core/cost/cost.h"

/* Improves the equipment chosen for a case at these prices, in place. TC_RANGE, TC_OVERFLOW as tc_cost_value.
 */
enum tc_status tc_swap_parts(const struct tc_case *c, const struct tc_prices *prices,
                             struct tc_equipment *equipment);

#endif
