/* SPDX-License-Identifier: MIT */
/*
 * cost.h - the itemized cost of one candidate: to buy, each year, and over the
 * study period.
 *
 * The method is LCC = I + Repl - Res + E + W + OM&R of NIST Handbook 135, see
 * lifecycle.h. Every line is rounded once, to the minor unit, when it comes
 * into being; what follows is sums of lines. A yearly line is carried into the
 * period as the rounded yearly amount times its factor, so that without
 * escalation n years cost n times what the bill shows for one.
 *
 * Rules:
 *   - sales tax that the till adds is due on tank, parts and fee, not on
 *     delivery; it is rounded once for each shop, and is part of the price of
 *     every later replacement;
 *   - delivery is free where tanks and parts, without tax and fee, are worth
 *     enough;
 *   - at several shops (purchase.h) each thing is bought where all together cost
 *     least at first; a later one costs what the cheapest of them asks for it;
 *   - replacements of tanks are bought at list price; those of parts at what
 *     the plan says the next one costs, else at the price typed for the first
 *     one, unless that was bought used, else as offered;
 *   - the residual value is a share of what a new one costs, without tax: of the
 *     list price of each tank and part alone, whatever was paid and whether or
 *     not a bundle brought it along. Where there is no list price what was paid
 *     stands in its place: of a bundle, less what its parts cost alone; of
 *     something used, over the share of its life that was left;
 *   - where an hour of upkeep has a worth, the hours of a year count at it, with
 *     no tax, in the year and over the period: it decides which filter is chosen;
 *   - extras are paid as they are said, with no further tax: once at the start,
 *     or at the end of each year with an escalation of their own;
 *   - a slot that nothing fits, and a price that is not known of something that
 *     is bought now or later, leave the cost incomplete: the sums hold what is
 *     known and say that they lack something.
 */
#ifndef TC_CORE_COST_COST_H
#define TC_CORE_COST_COST_H

#include <stdbool.h>

#include "core/cost/equipment.h"
#include "core/cost/lifecycle.h"
#include "core/cost/purchase.h"
#include "core/cost/running.h"
#include "core/tariff/tariff.h"

/* Lines of a year: electricity by consumer first. */
enum {
    TC_RUN_ENERGY,                                         /* TC_RUN_ENERGY + consumer */
    TC_RUN_WARM_WATER = TC_RUN_ENERGY + TC_CONSUMER_COUNT, /* from the household's boiler */
    TC_RUN_ROOM_HEAT, /* what the room's heating saves, negative, and its cooling costs; where it counts */
    TC_RUN_CHANGES,
    TC_RUN_MAKE_UP,
    TC_RUN_CONDITIONER,
    TC_RUN_SUPPLIES,
    TC_RUN_UPKEEP, /* what the hours of upkeep are worth */
    TC_RUN_EXTRAS, /* paid yearly */
    TC_RUN_COUNT
};

/* What water is used for. */
enum { TC_WATER_CHANGES, TC_WATER_MAKE_UP, TC_WATER_COUNT };

/* Lines of the period. */
enum {
    TC_LIFE_PURCHASE,
    TC_LIFE_ENERGY, /* electricity, warm water and the room's heat */
    TC_LIFE_WATER,  /* changes, make-up, conditioner */
    TC_LIFE_SUPPLIES,
    TC_LIFE_UPKEEP,
    TC_LIFE_EXTRAS, /* the yearly ones */
    TC_LIFE_REPLACEMENTS,
    TC_LIFE_RESALE, /* negative */
    TC_LIFE_COUNT
};

struct tc_cost {
    bool incomplete;
    tc_money buy[TC_BUY_COUNT], to_buy;
    int shop[TC_BUY_FEE]; /* of tank and slots: at which shop each is bought (purchase.h) */
    tc_money run[TC_RUN_COUNT], each_year;
    tc_money extra[TC_EXTRAS_MAX];         /* of each of the case, in one of the two lines of extras */
    tc_money paid[TC_LIFE_COUNT], as_paid; /* over the period, in constant money */
    tc_money present[TC_LIFE_COUNT], present_value;  /* discounted */
    tc_money yearly;                                 /* present value as equal yearly amounts */
    struct tc_flow flow;                             /* year by year */
    struct tc_tariff_cost energy[TC_CONSUMER_COUNT]; /* by month */
    struct tc_tariff_cost energy_total;
    struct tc_tariff_cost water[TC_WATER_COUNT], water_total; /* likewise */
    struct tc_running running;
    struct tc_upkeep_time upkeep; /* whether its hours count or not */
};

/* TC_RANGE, TC_OVERFLOW: the cost is then unspecified. */
enum tc_status tc_cost_make(const struct tc_case *c, const struct tc_equipment *equipment,
                            const struct tc_prices *prices, struct tc_cost *cost);

/*
 * The same cost with another deal for the tanks, in place: what they use in a
 * year stays. Several times faster than tc_cost_make.
 */
enum tc_status tc_cost_reprice(const struct tc_case *c, const struct tc_equipment *equipment,
                               const struct tc_prices *prices, struct tc_cost *cost);

/*
 * The present value alone, in minor units, of yearly amounts that are not
 * rounded: for studies that ask many thousand times. It differs from
 * present_value by the rounding of the lines, those of a year times as many
 * years as they are worth. TC_RANGE, TC_OVERFLOW as above; unspecified then.
 */
enum tc_status tc_cost_value(const struct tc_case *c, const struct tc_equipment *equipment,
                             const struct tc_prices *prices, double *value);

/* What tanks and parts cost to buy, minor units, without fee, tax and delivery: delivery may be free from so
 * much on. */
double tc_cost_goods(const struct tc_case *c, const struct tc_equipment *equipment,
                     const struct tc_prices *prices);

/*
 * The period of a cost whose purchase (to_buy) and year (run, extra) are there: what is bought once is paid
 * for, the items are replaced and sold. For what is no tank and its equipment as well. TC_RANGE, TC_OVERFLOW.
 */
enum tc_status tc_cost_period(const struct tc_case *c, const struct tc_item_life items[], int count,
                              struct tc_cost *cost);

/*
 * What heat by month (kWh) that tanks give to their room saves in its heating and costs in its cooling,
 * minor units a year, 0 or more each but where tanks cool the room; 0 where the price is not known.
 */
double tc_cost_heating_saved(const struct tc_region *region, const double heat[TC_MONTHS]);
double tc_cost_cooling_added(const struct tc_region *region, const double heat[TC_MONTHS]);

/* Whether what fills a slot has no price though pieces of it are bought, now or later, beside a bundle's. */
bool tc_cost_slot_lacks_price(const struct tc_case *c, const struct tc_equipment *equipment,
                              const struct tc_prices *prices, enum tc_slot slot);

/* The lives of what fills a slot of the equipment, all pieces of all tanks, and of the tanks. */
struct tc_item_life tc_cost_slot_life(const struct tc_case *c, const struct tc_equipment *equipment,
                                      const struct tc_prices *prices, enum tc_slot slot);
struct tc_item_life tc_cost_tank_life(const struct tc_case *c, const struct tc_equipment *equipment,
                                      const struct tc_prices *prices);

#endif
