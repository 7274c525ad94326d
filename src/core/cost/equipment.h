/* SPDX-License-Identifier: MIT */
/*
 * equipment.h - one tank with the parts chosen for it: the candidate whose cost
 * everything else is about.
 *
 * A case says what is asked: which tank, setup and region, what is on offer, and
 * what the plan pins. tc_equipment_choose (choose.h) answers with the parts, slot by slot. A
 * slot for which nothing fits stays in the equipment, marked as missing: a bill
 * must say so and never leave it out.
 */
#ifndef TC_CORE_COST_EQUIPMENT_H
#define TC_CORE_COST_EQUIPMENT_H

#include <stdbool.h>

#include "core/cost/counter.h"
#include "core/cost/fit.h"
#include "core/cost/upkeep_time.h"
#include "core/physics/heat.h"
#include "core/goods/extra.h"
#include "core/goods/market.h"
#include "core/goods/setup.h"
#include "core/goods/region.h"
#include "core/goods/tank.h"

/*
 * Share of a lamp's photons that fall on the water of the tank it hangs over,
 * and the height at which it hangs above the rim (common practice, no source).
 */
#define TC_LIGHT_CAPTURE 0.80
#define TC_LIGHT_HANGS   0.05

/* What a plan says of one slot. */
struct tc_slot_wish {
    const char *part; /* NULL: the cheapest that fits; "": nothing is bought; else the name of the part */
    int count;        /* so many for each tank; 0: as many as it takes */
    double price;     /* typed, of one, minor units; NAN: as offered */
    double next;      /* of a later one, minor units; NAN: as much as this one, see cost.h */
    double life;      /* bought used: years the first one lasts; NAN: new */
    double resale;    /* share of a new one's price that it fetches; NAN: as in its record */
    int at;           /* in a market the shop it is bought at, counted from 1; 0: any */
};

/* A year of heat worked out before. */
struct tc_known_heat {
    struct tc_heat_case c;
    struct tc_heat_year year;
};

/* Years of heat worked out before, the last ones: of one tank, and for one thread. Starts with a count of 0.
 */
enum { TC_HEAT_MEMORY = 6 };
struct tc_heat_memory {
    struct tc_heat_case c[TC_HEAT_MEMORY];
    struct tc_heat_year year[TC_HEAT_MEMORY];
    int count; /* of all that were ever taken in */
};

struct tc_case {
    struct tc_tank tank;
    const struct tc_setup *setup;
    const struct tc_region *region;
    const struct tc_market *market; /* the shops it is bought at; NULL: one, whose terms are the region's */
    bool at_one; /* in a market: what is not pinned to a shop is on offer at one of them alone */
    bool apart;  /* in a market: each thing counts by itself, where it is cheapest, and delivery does not */
    const struct tc_offer *offers;
    int offer_count;
    struct tc_slot_wish wish[TC_SLOT_COUNT];
    int quantity;                     /* equal tanks, 1 or more: they may share an air pump */
    int years;                        /* study period, 1..TC_YEARS_MAX */
    double discount;                  /* real, a year */
    double energy_price;              /* what a further joule costs, minor units: to compare parts by */
    double hour_worth;                /* what an hour of upkeep counts, minor units; 0: nothing */
    double loss_factor;               /* heat losses measured over computed; NAN: as the setup has it */
    struct tc_due due[TC_EXTRAS_MAX]; /* the extras that count; those without an amount do not */
    int due_count;
    bool room_heat;                   /* what the room's heating and cooling save and cost counts */
    const struct tc_counter *counter; /* offers made ready for its tank (counter.h); NULL: all, as they are */
    const struct tc_known_heat *known; /* its year is taken where the heat case is the same; or NULL */
    struct tc_heat_memory *memory; /* where a heat case was worked out before, its year is taken; or NULL */
};

/* What a slot was filled with. */
struct tc_filled {
    struct tc_demand demand; /* as the slot was filled; wanted: the setup or the plan asks for something */
    const struct tc_offer *offer; /* NULL: nothing; borrowed from the case */
    int count;
    bool shared;      /* count is for all tanks of the case, not for each */
    int rows;         /* of lights */
    bool pinned;      /* the plan named it */
    bool missing;     /* wanted, but nothing fits (or the pinned part is not on offer) */
    bool ill_fitting; /* pinned against a rule: see reason */
    struct tc_reason reason;
    double each;          /* present value of one piece */
    double present_value; /* of the pieces of one tank (shared: of all), by which choose.h compares parts */
};

struct tc_equipment {
    struct tc_tank_size size;
    struct tc_filled slot[TC_SLOT_COUNT];
};

/* Whether what fills a slot depends on the part in another. */
bool tc_equipment_follows(enum tc_slot slot, enum tc_slot from);

