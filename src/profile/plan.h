/* SPDX-License-Identifier: MIT */
/*
 * plan.h - a saved comparison: which tanks, with which setup, in which region,
 * over how many years, and every figure the user has typed over.
 *
 * A plan holds names, not records: it is resolved against the stock when a
 * sheet is made. It is a plain value of fixed size, so that undo keeps copies
 * of it and nothing has an owner. Everything in it can be set by a path and a
 * text, the same on the command line, on the screen and in a plan's file:
 *
 *     plan/years              12 years
 *     plan/setup                shrimp-shelf
 *     candidate 2/price       45            (in the region's currency)
 *     candidate 2/setup       planted-display
 *     candidate 2/light       strip-90      (pins the part; "none", "any")
 *     candidate 2/light-shop  lowmere-web     (pins where it is bought)
 *     region/room             20 C          (an assumption typed over)
 *     setup/light-hours         9 h
 *     shop lowmere-shop/delivery   0
 *     wall/length             12 ft
 *     space/length            40 in
 */
#ifndef TC_PROFILE_PLAN_H
#define TC_PROFILE_PLAN_H

#include "profile/key.h"
#include "profile/plan_record.h"

/* A plan with every default and no candidates; setup and region are "". */
void tc_plan_start(struct tc_plan *plan);

/* An added candidate of a tank with every default; NULL where there are TC_CANDIDATES_MAX already. */
struct tc_candidate *tc_plan_add(struct tc_plan *plan, const char *tank);

/*
 * Adds a copy of candidate i, counted from 0, behind the others, with all that
 * was typed of it, ranges too. False, and nothing is changed, where there is no
 * room for it or its ranges.
 */
bool tc_plan_double(struct tc_plan *plan, int i);

/* How tanks are bought. */
enum tc_way_kind {
    TC_WAY_PLAN,  /* as the plan says, at a typed price where there is one */
    TC_WAY_LIST,  /* at the list price; a tank that is not on the shelf on special order */
    TC_WAY_ORDER, /* on special order, also what is on the shelf */
    TC_WAY_BEST,  /* cheapest to own of the list price and the sales that run today */
    TC_WAY_SALE   /* in that sale; what it does not cover at the list price */
};

/* The way of buying that a word of a plan's `sale` stands for: "list", "best", "order"; false for a sale's
 * name. */
bool tc_plan_way(const char *word, enum tc_way_kind *kind);

/* Whether a plan buys each thing where all together costs least. */
bool tc_plan_several(const struct tc_plan *plan);

/* Whether it looks for the one shop where all of an alternative costs least. */
bool tc_plan_one_shop(const struct tc_plan *plan);

/* The shop that it names; "" where it looks for shops, or takes the first of its region. */
const char *tc_plan_shop(const struct tc_plan *plan);

/* Copies a plan to the last byte, so that tc_plan_equal holds. */
void tc_plan_copy(struct tc_plan *to, const struct tc_plan *from);

/* Takes candidate i out, counted from 0. */
void tc_plan_remove(struct tc_plan *plan, int i);

/*
 * Sets one figure by path and text, as above. Text "" takes a typed figure,
 * pin or override back. On failure the plan is unchanged, false is returned and
 * problem says what is wrong and what would be right. Names are checked for
 * their form only: whether there is such a tank, setup or part is seen when the
 * plan is resolved. Amounts are written without a currency. Path and text may
 * not lie in the plan.
 */
bool tc_plan_set(struct tc_plan *plan, const char *path, const char *text, char problem[TC_PROBLEM_SIZE]);

/*
 * The text that tc_plan_set would take to leave the figure at path as it is
 * ("" where it is not set in the plan). False where there is no such path.
 */
bool tc_plan_get(const struct tc_plan *plan, const char *path, char text[TC_VALUE_SIZE]);

/*
 * Types the plan's assumptions of a kind over a copy of the setup's, region's or shop's
 * record. An electricity or water price typed over takes the place of a named
 * tariff; ask tc_stock_tariffs (stock.h) for the region's afterwards. On failure,
 * which cannot be where the plan came through tc_plan_set and the record from
 * a stock unless the figures contradict each other, the record is unspecified.
 */
bool tc_plan_assume_setup(const struct tc_plan *plan, struct tc_setup *setup, char problem[TC_PROBLEM_SIZE]);
bool tc_plan_assume_region(const struct tc_plan *plan, struct tc_region *region,
                           char problem[TC_PROBLEM_SIZE]);
bool tc_plan_assume_shop(const struct tc_plan *plan, struct tc_shop *shop, struct tc_currency currency,
                         char problem[TC_PROBLEM_SIZE]);

/* Whether the plan says how long, high and deep its wall is. */
bool tc_plan_has_wall(const struct tc_plan *plan);

/* Whether two plans say the same, in the same words where they are kept. */
bool tc_plan_equal(const struct tc_plan *a, const struct tc_plan *b);

/*
 * A currency of which amounts may have more decimals than there are coins: in
 * plans these are rounded where a bill is made, as the region, and with it the
 * currency, may have been changed since they were typed.
 */
struct tc_currency tc_plan_currency(struct tc_currency currency);

/* tc_plan_set, for amounts of a known currency, which may then be written. */
bool tc_plan_set_in(struct tc_plan *plan, const char *path, const char *text, struct tc_currency currency,
                    char problem[TC_PROBLEM_SIZE]);

#endif
