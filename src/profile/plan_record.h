/* SPDX-License-Identifier: MIT */
/*
 * plan_record.h - what a plan holds. What is done with one is in plan.h.
 */
#ifndef TC_PROFILE_PLAN_RECORD_H
#define TC_PROFILE_PLAN_RECORD_H

#include <stdbool.h>
#include <stddef.h>

#include "core/cost/dominance.h"
#include "core/goods/extra.h"
#include "core/goods/goods.h"
#include "core/goods/setup.h"
#include "core/goods/part.h"
#include "core/goods/region.h"
#include "core/goods/shop.h"
#include "core/physics/room_loss.h"
#include "core/base/spread.h"
#include "core/base/unit.h"
#include "core/wall/wall_goal.h"
#include "profile/key_form.h"

enum {
    TC_CANDIDATES_MAX = 12,
    TC_PLAN_REGIONS_MAX = 24,
    TC_OVERRIDES_MAX = 64,
    TC_TYPED_RANGES_MAX = 32,
    TC_TYPED_SIZE = 160 /* a value kept as it was typed, with its end */
};

/* What may stand for a plan's shop: each thing is bought where it is cheapest, or all of an alternative at
 * the one shop where that costs least. */
#define TC_SEVERAL  "several"
#define TC_ONE_SHOP "one"

/* What a budget has to last for: buying, or owning over the period. */
enum tc_budget_for { TC_BUDGET_BUYING, TC_BUDGET_OWNING };

/* What a candidate says of one slot. */
struct tc_pin {
    char part[TC_NAME_SIZE]; /* "" : the cheapest that fits; "none": nothing is bought;
                                "unnamed": one of which only the price is known */
    int count;               /* so many for each tank; 0: as many as it takes */
    double price;            /* typed, major units; NAN: the profile's */
    double next;             /* what the next one costs, major units; NAN: as much as this one */
    double life;             /* bought used: years it will still last; NAN: new */
    double resale;           /* share of a new one's price that it fetches; NAN: the profile's */
    double power;            /* of an unnamed one (sheet/unnamed.h), W; NAN: what the slot needs */
    char shop[TC_NAME_SIZE]; /* that it is bought at; "": as the plan says */
};

struct tc_candidate {
    char tank[TC_NAME_SIZE];
    double length, width,
        height;      /* outer, typed by hand: a tank without a profile needs all; NAN: the profile's */
    double glass;    /* of its panes, typed by hand; NAN: the profile's, or the usual for its size */
    double nominal;  /* volume it is called by, likewise */
    int quantity;    /* 1 or more */
    double price;    /* of one, typed by hand, major units; NAN: by the plan's sale */
    double life;     /* bought used: years it will still last; NAN: new */
    double resale;   /* share of a new one's price that it fetches; NAN: the profile's */
    double measured; /* J that the heater of one used; NAN: not measured */
    double measured_days, measured_room, measured_humidity; /* d, K, 0..1 over that time */
    int wall_least, wall_most;                              /* wanted on the wall; 0: no bound */
    char setup[TC_NAME_SIZE]; /* its own, as its profile has it; "": the plan's, with what is typed over it */
    char sale[TC_NAME_SIZE];  /* this candidate's own choice of price: as plan.sale; "" : the plan's */
    char shop[TC_NAME_SIZE];  /* that its tanks are bought at; "": as the plan says */
    struct tc_pin pin[TC_SLOT_COUNT];
};

/* An assumption of the setup, the region or a shop, typed over. */
struct tc_override {
    char kind[8];            /* "setup", "region" or "shop" */
    char shop[TC_NAME_SIZE]; /* whose, of a shop's; else "" */
    char key[TC_NAME_SIZE];  /* as in the profile */
    char value[TC_TYPED_SIZE];
    struct tc_spread spread; /* of a figure, in base units; fixed where it is no range */
};

/* A figure of the plan itself that was typed as a range; the plan holds its middle. */
struct tc_typed_range {
    char path[2 * TC_NAME_SIZE]; /* "candidate 2/price" */
    char value[TC_TYPED_SIZE];
    size_t offset; /* of the double in struct tc_plan */
    struct tc_spread spread;
};

