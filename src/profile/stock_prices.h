/* SPDX-License-Identifier: MIT */
/*
 * stock_prices.h - what shops ask, made from their price lists.
 */
#ifndef TC_PROFILE_STOCK_PRICES_H
#define TC_PROFILE_STOCK_PRICES_H

#include "profile/stock_build.h"

/*
 * Reads all sections of prices into the stock, sorted. Each price is an item
 * of its own: one of a later layer takes the place of an earlier one, two of
 * a layer are a fault.
 */
void tc_build_prices(struct tc_build *build);

#endif
