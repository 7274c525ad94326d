/* SPDX-License-Identifier: MIT */
/* browse.h - moving about in a sheet and between sheets: what those keys do. See state.h. */
#ifndef TC_SCREEN_BROWSE_H
#define TC_SCREEN_BROWSE_H

#include "screen/state.h"

/* Scrolls the present sheet so that what is selected is in sight. */
void tc_browse_into_sight(struct tc_state *state);

/* Selects another line, by so many; a line so many screenfuls away; the first (-1) or last (1). */
void tc_browse_lines(struct tc_state *state, int by);
void tc_browse_pages(struct tc_state *state, int by);
void tc_browse_ends(struct tc_state *state, int direction);

/* Selects another column, by so many. */
void tc_browse_columns(struct tc_state *state, int by);

/* Goes to another question, by so many, round the ends; or to one by its place. */
void tc_browse_question(struct tc_state *state, int by);
void tc_browse_to_question(struct tc_state *state, size_t question);

/* Goes back to where one was, or as near as the sheet, which may have been laid out anew, allows. */
void tc_browse_back_to(struct tc_state *state, const struct tc_position *position);

/* Opens a line to type what to find; what is typed there selects the nearest line that holds it. */
void tc_browse_find(struct tc_state *state, int unused);
void tc_browse_find_typed(struct tc_state *state, const char *text, const struct tc_position *from);

/* Selects the next line in a direction that holds what was looked for last. */
void tc_browse_again(struct tc_state *state, int direction);

/* Takes the marks of what was found away. */
void tc_browse_forget(struct tc_state *state, int unused);
bool tc_browse_forget_possible(const struct tc_state *state);

/* A click at a cell of the screen; lets the mouse do so, or not; draws all anew. */
void tc_browse_click(struct tc_state *state, int column, int row);
void tc_browse_mouse(struct tc_state *state, int unused);
void tc_browse_redraw(struct tc_state *state, int unused);

#endif
