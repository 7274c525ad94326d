/* SPDX-License-Identifier: MIT */
/*
 * study.h - a plan worked out: names resolved against the stock, parts chosen,
 * costs computed. Every sheet is made from a study.
 */
#ifndef TC_SHEET_STUDY_H
#define TC_SHEET_STUDY_H

#include <stdbool.h>

#include "core/money/exchange.h"
#include "core/cost/cost.h"
#include "core/cost/counter.h"
#include "core/cost/suit.h"
#include "core/base/date.h"
#include "core/base/unit.h"
#include "profile/fault.h"
#include "profile/plan.h"
#include "profile/stock.h"
#include "sheet/head.h"
#include "sheet/unnamed.h"

struct tc_way {
    enum tc_way_kind kind;
    const struct tc_sale *sale; /* TC_WAY_SALE: of the stock; else NULL */
};

/* One candidate: a column of every sheet. */
struct tc_layout;
struct tc_wall_study;

struct tc_alternative {
    const struct tc_candidate *plan; /* in study->plan */
    int index;                       /* in study->plan.candidate */
    char head[TC_HEAD_SIZE];         /* "29-high", "2 × 29-high", "29-high (planted-display)" */
    char how[TC_NAME_SIZE + 48];     /* how its price comes about: "list price", "sale lowmere-spring" */
    struct tc_way way;               /* as the plan says, where no price is typed */
    struct tc_deal_terms terms;      /* as its tanks are bought in the plan */
    bool measured; /* its heat losses are fitted to a meter; else c.loss_factor is its neighbours' or NAN */
    struct tc_case c;
    const struct tc_offer
        *offers; /* those of the study or its own, with those of each shop alone behind them; borrowed */
    struct tc_equipment equipment;
    struct tc_prices prices;
    struct tc_suit suit; /* whether it gives its animals what they need */
    struct tc_cost cost;
    const struct tc_layout *layout; /* the wall that it is, or NULL */
};

struct tc_sheet;
struct tc_derive;

/*
 * Owns its copies and arrays; borrows the stock, which must outlive it. Do not
 * copy or move a study: its parts point into it.
 */
struct tc_study {
    const struct tc_stock *stock;
    struct tc_plan plan;
    enum tc_unit_system units;
    struct tc_date today;
    struct tc_setup setup;                        /* the plan's, with its assumptions typed over */
    struct tc_setup own_setup[TC_CANDIDATES_MAX]; /* of the candidates that name one, by their index */
    struct tc_region region;                      /* likewise, with the terms of the shop */
    const struct tc_shop *shop; /* that is bought at, in the stock; NULL where the region has none */
    /* All sellers of the region, the one above first; at which of them is bought, study_market.h says. */
    const struct tc_shop *shops[TC_SHOPS_MAX];
    int shop_count;
    struct tc_shop own_shops[TC_SHOPS_MAX]; /* the same with what is typed over them */
    double shop_tax;                        /* what a shop's checkout adds */
    bool fetched[TC_SHOPS_MAX]; /* an order is picked up there, which is what its delivery then costs */
    tc_money order_fees[TC_SHOPS_MAX]; /* of a tank on special order */
    struct tc_market market;           /* of these; its count is 0 where all is bought at the first */
    bool several;                      /* everything may be bought at any of them */
    bool one;                  /* all of an alternative is bought at one of them, where it costs least */
    struct tc_tariffs tariffs; /* of the region */
    struct tc_tariff_margin electricity, water; /* minor units a kWh, a m3 */
    /* Another region's study whose plan says what an hour of upkeep is worth, and how that came into this
     * one's money; NULL: this one's plan says it. Borrowed. */
    const struct tc_study *hour_from;
    struct tc_conversion hour_taken;
    double energy_price; /* minor units a further joule: what parts are compared by */
    /* The parts as they are on offer: at all shops that are open; where one shop is looked for, behind these,
     * as many each, at the market's first shop alone, at its second and so on. */
    struct tc_offer *offers;
    int offer_count; /* of one of these */
    tc_money *asked; /* what the offers' shops ask */
    struct tc_own_offers {
        struct tc_offer *offers;
        tc_money *asked;
    } own_offers[TC_CANDIDATES_MAX];              /* of those that say at which shop a part is bought */
    struct tc_counter counters[TC_SHOPS_MAX + 1]; /* the offers likewise, made ready for the plan's setup */
    struct tc_counter own_counters[TC_CANDIDATES_MAX]; /* those at all shops, for the setups of candidates */
    struct tc_unnamed *unnamed[TC_CANDIDATES_MAX]; /* parts of candidates that have such, by their index */
    const struct tc_extra *extras[TC_EXTRAS_MAX];  /* that count, of the stock */
    int extra_count;
    struct tc_alternative *alternatives;
    int alternative_count;
    /* Where the alternatives are walls (wall_study.h): what they are of, and how one's figures came about. */
    const struct tc_wall_study *walls;
    struct tc_derive *(*derive)(struct tc_sheet *sheet, const struct tc_study *study,
                                const struct tc_alternative *alternative);
};

/* Frees what a study owns, made whole or in part (study_make.h). */
void tc_study_free(struct tc_study *study);

/*
 * The household's bills of a region without the tank, minor units, ready to be
 * asked what a tank adds. before, where not NULL, is what other tanks already
 * use: it comes on top of the household's own.
 */
void tc_study_margins(const struct tc_region *region, const struct tc_tariffs *tariffs,
                      const struct tc_running *before, struct tc_tariff_margin *electricity,
                      struct tc_tariff_margin *water);

/* The shop at which a line of an alternative's purchase (TC_BUY_TANK, TC_BUY_SLOTS + slot) is bought; the
 * study's own where it is bought nowhere, NULL where the region has none. */
const struct tc_shop *tc_study_shop_of(const struct tc_study *study, const struct tc_alternative *alternative,
                                       int line);

/* Whether an alternative takes the plan's setup, with what is typed over it, and not one of its own. */
bool tc_study_setup_shared(const struct tc_study *study, const struct tc_alternative *alternative);

/* The complete alternative with the lowest present value: of those that suit, if any does; -1 where none is
 * complete. */
int tc_study_cheapest(const struct tc_study *study);

#endif
