/* SPDX-License-Identifier: MIT */
/*
 * stock.h - everything the profiles hold.
 *
 * Read from folders in layers; a section of a later folder replaces the one of
 * the same kind and name of an earlier one. All faults of all files are
 * collected; an item with a fault is left out and the rest works. The stock
 * owns its records until tc_stock_free; pointers into it are good until then.
 */
#ifndef TC_PROFILE_STOCK_H
#define TC_PROFILE_STOCK_H

#include <stdbool.h>
#include <stddef.h>

#include "core/kit.h"
#include "core/part.h"
#include "core/region.h"
#include "core/sale.h"
#include "core/spread.h"
#include "core/tank.h"
#include "profile/fault.h"
#include "profile/key.h"
#include "profile/plan.h"

struct tc_named_tariff {
    char name[TC_NAME_SIZE];
    char title[TC_TITLE_SIZE];
    struct tc_tariff tariff; /* major units */
};

/* A region's own price for a tank or part: "[prices lowmere] lid glass-30x12 = 21". */
struct tc_local_price {
    char region[TC_NAME_SIZE];
    char kind[12]; /* "tank" or a slot */
    char item[TC_NAME_SIZE];
    double amount; /* major units of the region's currency */
};

/* A figure that a profile gives as a range. */
struct tc_doubtful {
    char kind[12]; /* section kind: "tank", "kit", "prices" ... */
    char item[TC_NAME_SIZE];
    char key[2 * TC_NAME_SIZE]; /* the key as written; for prices with the currency: "price USD" */
    size_t offset;              /* of the double in the record (local price: of amount) */
    struct tc_spread spread;
};

struct tc_stock {
    struct tc_tank *tanks;
    struct tc_part *parts;
    struct tc_kit *kits;
    struct tc_region *regions;
    struct tc_named_tariff *tariffs;
    struct tc_sale *sales;
    struct tc_plan *plans;
    struct tc_local_price *prices;
    struct tc_doubtful *doubtful;
    size_t tank_count, part_count, kit_count, region_count, tariff_count, sale_count, plan_count, price_count,
        doubtful_count;
};

void tc_stock_start(struct tc_stock *stock);
void tc_stock_free(struct tc_stock *stock);

/*
 * Reads the *.ini files of DIR/tanks, parts, kits, regions and plans over what the stock holds;
 * files in the order of their names. A folder that does not exist is fine
 * where `optional`, else a fault. TC_NO_MEMORY where memory ran out.
 */
enum tc_status tc_stock_read_folder(struct tc_stock *stock, const char *folder, bool optional,
                                    struct tc_faults *faults);

/* Reads one file of any kind over what the stock holds; the plan of a plan file becomes plans[plan_count-1].
 */
enum tc_status tc_stock_read_file(struct tc_stock *stock, const char *path, struct tc_faults *faults);

/*
 * To be called once after the last file: resolves names between records
 * (region to tariff, sale to region and tanks, plan to kit ...); what cannot be
 * resolved is a fault, and the record that needed it is left out.
 */
enum tc_status tc_stock_finish(struct tc_stock *stock, struct tc_faults *faults);

/* Find by name; NULL where there is none. */
const struct tc_tank *tc_stock_tank(const struct tc_stock *stock, const char *name);
const struct tc_part *tc_stock_part(const struct tc_stock *stock, enum tc_slot slot, const char *name);
const struct tc_kit *tc_stock_kit(const struct tc_stock *stock, const char *name);
const struct tc_region *tc_stock_region(const struct tc_stock *stock, const char *name);
const struct tc_sale *tc_stock_sale(const struct tc_stock *stock, const char *name);
const struct tc_plan *tc_stock_plan(const struct tc_stock *stock, const char *name);

/* The name of that kind nearest to a misspelt one, or NULL. */
const char *tc_stock_nearest(const struct tc_stock *stock, const char *kind, const char *name);

/*
 * What a region asks for a tank (slot < 0) or part: its own price, or else the
 * item's price in its currency. False where it has none.
 */
bool tc_stock_price(const struct tc_stock *stock, const struct tc_region *region, int slot,
                    const struct tc_goods *goods, double *amount);

#endif
