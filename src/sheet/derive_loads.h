/* SPDX-License-Identifier: MIT */
/*
 * derive_loads.h - how many tanks a wall holds and what limits them, what they
 * weigh, take and draw, and what they give to the room, as terms (derive.h); of a
 * wall's derive (derive_wall.h), NULL for NULL.
 */
#ifndef TC_SHEET_DERIVE_LOADS_H
#define TC_SHEET_DERIVE_LOADS_H

#include "sheet/derive_room.h"

/* What the search for a wall reached, with each limit and how much of it is used. */
const struct tc_term *tc_derive_wall_sought(struct tc_sheet *sheet, const struct tc_derive_parts *of);

/* Tanks of a model; of all (-1). */
const struct tc_term *tc_derive_wall_tanks(struct tc_derive *wall, int model);

/* Tiers of the highest bay; m of wall that is used; kg on the heaviest bay; Pa on the most loaded floor. */
const struct tc_term *tc_derive_wall_tiers(struct tc_derive *wall);
const struct tc_term *tc_derive_wall_length(struct tc_derive *wall);
const struct tc_term *tc_derive_wall_heaviest(struct tc_derive *wall);
const struct tc_term *tc_derive_wall_pressure(struct tc_derive *wall);

/* W that all draw at once; W of heat that end in the room; m3 of water into its air, a day. */
const struct tc_term *tc_derive_wall_power(struct tc_derive *wall);
const struct tc_term *tc_derive_wall_heat(struct tc_derive *wall);
const struct tc_term *tc_derive_wall_vapour(struct tc_derive *wall);

#endif
