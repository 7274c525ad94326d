/* SPDX-License-Identifier: MIT */
/*
 * sale.h - what a shop asks for a tank: list price, sales, special orders.
 */
#ifndef TC_CORE_GOODS_SALE_H
#define TC_CORE_GOODS_SALE_H

#include <stdbool.h>

#include "core/base/calendar.h"
#include "core/money/currency.h"
#include "core/goods/goods.h"
#include "core/goods/part.h"
#include "core/goods/tank.h"

enum tc_sale_rule {
    TC_SALE_PERCENT,    /* a share off the list price */
    TC_SALE_PER_VOLUME, /* an amount for each unit of nominal volume */
    TC_SALE_FIXED,      /* one price */
    TC_SALE_BUNDLE      /* one price for the tank with some parts */
};

enum { TC_SALE_TANKS_MAX = 24, TC_SALE_PARTS_MAX = 8 };

struct tc_sale {
    char name[TC_NAME_SIZE];
    char title[TC_TITLE_SIZE];
    char shop[TC_NAME_SIZE];
    enum tc_sale_rule rule;
    double figure; /* share off, or major units (a m3 of nominal volume) */

    /* The tanks it covers: those named, or, where none is, those of these nominal volumes. */
    char tanks[TC_SALE_TANKS_MAX][TC_NAME_SIZE];
    int tank_count;
    double least_volume, greatest_volume; /* m3, bounds included; 0 for no bound */

    /* What a bundle includes, one of each for a tank. */
    struct {
        enum tc_slot slot;
        char name[TC_NAME_SIZE];
    } parts[TC_SALE_PARTS_MAX];
    int part_count;

    bool dated; /* else it runs always */
    struct tc_repeat when;
    int limit; /* tanks a customer may have at this price; 0: no limit */
};

/* Whether the sale is meant for this tank, dates apart. */
bool tc_sale_covers(const struct tc_sale *sale, const struct tc_tank *tank);

/* Whether it runs on that day. */
bool tc_sale_runs(const struct tc_sale *sale, struct tc_date day);

/*
 * The price of one tank of this volume (m3) in this sale, minor units of the region's currency;
 * sticky status. The list price is needed for TC_SALE_PERCENT only.
 */
tc_money tc_sale_price(const struct tc_sale *sale, double nominal_volume, tc_money list,
                       struct tc_currency currency, enum tc_status *status);

#endif
