/* SPDX-License-Identifier: MIT */
/*
 * kind.h - the kinds of sections there are, one row each: how the head is
 * written, which keys there are, and where the records lie in a stock.
 */
#ifndef TC_PROFILE_KIND_H
#define TC_PROFILE_KIND_H

#include <stddef.h>

#include "profile/key.h"
#include "profile/stock_data.h"
#include "core/base/text.h"

/* What follows the kind in a section's head. */
enum tc_head {
    TC_HEAD_ITEM,      /* [tank NAME] */
    TC_HEAD_PLAN,      /* [plan NAME], one a file */
    TC_HEAD_PRICES,    /* [prices SHOP KIND] */
    TC_HEAD_CANDIDATE, /* [candidate N], of the file's plan */
    TC_HEAD_ASSUME,    /* [assume KIND], likewise */
    TC_HEAD_ALONE      /* [wall], likewise: one a plan, without a name */
};

/* Where records of a kind lie; parts of all slots lie in one array. */
struct tc_shelf {
    size_t size;         /* of one; 0 where the kind has no records of its own */
    size_t name, title;  /* offsets in it */
    size_t items, count; /* offsets in struct tc_stock */
};

struct tc_kind {
    const char *name; /* the first word of the head: "tank" */
    enum tc_head head;
    int slot; /* of a kind of part; else -1 */
    const struct tc_key_table
        *table; /* of its keys; NULL where these are names of items or of other tables */
    struct tc_shelf shelf;
    const char
        *folder; /* of profiles that its files lie in: "tanks"; NULL where it belongs to a plan's file */
};

/* The kind of that name, or NULL; the i-th, or NULL past the last. */
const struct tc_kind *tc_kind_find(const char *name);
const struct tc_kind *tc_kind_at(size_t i);

/* Whether tanks or parts are of this kind: what shops have prices for. */
bool tc_kind_is_goods(const struct tc_kind *kind);

/* The i-th record of a kind in a stock, i less than the count of its shelf. */
const void *tc_kind_record(const struct tc_kind *kind, const struct tc_stock *stock, size_t i);
size_t tc_kind_count(const struct tc_kind *kind, const struct tc_stock *stock);

/* Whether the i-th record of a kind's shelf is of that kind: all parts share one. */
bool tc_kind_has(const struct tc_kind *kind, const struct tc_stock *stock, size_t i);

/* The i-th folder of profiles, in the order in which they are read; NULL past the last. */
const char *tc_kind_folder_at(size_t i);

/* Adds their names: "tanks, parts ... or plans". */
void tc_kind_list_folders(struct tc_text *text);

/* Frees the records of all kinds; the stock's arrays are not to be looked at after that. */
void tc_kind_free_records(struct tc_stock *stock);

/* The table of a kind, or NULL; the i-th of all tables, or NULL past the last. */
const struct tc_key_table *tc_key_table_find(const char *kind);
const struct tc_key_table *tc_key_table_at(size_t i);

/* Adds the names of the kinds that stand on their own, or of goods alone: "tank, stand ... and substrate". */
void tc_kind_list(struct tc_text *text, bool goods, const char *joint);

#endif
