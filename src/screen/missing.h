/* SPDX-License-Identifier: MIT */
/* missing.h - from one missing figure to the next: what that key does. See state.h. */
#ifndef TC_SCREEN_MISSING_H
#define TC_SCREEN_MISSING_H

#include "screen/state.h"

/*
 * Selects the next figure of the present sheet that is missing and can be
 * typed, round the end; else goes to the bill, which has them all; or, where
 * there is no sheet because the place is not filled in, to its form.
 */
void tc_missing_next(struct tc_state *state, int unused);

#endif
