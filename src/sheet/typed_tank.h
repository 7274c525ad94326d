/* SPDX-License-Identifier: MIT */
/*
 * typed_tank.h - the tank of a candidate: that of a profile, with the sizes typed
 * over it, or one of which nothing is known but its sizes and its price.
 */
#ifndef TC_SHEET_TYPED_TANK_H
#define TC_SHEET_TYPED_TANK_H

#include <stdbool.h>

#include "core/goods/tank.h"
#include "profile/plan.h"
#include "profile/stock.h"

/* False where there is no profile of its name and not all of its sizes are typed. */
bool tc_typed_tank(const struct tc_stock *stock, const struct tc_candidate *candidate, struct tc_tank *tank);

#endif
