/* SPDX-License-Identifier: MIT */
/* missing.h - from one missing figure to the next: what that key does. See state.h. */
#ifndef TC_SCREEN_MISSING_H
#define TC_SCREEN_MISSING_H

#include "screen/state.h"

/*
 * Selects the next figure of the present sheet that is missing and can be
 * typed, round the end; one that is selected already, and was not gone to, is the
 * first. Else goes to the bill, which has them all; or, where there is no sheet
 * because the place is not filled in, to its form.
 */
void tc_missing_next(struct tc_state *state, int unused);

/* Whether the present sheet has such a figure. */
bool tc_missing_any(const struct tc_state *state);

#endif
