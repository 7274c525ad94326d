/* SPDX-License-Identifier: MIT */
/*
 * arranging.h - a sheet arranged by its reader (sheet/arrange.h): what those
 * keys do, and how an arrangement holds while its sheet is made again. See state.h.
 */
#ifndef TC_SCREEN_ARRANGING_H
#define TC_SCREEN_ARRANGING_H

#include "screen/state.h"

/*
 * Puts a sheet in the place of the present tab's, arranged as the user has
 * asked, and lays it out with the same row selected. NULL: there is none now.
 * What it holds is taken over.
 */
void tc_arranging_put(struct tc_state *state, struct tc_sheet *sheet);

/* Hides the selected row or column. */
void tc_arranging_hide_row(struct tc_state *state, int unused);
void tc_arranging_hide_column(struct tc_state *state, int unused);

/* Sorts the columns by the selected row: up, down, and as they were. */
void tc_arranging_sort(struct tc_state *state, int unused);

/* Shows the selected column and another one with their difference; asks which where there are more. */
void tc_arranging_compare(struct tc_state *state, int unused);

/* Shows the present sheet whole and in its own order again. */
void tc_arranging_clear(struct tc_state *state, int unused);
bool tc_arranging_clear_possible(const struct tc_state *state);

/* Lets the present sheet say what is mostly not asked for (why, all), or leaves that out again. */
void tc_arranging_in_full(struct tc_state *state, int unused);
bool tc_arranging_in_full_possible(const struct tc_state *state);

#endif
