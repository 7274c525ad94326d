/* SPDX-License-Identifier: MIT */
/*
 * bound.h - what other parts could save at most: which of many need not be worked out.
 *
 * What parts cost, use and weigh is known at once; a year of heat takes much longer. But what it could spare
 * at most is known as well (spared.h). So the least that a bill changes by with other parts can be told
 * without that year. Where even that is no gain, they are not looked at. A choice made with bounds is the
 * same as one without (tests/core/test_counter.c).
 *
 * A bound asks for a case with a counter (counter.h).
 */
#ifndef TC_CORE_COST_BOUND_H
#define TC_CORE_COST_BOUND_H

#include "core/cost/cost.h"
#include "core/cost/spared.h"

/* Parts to start from. Borrows case and equipment, which must stay as they are. */
struct tc_bound {
    const struct tc_case *c; /* NULL: there is no bound, and any change may be a gain */
    const struct tc_equipment *first;
    bool billed; /* by the whole bill; else as parts are compared with each other */
    struct tc_spared spared;
    /* Minor units over the study period. */
    double price;     /* of a J a year more, as parts are compared with each other */
    double low, high; /* the least that one more costs, the most that one less saves */
    double water;     /* the most that a m3 a year less saves, */
    double fresh;     /* and of changes beside: conditioner, the household's warm water */
    double hour;      /* of an hour of upkeep a year */
    double goods;     /* what counts for free delivery */
    double spread; /* in a market what is paid more than everything where it is cheapest, delivery and all */
    double rounding;
    double heater; /* the least that a heater costs that is as strong as the first */
    double air;    /* and pumps for a m3/s of air */
};

/* By what parts and heat cost as parts are compared. `year` is that of the first. */
void tc_bound_parts(struct tc_bound *bound, const struct tc_case *c, const struct tc_equipment *first,
                    const struct tc_heat_year *year);

/* By the whole bill at these prices. */
void tc_bound_bill(struct tc_bound *bound, const struct tc_case *c, const struct tc_equipment *first,
                   const struct tc_prices *prices);

/* The least that what counts changes by with other parts, all chosen; -INFINITY where that is not known. */
double tc_bound_change(const struct tc_bound *bound, const struct tc_equipment *other);

/* The same with another part in a slot, before what follows from it is chosen. */
double tc_bound_change_of(const struct tc_bound *bound, enum tc_slot slot, const struct tc_verdict *verdict);

/*
 * What is spent on a slot and all that another part there could save: the bill changes by no less than what
 * pieces of another part cost (each of one times their number in one tank) beyond that. Where parts come the
 * cheapest first, the rest need not be looked at.
 */
struct tc_reserve {
    double share; /* of what they cost, and in how many tanks */
    double most;  /* minor units; INFINITY: not known */
};
struct tc_reserve tc_bound_reserve(const struct tc_bound *bound, enum tc_slot slot);
double tc_bound_change_from(const struct tc_reserve *reserve, double pieces);

#endif
