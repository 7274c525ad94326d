/* SPDX-License-Identifier: MIT */
/*
 * derive_heat.h - the heat of tanks by month and the way it takes, and what of it
 * the room gets, as terms (derive.h).
 */
#ifndef TC_SHEET_DERIVE_HEAT_H
#define TC_SHEET_DERIVE_HEAT_H

#include "sheet/derive.h"

/* Heat of one tank in a month, kWh, by the way it takes. */
enum tc_heat_way {
    TC_HEAT_SIDES,
    TC_HEAT_BOTTOM,
    TC_HEAT_SURFACE,
    TC_HEAT_LID,
    TC_HEAT_VAPOUR,
    TC_HEAT_FRESH,
    TC_HEAT_PUMPS,
    TC_HEAT_LAMPS,
    TC_HEAT_HEATER,
    TC_HEAT_WAYS
};
const struct tc_term *tc_derive_heat(struct tc_derive *derive, enum tc_heat_way way, int month);

/* The same of a year; of all ways out. */
const struct tc_term *tc_derive_heat_year(struct tc_derive *derive, enum tc_heat_way way);
const struct tc_term *tc_derive_heat_lost(struct tc_derive *derive);

/* A figure of one tank that its heat's simulation gives, with what that month was simulated from. */
const struct tc_term *tc_derive_simulated(struct tc_derive *derive, const char *symbol, const char *words,
                                          double value, const char *unit, int month);

/* The power that heaters need, W, with the setup's margin. */
const struct tc_term *tc_derive_needed_heat(struct tc_derive *derive);

/* Losses by a meter over the computed, %. */
const struct tc_term *tc_derive_measured(struct tc_derive *derive, double percent);

/* What its heat was simulated from, as parts of a term. */
void tc_derive_heat_inputs(struct tc_derive *derive, struct tc_term *term, int month);

/* Heat that the room gets from all tanks in a month, kWh. */
const struct tc_term *tc_derive_room_heat(struct tc_derive *derive, int month);

/* The same over the months for which in[] is set; NULL: over all. */
const struct tc_term *tc_derive_room_heat_in(struct tc_derive *derive, const char *symbol, const char *words,
                                             const bool in[TC_MONTHS]);

#endif
