/* SPDX-License-Identifier: MIT */
/*
 * plan_region.h - a plan taken to another region, or given another setup.
 *
 * What a plan says of its own region is left there, because it would be a guess
 * elsewhere, and often in another currency:
 *
 *   - prices typed by hand, and the "used" that goes with them: elsewhere a
 *     candidate costs what that region asks;
 *   - assumptions of the region and its shops typed over, and the shop that is bought at; those of the setup
 * go along;
 *   - a sale of another region: elsewhere the best way to buy there that day
 *     takes its place, list price or sale;
 *   - the money of the wall and of waiting, where the currency is another.
 *
 * Pinned parts stay pinned. Likewise assumptions typed over a setup are of that
 * setup: another has its own.
 */
#ifndef TC_PROFILE_PLAN_REGION_H
#define TC_PROFILE_PLAN_REGION_H

#include "profile/stock.h"

/*
 * Makes the plan one of the region, which is in the stock; nothing else changes
 * where it is that already, or is of no region yet. Returns how many figures
 * were taken back.
 */
int tc_plan_region(struct tc_plan *plan, const struct tc_stock *stock, const char *region);

/* Gives the plan another setup; where it had one, what was typed over it is taken back. Returns how many. */
int tc_plan_setup(struct tc_plan *plan, const char *setup);

#endif
