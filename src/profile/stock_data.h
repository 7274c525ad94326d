/* SPDX-License-Identifier: MIT */
/*
 * stock_data.h - what a stock holds: plain records in arrays. Made by
 * stock_finish.h, asked by stock.h.
 */
#ifndef TC_PROFILE_STOCK_DATA_H
#define TC_PROFILE_STOCK_DATA_H

#include <stdbool.h>
#include <stddef.h>

#include "core/goods/extra.h"
#include "core/goods/setup.h"
#include "core/goods/part.h"
#include "core/goods/region.h"
#include "core/goods/sale.h"
#include "core/goods/shop.h"
#include "core/base/spread.h"
#include "core/goods/tank.h"
#include "core/base/unit.h"
#include "profile/plan.h"

struct tc_named_tariff {
    char name[TC_NAME_SIZE];
    char title[TC_TITLE_SIZE];
    enum tc_dimension dimension; /* of what it prices: TC_DIM_ENERGY, rates a kWh; TC_DIM_VOLUME, a m3 */
    bool invented;
    struct tc_tariff tariff; /* rates and charges in major units of the currency of the region using it */
};

/*
 * What a shop asks for a tank or part: "[prices lowmere-shop lid]", "glass-30x12 =
 * 21". By places of the records in the stock, as there may be very many.
 */
struct tc_shop_price {
    double amount; /* major units of the region's currency */
    int shop;      /* in shops */
    int slot;      /* of a part; -1: a tank */
    int item;      /* in tanks or parts */
};

/*
 * A figure that a profile gives as a range; the record has its middle. To vary
 * it, put another value at its place in a copy of the record. A figure for all
 * months has span TC_MONTHS: its twelve doubles, alike in the record, take the
 * drawn value together. What a plan gives as a range is in the plan (plan.h).
 */
struct tc_record_range {
    char kind[12];           /* section kind: "tank", "lid", "setup", "region", "tariff", "sale", "prices" */
    char item[TC_NAME_SIZE]; /* its name; of prices the shop's */
    char key[2 * TC_NAME_SIZE]; /* the key as written; "price USD"; of prices "lid glass-30x12" */
    size_t offset;              /* of the double in the record of that kind (prices: tc_shop_price) */
    int span;                   /* so many doubles from there on move together */
    struct tc_spread spread;
};

struct tc_stock {
    struct tc_tank *tanks;
    struct tc_part *parts;
    struct tc_setup *setups;
    struct tc_region *regions;
    struct tc_named_tariff *tariffs;
    struct tc_sale *sales;
    struct tc_plan *plans;
    struct tc_shop *shops;
    struct tc_extra *extras;
    struct tc_shop_price *prices; /* sorted by shop, slot and item */
    struct tc_record_range *doubtful;
    size_t tank_count, part_count, setup_count, region_count, tariff_count, sale_count, plan_count,
        shop_count, extra_count, price_count, doubtful_count;
    struct tc_sections *sections; /* what was read and where it stood; see section.h */
};

#endif
