/* SPDX-License-Identifier: MIT */
/*
 * price_import.h - a shop's price list from a spreadsheet.
 *
 * The first record names the columns: name, kind and price have to be there; any
 * other is a key of the kind ("length", "power"). A row's item that no profile has
 * is made of its other columns, by the rules of profiles; of one that is there they
 * have to be empty or say what its profile says. What is no name is made one (core/base/name.h)
 * and is the title of a new item. Amounts may have decimal commas where semicolons or
 * tabs set the columns apart (csv.h).
 */
#ifndef TC_PROFILE_PRICE_IMPORT_H
#define TC_PROFILE_PRICE_IMPORT_H

#include "core/base/text.h"
#include "profile/csv.h"
#include "profile/stock.h"

/* One row, checked. */
struct tc_price_row {
    const struct tc_csv_record *record;
    const struct tc_kind *kind;
    char name[TC_NAME_SIZE];
    const char *title; /* what stands there, where that is no name: "20 gal long"; else NULL */
    const char *price;
    const struct tc_shop_price *before; /* in the list now; NULL: not in it */
    bool made;                          /* its item is new ... */
    int made_line; /* ... and its section begins at that line of the import's `made_text` */
    bool same;     /* nothing changes */
};

struct tc_price_import {
    struct tc_csv csv;
    struct tc_price_row *rows; /* owned */
    size_t row_count, changed, added, made;
    struct tc_text made_text; /* the sections of the new items, as a profile */
};

/*
 * Reads and checks a list for a shop of the stock; every fault of it is told with
 * its line and column. TC_SYNTAX where there is one. Free it whatever the status.
 */
enum tc_status tc_price_import_read(const struct tc_stock *stock, const struct tc_shop *shop,
                                    const char *name, const char *text, size_t length,
                                    struct tc_price_import *import, struct tc_faults *faults);
void tc_price_import_free(struct tc_price_import *import);

/* What would change, a line each: "lid glass-30x12: 19.00 -> 21.00". */
void tc_price_import_tell(const struct tc_price_import *import, struct tc_text *text);

/*
 * The file at path with the list put into it: its own sections of prices of the
 * shop keep what the list does not have, and all else of it stays. The file is
 * whole or as it was; TC_IO, TC_SYNTAX or TC_NO_MEMORY with a fault.
 */
enum tc_status tc_price_import_save(const struct tc_price_import *import, const struct tc_stock *stock,
                                    const struct tc_shop *shop, const char *path, struct tc_faults *faults);

#endif