/* The offers of an equipment, but for those that depend on the part in a slot. */
void tc_equipment_keep(const struct tc_equipment *equipment, enum tc_slot slot,
                       struct tc_ready_offer kept[TC_SLOT_COUNT]);

/*
 * The equipment with these offers in their slots and, where one is NULL, the part that is chosen for it
 * alone: no lid or filter is tried for what follows from it. A slot that asks for nothing stays empty.
 */
enum tc_status tc_equipment_fill(const struct tc_case *c, const struct tc_ready_offer only[TC_SLOT_COUNT],
                                 struct tc_equipment *equipment);

/*
 * The verdict on one offer of its slot for a finished equipment: for an answer to
 * "why this one" that walks all of them.
 */
struct tc_verdict tc_equipment_judge(const struct tc_case *c, const struct tc_equipment *equipment,
                                     const struct tc_offer *offer);

/* How many of the offers for a slot fit; how many there are in all, in *offered. */
int tc_equipment_choices(const struct tc_case *c, const struct tc_equipment *equipment, enum tc_slot slot,
                         int *offered);

/* A rule of thumb that is missed by no more than this share is missed by little. */
#define TC_NEAR_MISS 0.05

/*
 * The part that would fill a slot for less if the flow, light or heat that its
 * rule asks for were TC_NEAR_MISS less: its verdict by that, with the count.
 * False where there is none, and for slots whose rule is no rule of thumb.
 */
bool tc_equipment_near_miss(const struct tc_case *c, const struct tc_equipment *equipment, enum tc_slot slot,
                            struct tc_verdict *near);

/* Pieces of a slot in all tanks of the case; of bags, what one tank leaves goes into the next. */
int tc_equipment_pieces(const struct tc_case *c, const struct tc_equipment *equipment, enum tc_slot slot);

/* The offers of a slot one by one: those of the case's counter, else all; false for one of another slot. */
int tc_equipment_offers(const struct tc_case *c, enum tc_slot slot);
bool tc_equipment_offer(const struct tc_case *c, enum tc_slot slot, int i, struct tc_ready_offer *at);

/* Heat in the water of one tank, W, from what runs day and night, and from the lights while they are on; the
 * share of it that is covered. */
double tc_equipment_gain(const struct tc_equipment *equipment);
double tc_equipment_light_gain(const struct tc_equipment *equipment);
double tc_equipment_covered(const struct tc_equipment *equipment);

/* Activity of the water's surface (vapour.h): the setup's, or that of the filter chosen. */
double tc_equipment_activity(const struct tc_case *c, const struct tc_equipment *equipment);

/* J/K of one tank with all that is warmed in it. */
double tc_equipment_capacity(const struct tc_equipment *equipment);

/* W, mean of the day, that the parts of one tank give to the room beside its water. */
double tc_equipment_beside(const struct tc_case *c, const struct tc_equipment *equipment);

/* Hours a year of upkeep, of all tanks of the case. */
struct tc_upkeep_time tc_equipment_upkeep(const struct tc_case *c, const struct tc_equipment *equipment);

/* Water changed a day in one tank, m3. */
double tc_equipment_changed(const struct tc_case *c, const struct tc_equipment *equipment);

/* Flow that the filters of one tank have to have, m3/s. */
double tc_equipment_flow(const struct tc_case *c, const struct tc_equipment *equipment);

/*
 * The tank with its parts as its heat sees it, heater included. Fresh water is part of it where it
 * comes as cold as the tap (running.h).
 */
struct tc_heat_case tc_equipment_heat(const struct tc_case *c, const struct tc_equipment *equipment);

/* Whether two cases are the same to the bit. */
bool tc_equipment_same_heat(const struct tc_heat_case *a, const struct tc_heat_case *b);

/*
 * The year of that heat: the one remembered, where nothing that it depends on has changed, else worked out
 * in *room, or in the memory of the case. Good until as many more are asked for as the memory holds.
 * TC_RANGE as tc_heat_year.
 */
enum tc_status tc_equipment_heat_year(const struct tc_case *c, const struct tc_equipment *equipment,
                                      struct tc_heat_year *room, const struct tc_heat_year **year);

/* The tank with what lies on its bottom so far: the size in the equipment. TC_RANGE as tc_tank_measure. */
enum tc_status tc_equipment_measure(const struct tc_case *c, struct tc_equipment *equipment);

/* What offers of a slot are judged by; size and demand are the equipment's, which is borrowed. */
struct tc_fit_case tc_equipment_fit_case(const struct tc_case *c, const struct tc_equipment *equipment,
                                         enum tc_slot slot);

/* Light at the substrate, umol/(m2 s), that the lights of the equipment give; 0 without. */
double tc_equipment_ppfd(const struct tc_case *c, const struct tc_equipment *equipment);

#endif
