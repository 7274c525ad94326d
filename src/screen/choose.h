/* SPDX-License-Identifier: MIT */
/* choose.h - picking from lists: what those keys do. What the lists hold is in choices.h. See state.h. */
#ifndef TC_SCREEN_CHOOSE_H
#define TC_SCREEN_CHOOSE_H

#include "screen/state.h"

/* Opens a list of that kind (enum tc_picker_kind). */
void tc_choose_open(struct tc_state *state, int kind);

/* Opens the parts of the slot that the selected cell is about, or else the list of slots. */
void tc_choose_part(struct tc_state *state, int unused);

/* Opens the parts offered for a slot of a candidate. */
void tc_choose_part_of(struct tc_state *state, int candidate, enum tc_slot slot);

/* Fills the open list anew, after the plan was worked out anew. */
void tc_choose_renew(struct tc_state *state);

/* Takes what is selected. */
void tc_choose_take(struct tc_state *state, int unused);
bool tc_choose_possible(const struct tc_state *state);

/*
 * Of the tank selected in its list, so many more; an assumption is not counted, but going right lets
 * whatif vary it. Whether the list is one of things that are counted.
 */
void tc_choose_count(struct tc_state *state, int by);
bool tc_choose_counts(const struct tc_state *state);

/* Takes a typed assumption back. */
void tc_choose_back(struct tc_state *state, int unused);
bool tc_choose_back_possible(const struct tc_state *state);

void tc_choose_lines(struct tc_state *state, int by);
void tc_choose_pages(struct tc_state *state, int by);
void tc_choose_type(struct tc_state *state, uint32_t code);
void tc_choose_click(struct tc_state *state, int row);
void tc_choose_leave(struct tc_state *state, int unused);

#endif
