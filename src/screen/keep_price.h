/* SPDX-License-Identifier: MIT */
/*
 * keep_price.h - a typed price kept in the shop's list instead of the plan, for
 * all plans: what that key does. See state.h.
 */
#ifndef TC_SCREEN_KEEP_PRICE_H
#define TC_SCREEN_KEEP_PRICE_H

#include "screen/state.h"

/*
 * Moves the price typed at the selected cell into the list of the shop that the
 * plan buys at, which has to be the user's own. Of an unnamed part it asks
 * first which part it is.
 */
void tc_keep_price(struct tc_state *state, int unused);
bool tc_keep_price_possible(const struct tc_state *state);

#endif
