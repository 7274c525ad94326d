/* SPDX-License-Identifier: MIT */
/*
 * shared_cost.h - what a room of tanks costs: several candidates taken together, and
 * what they share (a rack, an air pump, lights over a tier, a timer).
 *
 * A cost of a room is a tc_cost like any other: the same lines, each the sum
 * of the candidates' lines, so that it can be added up by hand as well.
 */
#ifndef TC_CORE_COST_SHARED_COST_H
#define TC_CORE_COST_SHARED_COST_H

#include "core/cost/cost.h"

enum { TC_SHARED_MAX = 32 };

/* A thing that the tanks of a room share. */
struct tc_shared {
    int line;                   /* TC_BUY_TANK ...: the line of the purchase it belongs to */
    tc_money price;             /* of all of it, before a tax the till adds */
    tc_money upkeep;            /* a year */
    double life;                /* years; INFINITY: for ever */
    double resale;              /* share, as tc_goods.resale */
    enum tc_consumer consumer;  /* of its electricity, if it has power */
    double power;               /* W */
    double start, hours;        /* when it runs, hours of the day */
    const struct tc_load *load; /* kWh of the consumer that follow no clock, beside that; or NULL; borrowed */
    double heat_cost;           /* minor units a year for heat of the room that is not electricity */
};

/*
 * The cost of shared things alone, in the region, over the years and at the
 * discount rate of a case. margin is the household's bill with the tanks'
 * own use already on it. deliveries: what the one order of the room costs to
 * bring. TC_RANGE (more than TC_SHARED_MAX things, say), TC_OVERFLOW: the cost
 * is then unspecified.
 */
enum tc_status tc_shared_cost(const struct tc_case *c, const struct tc_tariff_margin *margin,
                              const struct tc_shared *things, int count, tc_money delivery,
                              struct tc_cost *cost);

/*
 * Adds `other` to `sum`, which starts zeroed: all lines, totals, flows, energy
 * and water by month; sum->yearly is worked out again. Both must have the same
 * period and discount rate. The heat of a single tank (running.heat) is not
 * added: it has no meaning for several. TC_OVERFLOW.
 */
enum tc_status tc_cost_add(struct tc_cost *sum, const struct tc_cost *other);

#endif
