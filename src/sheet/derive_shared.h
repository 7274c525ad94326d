/* SPDX-License-Identifier: MIT */
/*
 * derive_shared.h - how the figures of what the tanks of a wall share came about,
 * as terms (derive.h): a rack, one air pump, lights over a tier, a timer, the
 * room's heater (internal to derive_wall).
 */
#ifndef TC_SHEET_DERIVE_SHARED_H
#define TC_SHEET_DERIVE_SHARED_H

#include "sheet/derive_room.h"

/* How tanks of a wall were counted: a text for tc_derive_counted. */
extern const char tc_derive_shared_counted[];

/* A tc_derive_line of the shared things' derive, whose made_of is a tc_derive_parts. */
const struct tc_term *tc_derive_shared_line(struct tc_derive *derive, enum tc_derived_line part, int index);

/* Of one thing, or of the i-th: how many there are, and the price of one. */
const struct tc_term *tc_derive_shared_count(struct tc_derive *derive, const struct tc_wall_thing *what);
const struct tc_term *tc_derive_shared_price(struct tc_derive *derive, const struct tc_derive_parts *of,
                                             int i);

/* Adds what each draws, W, to a sum. */
void tc_derive_shared_power(const struct tc_derive_parts *of, struct tc_term *sum);

#endif
