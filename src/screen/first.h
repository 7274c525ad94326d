/* SPDX-License-Identifier: MIT */
/*
 * first.h - the first start: look around in the demonstration, or begin with
 * one's own figures, asked for one after the other, each with a usual answer.
 * See state.h.
 */
#ifndef TC_SCREEN_FIRST_H
#define TC_SCREEN_FIRST_H

#include "screen/state.h"

/* Offers it where the user has no profiles of his own yet. */
void tc_first_offer(struct tc_state *state);

/* Asks for the figures of one's own place and shop; then a plan with them is compared, still without tanks.
 */
void tc_first_begin(struct tc_state *state, int unused);

#endif
