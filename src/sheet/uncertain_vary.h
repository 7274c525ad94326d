/* SPDX-License-Identifier: MIT */
/*
 * uncertain_vary.h - an alternative with its figures at other values: the copy that
 * an evaluation works on.
 */
#ifndef TC_SHEET_UNCERTAIN_VARY_H
#define TC_SHEET_UNCERTAIN_VARY_H

#include "sheet/uncertain_collect.h"

/* One alternative with everything of it that a figure may change. */
struct tc_varied {
    struct tc_case c;
    struct tc_equipment equipment;
    struct tc_prices prices;
    bool own_setup; /* then the one below, else the plan's */
    struct tc_setup setup;
    struct tc_sale sale;
    struct tc_part parts[TC_SLOT_COUNT];
    struct tc_offer offers[TC_SLOT_COUNT];
    double typed_price; /* major units; NAN where none, like these, by shop: */
    double local_price[TC_SHOPS_MAX], part_local_price[TC_SLOT_COUNT][TC_SHOPS_MAX];
    tc_money asked[TC_SLOT_COUNT][TC_SHOPS_MAX];
    double pin_price[TC_SLOT_COUNT], pin_next[TC_SLOT_COUNT];
};

/* What all alternatives share in one evaluation. */
struct tc_uncertain_shared {
    struct tc_setup setup;
    struct tc_region region;
    double discount;
    double hours;                         /* what those of upkeep are multiplied by */
    struct tc_extra extra[TC_EXTRAS_MAX]; /* where they vary */
    struct tc_due due[TC_EXTRAS_MAX];
    const struct tc_tariff_margin *electricity, *water; /* the study's, or else */
    struct tc_tariff_margin own_electricity, own_water; /* these, of these tariffs */
    struct tc_tariffs tariffs;
    const struct tc_market *market; /* the study's, or else these, and what they ask for an order: */
    const tc_money *order_fees;
    struct tc_shop shops[TC_SHOPS_MAX];
    struct tc_market own_market;
    tc_money own_fees[TC_SHOPS_MAX];
    enum tc_status status; /* of making it */
};

/* What they share when the figures have these values. */
void tc_uncertain_share(const struct tc_uncertain *uncertain, const double values[],
                        struct tc_uncertain_shared *shared);

/*
 * An alternative with the figures at these values, measured and priced: it
 * borrows from `shared`, and from itself: it must stay where it is. TC_RANGE and
 * others where it cannot be.
 */
enum tc_status tc_uncertain_vary(const struct tc_uncertain *uncertain, int index, const double values[],
                                 const struct tc_uncertain_shared *shared, struct tc_varied *varied);

#endif
