/* SPDX-License-Identifier: MIT */
/*
 * plant_follow.h - a plant followed through the days of a month in closed form (internal to heat.h).
 *
 * From part to part of a day theta runs along the exponentials of thermostat.h, with losses along lines whose
 * slope is that of the part's room. Where the water touches the set point, or the room is about as warm as
 * the water, what the lines miss is found along a day that repeats and made good in each part's gain: it
 * hardly changes theta, so once is enough.
 */
#ifndef TC_CORE_PHYSICS_PLANT_FOLLOW_H
#define TC_CORE_PHYSICS_PLANT_FOLLOW_H

#include "core/physics/plant.h"

/* What a month comes to. */
struct tc_plant_tally {
    double *heat;           /* J by hour of the day */
    double integral;        /* of theta over time, K s */
    double sides;           /* J */
    double vapour;          /* pressure at the water above the room's air over time, Pa s */
    double lowest, highest; /* theta on the day that repeats */
    double rises;           /* K that theta rises in all, and it falls so much but for where it ends */
};

/* Follows so many days, at least 1, in a room from *theta to their end; *tally but for its pointer is filled
 * in. */
void tc_plant_follow(const struct tc_plant *p, const struct tc_plant_room *m, int days, double *theta,
                     struct tc_plant_tally *tally);

#endif
