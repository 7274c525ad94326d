/* SPDX-License-Identifier: MIT */
/*
 * derive_room.h - what a wall is made of, and the room that it and its tanks make
 * together, as terms (derive.h): how warm and damp, and what keeps it so
 * (internal to derive_wall).
 */
#ifndef TC_SHEET_DERIVE_ROOM_H
#define TC_SHEET_DERIVE_ROOM_H

#include "sheet/derive.h"
#include "sheet/wall_study_cost.h"

/* A wall, as what it is made of: its tanks, model by model, and what they share. In the sheet's memory. */
struct tc_derive_parts {
    const struct tc_wall_study *wall_study;
    const struct tc_layout *layout;
    struct tc_derive *model[TC_CANDIDATES_MAX]; /* NULL: none stands there */
    struct tc_derive *shared;
    const struct tc_term *sought; /* what the search that counted them reached, and its limits */
    struct tc_cost rest;          /* of what is shared */
    int things;
    struct tc_shared thing[TC_ROOM_SHARED_MAX + 1];
    struct tc_wall_thing what[TC_ROOM_SHARED_MAX + 1];
    struct tc_load load; /* of the room's heating; things point to it */
};

/*
 * A tc_derive_line (TC_LINE_ROOM) of a derive whose made_of is a tc_derive_parts: the mean temperature of the
 * room in a month, R, K, or its humidity, Rh.
 */
const struct tc_term *tc_derive_room_climate(struct tc_derive *derive, enum tc_derived_line part, int index);

/* The same over the year: its coolest month, its warmest (K), its dampest (%). */
enum tc_room_extreme { TC_ROOM_COOLEST, TC_ROOM_WARMEST, TC_ROOM_DAMPEST };
const struct tc_term *tc_derive_room_extreme(struct tc_derive *derive, enum tc_room_extreme extreme,
                                             double value);

/* kWh of its heating in a year; of its heater's own electricity in a month, NULL: none. */
const struct tc_term *tc_derive_room_heating(struct tc_derive *derive);
const struct tc_term *tc_derive_room_heater(struct tc_derive *derive, const char *symbol, int month);

/* What its heating, cooling and drying cost in a year, but for that electricity. */
const struct tc_term *tc_derive_room_bill(struct tc_derive *derive, tc_money money);

#endif
