/* SPDX-License-Identifier: MIT */
/*
 * wall_study_share.h - what the tanks of a layout share: the rack, one air pump,
 * lights over a tier, one timer (internal to room).
 */
#ifndef TC_SHEET_WALL_STUDY_SHARE_H
#define TC_SHEET_WALL_STUDY_SHARE_H

#include "core/cost/shared_cost.h"
#include "sheet/wall_layout.h"

/* Most things that tc_wall_study_shared lists. */
enum { TC_ROOM_SHARED_MAX = 2 * TC_CANDIDATES_MAX + 3 };

/* Chooses what the layout's tanks share, by its mix: fills layout->share. */
void tc_wall_study_share_out(const struct tc_wall_study *wall_study, struct tc_layout *layout);

/* What a thing is that is shared: so many of a part, or of what has no profile. */
enum tc_wall_thing_kind { TC_THING_RACK, TC_THING_TIMER, TC_THING_PART, TC_THING_ROOM };
struct tc_wall_thing {
    enum tc_wall_thing_kind kind;
    const struct tc_offer *offer; /* of a part, borrowed */
    int count;
    const struct tc_setup *setup; /* by which lights burn, borrowed; else NULL */
};

/*
 * Lists it with prices before tax, the rack first; returns how many things. what, with as many places, is
 * filled likewise, or NULL. Sticky status.
 */
int tc_wall_study_shared(const struct tc_wall_study *wall_study, const struct tc_layout *layout,
                         struct tc_shared things[TC_ROOM_SHARED_MAX],
                         struct tc_wall_thing what[TC_ROOM_SHARED_MAX], enum tc_status *status);

/* Tiers of all its bays. */
int tc_wall_study_tiers(const struct tc_layout *layout);

/* How many timers its lights take: one for each time at which lights burn. */
int tc_wall_study_timers(const struct tc_wall_study *wall_study, const struct tc_layout *layout);

#endif
