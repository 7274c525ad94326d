/* SPDX-License-Identifier: MIT */
/* page.h - a text to read over the sheet: the help, and what is wrong. See state.h. */
#ifndef TC_SCREEN_PAGE_H
#define TC_SCREEN_PAGE_H

#include "screen/state.h"

/* The help, made from the table of keys. */
void tc_page_help(struct tc_state *state, int unused);

/* What is wrong with the plan and with the profiles. */
void tc_page_faults(struct tc_state *state, int unused);

/* Scrolls by lines or screenfuls; closes. */
void tc_page_lines(struct tc_state *state, int by);
void tc_page_pages(struct tc_state *state, int by);
void tc_page_leave(struct tc_state *state, int unused);

/* Wraps the text anew for a screen of another size. */
void tc_page_resize(struct tc_state *state);

/* The columns a line has, of which the first TC_PAGE_KEYS are for what stands before a tab; the lines in
 * sight.
 */
enum { TC_PAGE_KEYS = 18 };
int tc_page_width(const struct tc_state *state);
size_t tc_page_room(const struct tc_state *state);

#endif
