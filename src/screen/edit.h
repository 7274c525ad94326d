/* SPDX-License-Identifier: MIT */
/* edit.h - the plan as something that is changed by paths, with undo. */
#ifndef TC_SCREEN_EDIT_H
#define TC_SCREEN_EDIT_H

#include "screen/state.h"

/* Puts another plan in the place of the present one, as a step that can be taken back; false if they are
 * alike.
 */
bool tc_edit_plan(struct tc_state *state, const struct tc_plan *plan);

/* The same with another plan of the session, by its place among the files. */
void tc_edit_document(struct tc_state *state, const struct tc_plan *plan, int file);

/* Sets one figure by its path (plan.h); false, with the problem, where that is refused. */
bool tc_edit_set(struct tc_state *state, const char *path, const char *text, char problem[TC_PROBLEM_SIZE]);

/* Whether it is one of a candidate that nobody gave, and so is assumed. */
bool tc_edit_assumed(const struct tc_state *state, const char *path);

/* The figure at a path as it is in force, typed or not; "" where that is not known. */
void tc_edit_present(const struct tc_state *state, const char *path, char text[TC_VALUE_SIZE]);

/* The region's record as it is in the study, or else as the stock has it; NULL where there is none. */
const struct tc_region *tc_edit_region(const struct tc_state *state);

/* Whether a path leads to a figure of the region that nobody has said yet (template.h). */
bool tc_edit_lacks(const struct tc_state *state, const char *path);

/* Whether the plan itself says something at a path that it would not say by itself. */
bool tc_edit_typed(const struct tc_state *state, const char *path);

/* Undo, or with forth, do again. */
void tc_edit_undo(struct tc_state *state, int forth);
bool tc_edit_undo_possible(const struct tc_state *state);
bool tc_edit_redo_possible(const struct tc_state *state);

/* A path taken apart: "candidate 2/lid-price". */
struct tc_edit_path {
    char kind[TC_NAME_SIZE]; /* "candidate" */
    int candidate;           /* 1; -1 for other kinds */
    const char *key;         /* "lid-price"; within the path */
    const struct tc_key *form;
};
void tc_edit_take_apart(const char *path, struct tc_edit_path *parts);

/* The slot of a key such as "lid" or, with the ending "-price", "lid-price"; false where it is of none. */
bool tc_edit_slot_of(const char *key, const char *ending, enum tc_slot *slot);

#endif
