/* SPDX-License-Identifier: MIT */
/*
 * room_loss.h - how much heat a room loses for each kelvin it is warmer, estimated from its size and build.
 *
 * The method is that of ISO 13789 and EN 12831: the sum of U A over all that encloses the room, and
 * 0.34 Wh/(m3 K) times the air that is changed (the heat capacity of a cubic metre of air).
 *
 * What counts is by how much tanks warm the room above what it would be without them, so what leads to
 * neighbouring rooms counts as well as what leads outdoors. How much of it depends on how far those
 * warm up in turn: a quarter of it at least, half as likely, all at most (a guess of ours).
 *
 * U-values: of walls the defaults by age that Scotland's certificates take for existing homes (RdSAP: as
 * built 2.1 to 1.7 for solid brick, 1.0 for the seventies, 0.6 to 0.45 for the eighties and nineties,
 * 0.30 and 0.25 since); single glazing 5.0 and older double glazing 3.0, coated 1.1 to 1.6 (a trade
 * journal's overview); roofs and what leads to other rooms from memory.
 */
#ifndef TC_CORE_PHYSICS_ROOM_LOSS_H
#define TC_CORE_PHYSICS_ROOM_LOSS_H

#include <stdbool.h>

#include "core/base/status.h"

/* Heat capacity of a cubic metre of air, J/(m3 K): 0.34 Wh (EN 12831). */
#define TC_AIR_HEAT_CAPACITY (0.34 * 3600)

/* How a home is built, from a century ago to today. */
enum tc_room_build {
    TC_BUILD_OLD,      /* solid walls, or cavities without insulation */
    TC_BUILD_MIDDLING, /* some insulation, double glazing */
    TC_BUILD_INSULATED,
    TC_BUILD_COUNT
};

/* Lengths m, areas m2. */
struct tc_room_shape {
    double length, width, height; /* > 0, inside */
    double outside;               /* length of its walls that lead outdoors, 0 to all of them */
    double windows;               /* area in these, 0 to theirs */
    enum tc_room_build build;
    bool roof;         /* above it is the roof, else another storey */
    double air_change; /* volumes a second, >= 0 */
};

/* W/K. */
struct tc_room_loss {
    double likely, low, high;
    double walls, windows, roof, air, inside; /* what the likely one is made of */
};

/* TC_RANGE where a figure is out of range or NaN. */
enum tc_status tc_room_loss_estimate(const struct tc_room_shape *shape, struct tc_room_loss *loss);

/* m3 of the room. */
double tc_room_volume(const struct tc_room_shape *shape);

#endif
