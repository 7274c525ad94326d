/* SPDX-License-Identifier: MIT */
/*
 * region_cost.h - what the candidates of a study cost in one region.
 *
 * Another region is a study of its own, made from the same plan less what it
 * says of its own region (profile/plan_region.h). What an hour of upkeep is worth goes along, into the
 * money there: the keeper's time is not another's.
 */
#ifndef TC_SHEET_REGION_COST_H
#define TC_SHEET_REGION_COST_H

#include <stdbool.h>

#include "core/cost/cost.h"
#include "core/money/exchange.h"
#include "sheet/study.h"
#include "sheet/term.h"

/* The lines of a present value: those of the purchase, then those of the years from TC_LIFE_ENERGY on. */
enum { TC_REGION_COST_LINES = TC_BUY_COUNT + TC_LIFE_COUNT - TC_LIFE_ENERGY };

/* Their names: "tank", "stand", "delivery", "energy". */
const char *tc_region_cost_line_name(int line);

/* What is not known of a candidate's cost, as bits: the tank, then the slots. */
#define TC_LACKS_TANK       1u
#define TC_LACKS_SLOT(slot) (2u << (slot))

struct tc_region_line_cost {
    bool there;                  /* it could be worked out; else nothing below counts */
    bool suits;                  /* the animals of its setup, there */
    enum tc_need lacks;          /* where it does not: the first need that is not met */
    char head[TC_HEAD_SIZE];     /* "2 × 29-high" */
    char how[TC_NAME_SIZE + 48]; /* how it is bought */
    unsigned unpriced;           /* has no price in the region */
    unsigned unfilled;           /* nothing on offer there fits */
    tc_money to_buy, each_year, present_value;
    tc_money line[TC_REGION_COST_LINES]; /* of the present value, which is their sum */
};

/* How the figures of a region came about, in the memory of a sheet that asks for it; NULL where none does. */
struct tc_region_terms {
    const struct tc_term *electricity, *water, *room;
    const struct tc_term *to_buy[TC_CANDIDATES_MAX], *each_year[TC_CANDIDATES_MAX],
        *present_value[TC_CANDIDATES_MAX]; /* by candidate of the plan */
};

/* Amounts are in the region's currency. */
struct tc_region_cost {
    char name[TC_NAME_SIZE];
    struct tc_currency currency;
    bool own;                      /* the plan's own region: just as on the bill */
    bool is_template;              /* its tariff is a public average */
    char trouble[TC_PROBLEM_SIZE]; /* what could not be worked out, and why; else "" */
    double sales_tax;
    bool tax_included;
    double room;        /* mean of the year, K */
    double electricity; /* what a further kWh costs, major units, taxes included */
    double water;       /* a further m3 */
    struct tc_region_line_cost cost[TC_CANDIDATES_MAX]; /* by candidate of the plan */
    struct tc_region_terms terms;
    int best; /* of the candidates that suit and have no gap, the one with the lowest present value, or -1 */
};

/* Whether all of the cost is known, and whether its yearly part is. */
bool tc_region_cost_complete(const struct tc_region_line_cost *cost);
bool tc_region_cost_years_known(const struct tc_region_line_cost *cost);

/* What all region profiles of the stock quote, one of each, to be freed; NULL where memory ran out. */
struct tc_quote *tc_region_quotes(const struct tc_stock *stock);

/*
 * Works the study's plan out in a region of its stock. What is wrong with the
 * region or a candidate goes into `trouble`; the status is TC_OK then, else
 * TC_NO_MEMORY. The sheet takes the terms, where it is to be explained; NULL:
 * there are none.
 */
enum tc_status tc_region_cost_make(struct tc_region_cost *local, const struct tc_study *study,
                                   const struct tc_region *region, struct tc_sheet *sheet);

#endif
