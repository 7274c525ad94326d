/* SPDX-License-Identifier: MIT */
/*
 * explain.h - where the selected figure comes from: what that key does.
 *
 * The sheet is made once more with its terms (sheet/explain.h); a list shows
 * the parts of one term, and each that has parts opens a further list.
 */
#ifndef TC_SCREEN_EXPLAIN_H
#define TC_SCREEN_EXPLAIN_H

#include "screen/state.h"

void tc_explain_open(struct tc_state *state, int unused);
bool tc_explain_possible(const struct tc_state *state);

#endif