/* The room that a wall stands in. */
struct tc_room_plan {
    double loss;          /* W it loses for each K it is warmer; 0: others hold it; -1: estimate it */
    double length, width; /* m, inside; 0: not known */
    double height;        /* m */
    double outside;       /* m of its walls that lead outdoors */
    double windows;       /* m2 */
    enum tc_room_build build;
    bool roof;                /* right above it */
    double air_change;        /* volumes a second */
    double heater_price;      /* of what heats it, major units */
    double heater_life;       /* years */
    double heater_efficiency; /* heat for each kWh of electricity; 0: the region's price of its heat counts */
    double vapour_price;      /* to get a m3 of evaporated water out of its air, major units */
};

/* What keeps the tanks of a wall warm. */
enum tc_wall_heating { TC_HEAT_TANKS, TC_HEAT_ROOM };

/* The wall of a fish room and what bounds it. Lengths m, masses kg; NAN or 0 where a limit is not given. */
struct tc_wall_plan {
    double length; /* along the wall */
    double height; /* floor to the highest usable point */
    double depth;  /* from the wall into the room */
    /* Further stretches; 0: there is none, or it is as high and deep as the first. */
    double more_length[3], more_height[3], more_depth[3];
    double gap;         /* between neighbouring tanks */
    double post;        /* width of an upright of the rack */
    double bay;         /* longest bay between two posts; 0: no posts */
    double lowest;      /* floor to the underside of the lowest tier */
    double access;      /* free height above each tank */
    double reach;       /* an arm's, from the front; bounds end-on tanks */
    double shelf;       /* thickness of a shelf */
    double rack_price;  /* of a bay and tier, major units */
    double timer_price; /* of one timer for all lights, major units */
    struct tc_room_plan room;
    enum tc_wall_heating heating;
    double rack_load;                     /* rated load of a bay and tier, kg */
    double bay_load;                      /* rated load of a bay, kg */
    double floor_load;                    /* allowed, Pa */
    double circuit_current;               /* rating of the breaker, A */
    double circuit_voltage;               /* V */
    double circuit_used;                  /* other load on it, W */
    double more_current[3], more_used[3]; /* of further circuits, A and W; 0: there is none */
    char pump[TC_NAME_SIZE];              /* the shared air pump; "": the cheapest that gives enough */
    double budget;                        /* major units; 0: none */
    enum tc_budget_for budget_for;
    double monthly; /* what may be spent each month, major units; 0: all may be bought at once */
    int months;     /* in which all is to be bought then */
    enum tc_wall_objective objective;
    int wanted; /* tanks wanted in all, for TC_WALL_LEAST_COST */
    bool fixed; /* exactly as many of each as the candidates say, instead */
};

/* Where one tank is to stand, and what it may cost. Lengths m, kg; 0 where there is no limit. */
struct tc_space {
    double length, width; /* of the place; width is front to back */
    double height;        /* from the floor up, stand, tank and access above it included */
    double access;        /* free height above the tank that hands need */
    double weight;        /* of the filled tank */
    double reach;         /* an arm's, from the rim to the substrate */
    double budget;        /* major units */
    enum tc_budget_for budget_for;
};

struct tc_plan {
    char name[TC_NAME_SIZE];
    char title[TC_TITLE_SIZE];
    char setup[TC_NAME_SIZE];
    char region[TC_NAME_SIZE];
    char regions[TC_PLAN_REGIONS_MAX][TC_NAME_SIZE]; /* compared by `places`; none: all of the stock */
    int region_count;
    char shop[TC_NAME_SIZE]; /* the one shop that is bought at; "": the first of the region; TC_SEVERAL */
    bool pick_up;            /* orders are fetched where that costs less than delivery */
    char sale[TC_NAME_SIZE]; /* how tanks are bought: "list", "best", "order" (special order) or a sale */
    double years;            /* study period, whole years */
    double discount;         /* real rate, share a year */
    char extras[TC_EXTRAS_MAX][TC_NAME_SIZE]; /* that count, where not all of the stock do */
    int extra_count;                          /* of them; -1: all of the stock */
    bool count_room_heat; /* what the tanks do to the room's heating and cooling is on the bill */
    double hour_worth;    /* what an hour of upkeep counts, major units; 0: nothing */
    double waiting_cost;  /* what a month of waiting costs the user, major units */
    enum tc_goal goal;
    enum tc_unit_system units;
    struct tc_candidate candidate[TC_CANDIDATES_MAX];
    int candidate_count;
    struct tc_override override[TC_OVERRIDES_MAX];
    int override_count; /* in the order of the keys' tables, those of the setup first, then region and shops
                         */
    struct tc_typed_range range[TC_TYPED_RANGES_MAX];
    int range_count; /* in the order of the plan */
    struct tc_wall_plan wall;
    struct tc_space space;
};

#endif
