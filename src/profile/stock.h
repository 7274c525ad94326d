/* SPDX-License-Identifier: MIT */
/*
 * stock.h - everything the profiles hold.
 *
 * Read from folders in layers; a section of a later folder replaces the one of
 * the same kind and name of an earlier one, also where the later one is faulty.
 * All faults of all files are collected; an item with a fault is left out and
 * the rest works. Each folder, and each file read alone, is a layer; within a
 * layer a section may be there once.
 *
 *     tc_stock_start(&stock);
 *     tc_stock_read_folder(&stock, "/usr/share/tankcost", true, &faults);
 *     tc_stock_read_folder(&stock, "profiles", false, &faults);
 *     tc_stock_finish(&stock, &faults);
 *     ...tc_stock_tank(&stock, "29-high")...
 *     tc_stock_free(&stock);
 *
 * Reading collects sections; the records are made by tc_stock_finish. The
 * stock owns them; pointers into it are good until it is finished anew or
 * freed.
 */
#ifndef TC_PROFILE_STOCK_H
#define TC_PROFILE_STOCK_H

#include <stdbool.h>
#include <stddef.h>

#include "core/goods/setup.h"
#include "core/goods/part.h"
#include "core/goods/region.h"
#include "core/goods/sale.h"
#include "core/base/spread.h"
#include "core/goods/tank.h"
#include "profile/fault.h"
#include "profile/key.h"
#include "profile/plan.h"

struct tc_named_tariff {
    char name[TC_NAME_SIZE];
    char title[TC_TITLE_SIZE];
    enum tc_dimension dimension; /* of what it prices: TC_DIM_ENERGY, rates a kWh; TC_DIM_VOLUME, a m3 */
    struct tc_tariff tariff;     /* rates and charges in major units of the currency of the region using it */
};

/* A region's own price for a tank or part: "[prices lowmere lid]", "glass-30x12 = 21". */
struct tc_region_price {
    char region[TC_NAME_SIZE];
    char kind[12]; /* "tank" or a slot */
    char item[TC_NAME_SIZE];
    double amount; /* major units of the region's currency */
};

/*
 * A figure that a profile gives as a range; the record has its middle. To vary
 * it, put another value at its place in a copy of the record. A figure for all
 * months has span TC_MONTHS: its twelve doubles, alike in the record, take the
 * drawn value together. What a plan gives as a range is in the plan (plan.h).
 */
struct tc_record_range {
    char kind[12];           /* section kind: "tank", "lid", "setup", "region", "tariff", "sale", "prices" */
    char item[TC_NAME_SIZE]; /* its name; of prices the region's */
    char key[2 * TC_NAME_SIZE]; /* the key as written; "price USD"; of prices "lid glass-30x12" */
    size_t offset;              /* of the double in the record of that kind (prices: tc_region_price) */
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
    struct tc_region_price *prices; /* sorted, for tc_stock_own_price */
    struct tc_record_range *doubtful;
    size_t tank_count, part_count, setup_count, region_count, tariff_count, sale_count, plan_count,
        price_count, doubtful_count;
    struct tc_sections *sections; /* what was read and where it stood; see section.h */
};

void tc_stock_start(struct tc_stock *stock);
void tc_stock_free(struct tc_stock *stock);

/*
 * Reads the *.ini files of DIR/tanks, parts, setups, regions and plans over what the stock holds;
 * files in the order of their names. A folder that does not exist is fine
 * where `optional`, else a fault. TC_NO_MEMORY where memory ran out.
 */
enum tc_status tc_stock_read_folder(struct tc_stock *stock, const char *folder, bool optional,
                                    struct tc_faults *faults);

/* Reads one file of any kind over what the stock holds. For its plan see tc_stock_plan_of. */
enum tc_status tc_stock_read_file(struct tc_stock *stock, const char *path, struct tc_faults *faults);

/* The same from memory; name is the file's for faults and tc_stock_plan_of. */
enum tc_status tc_stock_read_bytes(struct tc_stock *stock, const char *name, const char *bytes, size_t length,
                                   struct tc_faults *faults);

/*
 * To be called after the last file: makes the records and resolves names
 * between them (region to tariff, sale to region and tanks, plan to setup ...);
 * what cannot be resolved is a fault, and the record that needed it is left
 * out. Sorts the faults. After reading more files it can be called again; all
 * is then made anew, and the faults of items come once more.
 */
enum tc_status tc_stock_finish(struct tc_stock *stock, struct tc_faults *faults);

/* Find by name; NULL where there is none. */
const struct tc_tank *tc_stock_tank(const struct tc_stock *stock, const char *name);
const struct tc_part *tc_stock_part(const struct tc_stock *stock, enum tc_slot slot, const char *name);
const struct tc_setup *tc_stock_setup(const struct tc_stock *stock, const char *name);
const struct tc_region *tc_stock_region(const struct tc_stock *stock, const char *name);
const struct tc_sale *tc_stock_sale(const struct tc_stock *stock, const char *name);
const struct tc_plan *tc_stock_plan(const struct tc_stock *stock, const char *name);

/* The plan that the file at path (as given to a reading) holds, or NULL where it holds none or a faulty one.
 */
const struct tc_plan *tc_stock_plan_of(const struct tc_stock *stock, const char *path);

/* Where the item of that section kind and name stands; false where there is none. The file's name is
 * borrowed. */
bool tc_stock_where(const struct tc_stock *stock, const char *kind, const char *name, const char **file,
                    int *line);

const struct tc_named_tariff *tc_stock_tariff(const struct tc_stock *stock, const char *name);

/*
 * What the region's prices or named tariffs come to. False, with a problem,
 * where it names a tariff that is not there or of the wrong kind.
 */
bool tc_stock_tariffs(const struct tc_stock *stock, const struct tc_region *region,
                      struct tc_tariffs *tariffs, char problem[TC_PROBLEM_SIZE]);

/* The name of that kind nearest to a misspelt one, or NULL. */
const char *tc_stock_nearest(const struct tc_stock *stock, const char *kind, const char *name);

/*
 * What a region asks for a tank (slot < 0) or part: its own price, or else the
 * item's price in its currency. False where it has none.
 */
bool tc_stock_price(const struct tc_stock *stock, const struct tc_region *region, int slot,
                    const struct tc_goods *goods, double *amount);

/* The region's own price alone, or NAN. */
double tc_stock_own_price(const struct tc_stock *stock, const struct tc_region *region, int slot,
                          const struct tc_goods *goods);

#endif
