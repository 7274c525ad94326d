/* SPDX-License-Identifier: MIT */
/*
 * derive_wall.h - how the figures of a wall came about, as terms (derive.h):
 * each is the sum of those of its models' tanks and of what they share.
 *
 * What a search found, and what the room's heat makes of the tanks' use, is
 * said to be worked out; all else is followed down to its leaves.
 */
#ifndef TC_SHEET_DERIVE_WALL_H
#define TC_SHEET_DERIVE_WALL_H

#include "sheet/derive.h"
#include "sheet/wall_layout.h"

/* The wall of an alternative of a study whose alternatives are walls. NULL as tc_derive_of. */
struct tc_derive *tc_derive_wall_alternative(struct tc_sheet *sheet, const struct tc_study *study,
                                             const struct tc_alternative *alternative);

/* A layout itself; it lives as long as the sheet is being made. Asked again it is the same. */
struct tc_derive *tc_derive_wall(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                                 const struct tc_layout *layout);

/* What the tanks of a wall share, as a cost of its own. */
struct tc_derive *tc_derive_wall_shared(struct tc_derive *wall);

/* Of what is shared on a line of the purchase: how many pieces, and one's price. False where there is none.
 */
bool tc_derive_wall_thing(struct tc_derive *wall, const struct tc_offer *offer, int line, int count,
                          const struct tc_term **pieces, const struct tc_term **price);

#endif
