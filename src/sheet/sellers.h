/* SPDX-License-Identifier: MIT */
/*
 * sellers.h - what each seller asks, side by side: a column for each shop that
 * sells any of the things listed, with the gaps.
 *
 * A shop asks what tc_stock_asked says: the price of its list, or else a thing's
 * own price in the region's currency. A region without a shop has a column
 * where things have such prices. Shops of one region compare with each other;
 * where one money is asked for, all do.
 */
#ifndef TC_SHEET_SELLERS_H
#define TC_SHEET_SELLERS_H

#include "core/base/status.h"
#include "profile/kind.h"
#include "profile/stock.h"
#include "sheet/sheet.h"

struct tc_asking {
    const struct tc_region *region;
    const struct tc_shop *shop; /* NULL: somebody in the region, at the things' own prices */
    double rate; /* from the region's money into the one asked for, 1 without; 0: none quoted */
};

/* Owns the array; borrows the rest. */
struct tc_sellers {
    const struct tc_stock *stock;
    const struct tc_currency *money; /* all prices are told in it; NULL: each in its region's */
    struct tc_asking *seller;
    size_t count;
};

/* What is asked of a stock. All is borrowed. */
struct tc_stock_ask {
    const char *kind; /* of section: "tank", "lid", "setup" ...; NULL: all */
    enum tc_unit_system units;
    const struct tc_currency *money; /* all shops' prices are told in it; NULL: each in its region's */
    const char *const *regions;      /* whose shops are compared ... */
    int region_count;                /* ... 0: all */
    const char *installed;           /* the folder of the profiles that came with the program, or NULL */
};

/* Those who sell anything of the kind, region by region. TC_NO_MEMORY. Free them whatever the status. */
enum tc_status tc_sellers_find(struct tc_sellers *sellers, const struct tc_stock *stock,
                               const struct tc_stock_ask *ask);
void tc_sellers_free(struct tc_sellers *sellers);

/* Heads the columns of the sellers, from `first` on. */
void tc_sellers_columns(const struct tc_sellers *sellers, struct tc_sheet *sheet, size_t first);

/* What each asks for a tank (slot < 0) or part, into the last row; the lowest of a region is marked. */
void tc_sellers_prices(const struct tc_sellers *sellers, struct tc_sheet *sheet, size_t first, int slot,
                       const struct tc_goods *goods);

/* Adds rows: how many things of a kind each sells, and what those cost together that all shops sell. */
void tc_sellers_sums(const struct tc_sellers *sellers, struct tc_sheet *sheet, size_t first,
                     const struct tc_kind *kind);

/* Says how prices and marks are meant. */
void tc_sellers_notes(const struct tc_sellers *sellers, struct tc_sheet *sheet);

/* The goods of the i-th record of a kind of goods. */
const struct tc_goods *tc_goods_at(const struct tc_kind *kind, const struct tc_stock *stock, size_t i);

/* The goods of that name; NULL where there are none, or the kind is no kind of goods (or NULL). */
const struct tc_goods *tc_goods_find(const struct tc_kind *kind, const struct tc_stock *stock,
                                     const char *name);

#endif
