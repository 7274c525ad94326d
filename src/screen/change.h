/* SPDX-License-Identifier: MIT */
/* change.h - changing the plan, with undo: what those keys do. See state.h. */
#ifndef TC_SCREEN_CHANGE_H
#define TC_SCREEN_CHANGE_H

#include "screen/state.h"

/* Puts another plan in the place of the present one, as a step that can be taken back; false if they are
 * alike.
 */
bool tc_change_plan(struct tc_state *state, const struct tc_plan *plan);

/* Sets one figure by its path (plan.h); false, with the problem, where that is refused. */
bool tc_change_set(struct tc_state *state, const char *path, const char *text, char problem[TC_PROBLEM_SIZE]);

/*
 * Asks for the figure at a path: with a prompt, or where it is a name with a
 * list to choose from. The prompt begins with what is in force now; typed, if
 * not 0, is a character that takes its place at once.
 */
void tc_change_ask(struct tc_state *state, const char *path, uint32_t typed);

/* The figure at a path as it is in force, typed or not; "" where that is not known. */
void tc_change_present(const struct tc_state *state, const char *path, char text[TC_VALUE_SIZE]);

/* Whether the plan itself says something at a path. */
bool tc_change_typed(const struct tc_state *state, const char *path);

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

/* Undo, or with forth, do again. */
void tc_change_undo(struct tc_state *state, int forth);
bool tc_change_undo_possible(const struct tc_state *state);
bool tc_change_redo_possible(const struct tc_state *state);

/* Lets bill and years compare the plan's walls, or its tanks again. */
void tc_change_walls(struct tc_state *state, int unused);

/* Asks what the sheet whatif varies; or from where to where it varies the figure at a path. */
void tc_change_vary(struct tc_state *state, int unused);
void tc_change_vary_path(struct tc_state *state, const char *path);

#endif
