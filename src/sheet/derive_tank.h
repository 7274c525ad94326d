/* SPDX-License-Identifier: MIT */
/*
 * derive_tank.h - the sizes of a tank, and the parts chosen for it and why, as
 * terms (derive.h).
 */
#ifndef TC_SHEET_DERIVE_TANK_H
#define TC_SHEET_DERIVE_TANK_H

#include "sheet/derive.h"

/* Sizes of one tank, in SI units. */
enum tc_size {
    TC_SIZE_FOOTPRINT,
    TC_SIZE_OUTER_LENGTH,
    TC_SIZE_LENGTH, /* inside */
    TC_SIZE_WIDTH,
    TC_SIZE_HEIGHT,
    TC_SIZE_BOTTOM,
    TC_SIZE_WATER_DEPTH,
    TC_SIZE_ABOVE_BED, /* height above the substrate */
    TC_SIZE_REACH,
    TC_SIZE_NOMINAL,
    TC_SIZE_VOLUME,
    TC_SIZE_GLASS_MASS,
    TC_SIZE_EMPTY,
    TC_SIZE_WATER_MASS,
    TC_SIZE_FILLED,
    TC_SIZE_PRESSURE
};
const struct tc_term *tc_derive_size(struct tc_derive *derive, enum tc_size size);

/* A term in the unit in which a person of the study's habit reads it. */
const struct tc_term *tc_derive_shown(struct tc_derive *derive, const struct tc_term *term,
                                      enum tc_dimension dimension);

/* Pieces of a slot in one tank (or in all, where they share), with why this part; in all tanks. */
const struct tc_term *tc_derive_chosen(struct tc_derive *derive, enum tc_slot slot);
const struct tc_term *tc_derive_pieces(struct tc_derive *derive, enum tc_slot slot);

/* What the tank asks of filters (m3/s) and lamps (umol/s); what its lamps give at the bottom. */
const struct tc_term *tc_derive_flow(struct tc_derive *derive);
const struct tc_term *tc_derive_ppf(struct tc_derive *derive);
const struct tc_term *tc_derive_ppfd(struct tc_derive *derive, double ppfd);

/* Territories or animals that one tank holds by its setup's own rule. */
const struct tc_term *tc_derive_held(struct tc_derive *derive, bool territories, int held);

/* Hours a year that all tanks take their keeper, in the middle of the range. */
#define TC_DERIVE_UPKEEP_WORDS "upkeep, hours a year; 0.6 to 1.6 times it is told"
const struct tc_term *tc_derive_upkeep(struct tc_derive *derive);

#endif
