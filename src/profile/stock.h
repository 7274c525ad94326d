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
 * Reading collects sections; the records are made by tc_stock_finish
 * (stock_finish.h). The stock owns them; pointers into it are good until it is finished again or
 * freed.
 */
#ifndef TC_PROFILE_STOCK_H
#define TC_PROFILE_STOCK_H

#include <stdbool.h>
#include <stddef.h>

#include "profile/fault.h"
#include "profile/key.h"
#include "profile/plan.h"
#include "profile/stock_data.h"

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

/* The order of prices in a stock: by shop, slot and item. */
int tc_shop_price_compare(const void *a, const void *b);

/* Find by name; NULL where there is none. kind: of a section that is an item: "tank", "lid", "region" ... */
const void *tc_stock_find(const struct tc_stock *stock, const char *kind, const char *name);
const struct tc_tank *tc_stock_tank(const struct tc_stock *stock, const char *name);
const struct tc_part *tc_stock_part(const struct tc_stock *stock, enum tc_slot slot, const char *name);
const struct tc_setup *tc_stock_setup(const struct tc_stock *stock, const char *name);
const struct tc_region *tc_stock_region(const struct tc_stock *stock, const char *name);
const struct tc_shop *tc_stock_shop(const struct tc_stock *stock, const char *name);
const struct tc_extra *tc_stock_extra(const struct tc_stock *stock, const char *name);
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

/* The first shop of the region that is no private seller, or NULL. */
const struct tc_shop *tc_stock_first_shop(const struct tc_stock *stock, const char *region);

/* Whether a sale is held by a shop of the region. */
bool tc_stock_sale_in(const struct tc_stock *stock, const struct tc_sale *sale, const char *region);

/* What stands in a shop's own price list for a tank (slot < 0) or part, or NULL. */
const struct tc_shop_price *tc_stock_listed(const struct tc_stock *stock, const struct tc_shop *shop,
                                            int slot, const struct tc_goods *goods);

/*
 * What a shop of the region asks for a tank (slot < 0) or part: the price of its
 * list, or else the item's own price in the region's currency. False, and an
 * amount of 0, where it has none. shop may be NULL: somebody who has no list.
 */
bool tc_stock_asked(const struct tc_stock *stock, const struct tc_region *region, const struct tc_shop *shop,
                    int slot, const struct tc_goods *goods, double *amount);

/*
 * The least that shops of the region ask: what no shop of it sells and has no
 * price of its own in its currency is not on offer there, and the answer false.
 * An item's own price holds at every shop that does not list it, and where the
 * region has no shop.
 */
bool tc_stock_price(const struct tc_stock *stock, const struct tc_region *region, int slot,
                    const struct tc_goods *goods, double *amount);

/* What stands in a shop's own list alone, or NAN; of no shop (NULL) NAN. */
double tc_stock_own_price(const struct tc_stock *stock, const struct tc_shop *shop, int slot,
                          const struct tc_goods *goods);

#endif
