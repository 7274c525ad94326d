/* SPDX-License-Identifier: MIT */
/* price_page.h - a page to read: what all shops ask for the things of a kind, side by side. */
#ifndef TC_SCREEN_PRICE_PAGE_H
#define TC_SCREEN_PRICE_PAGE_H

#include "screen/state.h"

/* Opens it for the kind that the list on top is about. */
void tc_price_page_open(struct tc_state *state);

#endif
