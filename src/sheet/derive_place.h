/* SPDX-License-Identifier: MIT */
/*
 * derive_place.h - what the places are like that a sheet compares, as terms
 * (derive.h): the price of a further unit, the room, and money of one in that
 * of another.
 */
#ifndef TC_SHEET_DERIVE_PLACE_H
#define TC_SHEET_DERIVE_PLACE_H

#include "core/money/exchange.h"
#include "sheet/derive.h"

/* What a further unit of electricity (kWh) or water (m3) costs where so many come on top each month. */
const struct tc_term *tc_derive_further(struct tc_derive *derive, bool energy, double units, double price);

/* The mean of the room's twelve months, K, shown in the unit of the study's habit. */
const struct tc_term *tc_derive_room_mean(struct tc_derive *derive, double mean);

/* What one unit of a currency is in another, by quotes of the stock's regions in their order. */
const struct tc_term *tc_derive_rate(struct tc_sheet *sheet, const struct tc_study *study,
                                     const struct tc_conversion *conversion);

/* What the plan says an hour of upkeep is worth, taken along from another region's money where it was. */
const struct tc_term *tc_derive_hour_worth(struct tc_derive *derive);

#endif
