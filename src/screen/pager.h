/* SPDX-License-Identifier: MIT */
/* pager.h - a text to read over the sheet: the help, and what is wrong. See state.h. */
#ifndef TC_SCREEN_PAGER_H
#define TC_SCREEN_PAGER_H

#include "screen/state.h"

/* The help, made from the table of keys. */
void tc_pager_help(struct tc_state *state, int unused);

/* What is wrong with the plan and with the profiles. */
void tc_pager_faults(struct tc_state *state, int unused);

/* Scrolls by lines or screenfuls; closes. */
void tc_pager_lines(struct tc_state *state, int by);
void tc_pager_pages(struct tc_state *state, int by);
void tc_pager_leave(struct tc_state *state, int unused);

/* Wraps the text again for a screen of another size. */
void tc_pager_resize(struct tc_state *state);

/* The columns a line has, of which the first TC_PAGER_KEYS are for what stands before a tab; the lines in
 * sight.
 */
enum { TC_PAGER_KEYS = 18 };
int tc_pager_width(const struct tc_state *state);
size_t tc_pager_room(const struct tc_state *state);

#endif
