/* SPDX-License-Identifier: MIT */
/* change.h - changing the plan: what those keys do. See state.h. */
#ifndef TC_SCREEN_CHANGE_H
#define TC_SCREEN_CHANGE_H

#include "screen/state.h"

/* Type the selected cell over; the same, beginning with a character that was typed. */
void tc_change_cell(struct tc_state *state, int unused);
bool tc_change_cell_possible(const struct tc_state *state);
void tc_change_type(struct tc_state *state, uint32_t code);

/* Takes back what was typed or pinned at the selected cell. */
void tc_change_back(struct tc_state *state, int unused);
bool tc_change_back_possible(const struct tc_state *state);

/* Puts a second one like the selected candidate in, to be given other parts or another price. */
void tc_change_double(struct tc_state *state, int unused);

/* More or fewer of the selected candidate. */
void tc_change_count(struct tc_state *state, int by);

/* Has orders fetched from shops, where that costs less than delivery, or delivered again. */
void tc_change_pick_up(struct tc_state *state, int unused);
bool tc_change_pick_up_possible(const struct tc_state *state);

/* Lets bill and years compare the plan's walls, or its tanks again. */
void tc_change_walls(struct tc_state *state, int unused);

/* Asks what the sheet whatif varies. */
void tc_change_vary(struct tc_state *state, int unused);

/* Lists every assumption. */
void tc_change_assumptions(struct tc_state *state, int unused);

#endif
