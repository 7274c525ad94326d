/* SPDX-License-Identifier: MIT */
/* confirm.h - questions before something is lost, and what follows the answer. See state.h. */
#ifndef TC_SCREEN_CONFIRM_H
#define TC_SCREEN_CONFIRM_H

#include "screen/state.h"

/* Leaves, after a question where the plan is not saved. */
void tc_confirm_leave(struct tc_state *state, int unused);

/* Opens another plan of the stock, likewise. */
void tc_confirm_open(struct tc_state *state, const char *name);

/* Asks before a file is replaced. */
void tc_confirm_replace(struct tc_state *state, enum tc_confirm_kind kind, const char *path);

/* The answers, and which there are. */
void tc_confirm_yes(struct tc_state *state, int unused);
void tc_confirm_no(struct tc_state *state, int unused);
void tc_confirm_save(struct tc_state *state, int unused);
bool tc_confirm_leaving(const struct tc_state *state);
bool tc_confirm_not_leaving(const struct tc_state *state);
bool tc_confirm_save_possible(const struct tc_state *state);

#endif
