/* SPDX-License-Identifier: MIT */
/* browse.h - moving about in a sheet and between sheets: what those keys do. See state.h. */
#ifndef TC_SCREEN_BROWSE_H
#define TC_SCREEN_BROWSE_H

#include "screen/state.h"

/* Selects another line, by n, or by n screenfuls; the first (-1) or last (1). */
void tc_browse_lines(struct tc_state *state, int by);
void tc_browse_pages(struct tc_state *state, int by);
void tc_browse_ends(struct tc_state *state, int direction);

/* Selects another column, by n. */
void tc_browse_columns(struct tc_state *state, int by);

/* Goes to another question, by n, round the ends. */
void tc_browse_question(struct tc_state *state, int by);

/* Opens a line to type what to find; what is typed there selects the nearest line that holds it. */
void tc_browse_find(struct tc_state *state, int unused);

/* Selects the next line in a direction that holds what was looked for last. */
void tc_browse_again(struct tc_state *state, int direction);

/* Takes the marks of what was found away. */
void tc_browse_forget(struct tc_state *state, int unused);
bool tc_browse_forget_possible(const struct tc_state *state);

/* Selects what stands at a cell of the sheet's place on the screen; true if it was selected already. */
bool tc_browse_click(struct tc_state *state, int column, int row);

/* Lets the mouse select and scroll, or leaves it to the terminal. */
void tc_browse_mouse(struct tc_state *state, int unused);

/* Draws the whole screen again. */
void tc_browse_redraw(struct tc_state *state, int unused);

#endif
