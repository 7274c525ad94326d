/* SPDX-License-Identifier: MIT */
/*
 * wall_room.h - the room that a wall stands in: what is known of it, the climate that it and the wall's
 * tanks make together, and the climate in which the tanks need no heaters (see core/physics/room_balance.h).
 */
#ifndef TC_SHEET_WALL_ROOM_H
#define TC_SHEET_WALL_ROOM_H

#include <stdbool.h>

#include "core/physics/room_balance.h"
#include "core/physics/room_loss.h"
#include "sheet/study.h"

struct tc_wall_room {
    bool known;     /* how much heat it loses; else others hold it */
    bool estimated; /* from its size and build */
    bool unsized;   /* it would be, but its size is not given */
    struct tc_room_loss loss;
    double air_flow; /* m3/s; 0: not known */
    double capacity; /* J/K, what it stores; 0: not known */
};

/* Tanks of a layout: one of each kind, and how many. */
struct tc_wall_tanks {
    const struct tc_alternative *alternatives;
    const int *count;
    int models;
    double beside; /* W, mean of the year, that what they share gives to the room */
};

/* The temperature, K by month, of a room kept so warm that tanks need no heaters, and who needs one still. */
struct tc_wall_warmth {
    double temperature[TC_MONTHS];
    bool keeps[TC_CANDIDATES_MAX]; /* its heater: it needs a warmer room than others can live in */
    bool
        too_warm[TC_CANDIDATES_MAX]; /* it gets too warm even in the room that suits the others least badly */
};

/* TC_RANGE where the room's figures contradict each other: more outer wall than wall, say. */
enum tc_status tc_wall_room_read(const struct tc_room_plan *plan, struct tc_wall_room *room);

/*
 * The climate of the room with the tanks in it, losing `loss` W/K. `warmth`: it is kept at least so warm; or
 * NULL. Where the region cools it in a month it gets no warmer than the region says.
 */
enum tc_status tc_wall_room_find(const struct tc_wall_room *room, double loss, const struct tc_region *region,
                                 const struct tc_wall_tanks *tanks, const struct tc_wall_warmth *warmth,
                                 struct tc_room_year *year);

/* Puts that climate in place of a region's. */
void tc_wall_room_put(const struct tc_room_year *year, struct tc_climate *climate);

/* The climate of a room kept so warm, before its tanks are known. */
void tc_wall_room_warm(const struct tc_wall_warmth *warmth, struct tc_climate *climate);

/*
 * How warm the room is to be kept: so warm that the one that needs most of it, of those that no other's
 * warmest hour forbids, keeps its set point. out: of each, whether it stands nowhere and does not count.
 * region: as it is without the tanks. False where no room does.
 */
bool tc_wall_room_warmth(const struct tc_region *region, const struct tc_alternative alternatives[],
                         const bool out[], int models, struct tc_wall_warmth *warmth);

/* kWh by month of a room's heating, or of its cooling; m3 of water a year that evaporates. */
void tc_wall_room_heating(const struct tc_room_year *year, double kwh[TC_MONTHS]);
void tc_wall_room_cooling(const struct tc_room_year *year, double kwh[TC_MONTHS]);
double tc_wall_room_vapour(const struct tc_room_year *year);

#endif
