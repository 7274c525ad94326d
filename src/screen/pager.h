/* SPDX-License-Identifier: MIT */
/* pager.h - a text to read over the sheet: the help, and what is wrong. See state.h. */
#ifndef TC_SCREEN_PAGER_H
#define TC_SCREEN_PAGER_H

#include "screen/state.h"

/* The help, made from the table of keys. */
void tc_pager_help(struct tc_state *state, int unused);

/* What is wrong with the plan and with the profiles. */
void tc_pager_faults(struct tc_state *state, int unused);

/*
 * Opens another text, under a title that outlives it: `write` adds its lines, for a width,
 * again whenever that changes; a wide one takes all columns of the screen.
 */
typedef void tc_pager_write(struct tc_pager *pager, const struct tc_state *state, int width);
void tc_pager_open(struct tc_state *state, tc_pager_write *write, const char *title, bool wide);

/* Adds a line; what stands in the key is set apart from it. */
void tc_pager_line(struct tc_pager *pager, const char *key, const char *text, size_t length);

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
