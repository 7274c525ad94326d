/* SPDX-License-Identifier: MIT */
/*
 * scroll.h - which part of a sheet is in sight: laid out for the screen, the
 * selected row kept when its sheet is made again, and scrolled to.
 */
#ifndef TC_SCREEN_SCROLL_H
#define TC_SCREEN_SCROLL_H

#include "screen/state.h"

/* Scrolls the present sheet so that what is selected is in sight. */
void tc_scroll_into_sight(struct tc_state *state);

/* Selects the line at a place that can be selected, or the next in a direction; false where there is none. */
bool tc_scroll_select(struct tc_state *state, size_t line, int direction);

/* Goes back to where one was, or as near as the sheet, which may have been laid out again, allows. */
void tc_scroll_back_to(struct tc_state *state, const struct tc_position *position);

/* Lays the present sheet out for the present screen, keeping the selected row. */
void tc_scroll_lay_out(struct tc_state *state);

/* Shows another question's sheet. */
void tc_scroll_to_question(struct tc_state *state, size_t question);

/* What tells a row from others when its sheet is made again. */
struct tc_anchor {
    enum tc_line_kind kind;
    char subject[2 * TC_NAME_SIZE], group[2 * TC_NAME_SIZE];
};

/* The anchor of the selected row, to be taken before its sheet is freed; then, with the new one, back to it.
 */
void tc_scroll_anchor(const struct tc_state *state, struct tc_anchor *anchor);
void tc_scroll_lay_out_at(struct tc_state *state, const struct tc_anchor *anchor);

#endif
