/* SPDX-License-Identifier: MIT */
/*
 * room_relief.h - what more of one limit of the wall would bring to the room as
 * a whole.
 *
 * core/wall/wall_relief.h finds the least raise for the tanks alone. Here the wall is
 * filled again with that raise and with all the room shares, and raised further
 * until the room is better: whoever raises the limit by what is said gets what
 * is said.
 */
#ifndef TC_SHEET_ROOM_RELIEF_H
#define TC_SHEET_ROOM_RELIEF_H

#include "core/wall/wall_relief.h"
#include "sheet/room.h"

struct tc_room_relief {
    double raise;   /* in the unit of the limit, whole steps of `step` */
    double reached; /* the goal with it, in the unit of tc_wall_mix's */
    bool proven;    /* all searches were carried to their end */
};

/*
 * The raise of one limit, in whole steps of `step` above 0, with which the best
 * mix of the room gets better. TC_NO_RESULT: none does, or none was found
 * (not proven). TC_STOPPED: the search was.
 */
enum tc_status tc_room_relieve(const struct tc_room *room, enum tc_wall_limit limit, double step,
                               struct tc_search *search, struct tc_room_relief *relief);

#endif
