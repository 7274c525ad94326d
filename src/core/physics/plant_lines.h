/* SPDX-License-Identifier: MIT */
/*
 * plant_lines.h - how a plant's losses grow with its water's temperature, as straight lines (internal to
 * heat.h).
 */
#ifndef TC_CORE_PHYSICS_PLANT_LINES_H
#define TC_CORE_PHYSICS_PLANT_LINES_H

#include <stdbool.h>

#include "core/physics/plant.h"

/*
 * How the losses by the sides and by evaporation grow with theta: lines for what are curves. They are true at
 * one theta and, where the water touches the set point, on that as well; else they grow as the curves do
 * there.
 */
struct tc_plant_lines {
    double to;                    /* that theta, K, never 0 */
    bool touch;                   /* true on the set point as well */
    double base, base_vapour;     /* W of the sides and Pa that they have too much on the set point */
    struct tc_plant_sides growth; /* of the sides, W/K; the square's is left out */
    double vapour;                /* Pa/K */
};

/* The lines that are true at such a theta, or further off where that is too near the set point. */
struct tc_plant_lines tc_plant_lines_to(const struct tc_plant *p, const struct tc_plant_room *m, double to,
                                        bool touches);

/* How the loss grows with theta on the mean of the day, W/K, if sides (W/K) and vapour (Pa/K) grow so. */
double tc_plant_growth(const struct tc_plant *p, double sides, double vapour);

/*
 * Where theta settles on the mean over a day, roughly: the sides lose as much more by a degree of the water
 * as by one that the room has less, and vapour pressure rises by 6 % for each.
 */
double tc_plant_settles_about(const struct tc_plant *p, const struct tc_plant_room *m);

/* The same by lines that are true there. */
double tc_plant_settle(const struct tc_plant *p, const struct tc_plant_room *m);

#endif
