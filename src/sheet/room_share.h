/* SPDX-License-Identifier: MIT */
/*
 * room_share.h - what the tanks of a layout share: the rack, one air pump,
 * lights over a tier, one timer (internal to room).
 */
#ifndef TC_SHEET_ROOM_SHARE_H
#define TC_SHEET_ROOM_SHARE_H

#include "core/cost/room.h"
#include "sheet/room.h"

/* Most things that tc_room_shared lists. */
enum { TC_ROOM_SHARED_MAX = 2 * TC_CANDIDATES_MAX + 3 };

/* Chooses what the layout's tanks share, by its mix: fills layout->share. */
void tc_room_share_out(const struct tc_room *room, struct tc_layout *layout);

/* Lists it with prices before tax, the rack first; returns how many things. Sticky status. */
int tc_room_shared(const struct tc_room *room, const struct tc_layout *layout,
                   struct tc_shared things[TC_ROOM_SHARED_MAX], enum tc_status *status);

#endif
