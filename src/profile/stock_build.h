/* SPDX-License-Identifier: MIT */
/*
 * stock_build.h - records made from the sections of a stock. For the files of
 * stock.h.
 */
#ifndef TC_PROFILE_STOCK_BUILD_H
#define TC_PROFILE_STOCK_BUILD_H

#include "profile/record.h"
#include "profile/stock.h"

/* A stock in the making. */
struct tc_build {
    struct tc_stock *stock;             /* in which names are looked up */
    const struct tc_sections *sections; /* that records are made of: the stock's, or of a file beside it */
    struct tc_faults *faults;
    enum tc_status status; /* sticky: TC_NO_MEMORY where memory ran out */
};

/*
 * Makes room in an array of the stock that has `count` items for `more` behind
 * them; NULL, with the status set and *items as it was, if out of memory. Else
 * the place of the first of them.
 */
void *tc_build_reserve(struct tc_build *build, void **items, size_t count, size_t more, size_t size);

/*
 * Room for one more item behind *count of an array that grows by this alone;
 * NULL, with the status set, if out of memory.
 */
void *tc_build_push(struct tc_build *build, void **items, size_t *count, size_t size);

/* How many sections of a kind there are to make records of, also of those that will turn out to be bad. */
size_t tc_build_count(const struct tc_build *build, const char *kind);

/* Adds a range as a doubtful figure. */
void tc_build_range(struct tc_build *build, const char *kind, const char *item, const char *key,
                    const struct tc_key_range *range);

/* Adds the ranges of an entry as doubtful figures of an item. */
void tc_build_doubtful(struct tc_build *build, const char *kind, const char *item,
                       const struct tc_entry *entry);

/* The region that the section's key `region`, or the shop that its key `shop`, names, whose currency its
 * amounts are in; NULL where there is none. */
const struct tc_region *tc_build_region(const struct tc_build *build, const struct tc_section *section);

/* Reports that the value of key names something of a kind that is not there, or was left out for its faults.
 */
void tc_build_missing(struct tc_build *build, const struct tc_section *section, const struct tc_ini_key *key,
                      const char *kind, const char *name);

#endif
