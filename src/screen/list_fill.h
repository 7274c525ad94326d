/* SPDX-License-Identifier: MIT */
/* list_fill.h - what the lists have in common: how they are filled, and what choosing mostly does. */
#ifndef TC_SCREEN_LIST_FILL_H
#define TC_SCREEN_LIST_FILL_H

#include "screen/list.h"

/* A row of a list, and the value that choosing it stands for. */
void tc_fill_choice(struct tc_sheet *sheet, const char *label, const char *value);

/* Heads a column that holds words. */
void tc_fill_words(struct tc_sheet *sheet, size_t column, const char *head);

/* A cell of the last row: what the region asks for a tank (slot < 0) or part, or that it has no price. */
void tc_fill_price(struct tc_sheet *sheet, size_t column, const struct tc_state *state,
                   const struct tc_region *region, int slot, const struct tc_goods *goods);

/*
 * The value that stands for a shop in a list of other choices, and the shop of such a value; NULL for another
 * choice. Where a place has one seller there is none to choose.
 */
const char *tc_fill_shop(struct tc_sheet *sheet, const char *shop);
const char *tc_fill_shop_of(const char *value);

/* Whether a shop is the one that is chosen, "" standing for a word. */
const char *tc_fill_now(const char *chosen, const char *word, const char *value);

/* The units of the plan. */
enum tc_unit_system tc_fill_units(const struct tc_state *state);

/* The candidate that a list is about; NULL where that is none. */
const struct tc_candidate *tc_fill_candidate(const struct tc_state *state, struct tc_list_about about);

/* Sets a path of the plan to what was chosen, and closes the list. */
void tc_fill_take(struct tc_state *state, const char *path, const char *value);

#endif
