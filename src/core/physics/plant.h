/* SPDX-License-Identifier: MIT */
/*
 * plant.h - a tank with its heater as a plant: what it loses and gains in the rooms of a year (internal to
 * heat.h, which says what is modelled and how exactly). plant_follow.h follows it from day to day.
 *
 * theta is how far the water is above the set point, K.
 */
#ifndef TC_CORE_PHYSICS_PLANT_H
#define TC_CORE_PHYSICS_PLANT_H

#include "core/physics/day_parts.h"
#include "core/physics/glazing.h"
#include "core/physics/heat_case.h"
#include "core/physics/pane.h"

/* The room in one month, as the plant feels it. */
struct tc_plant_room {
    double room;                 /* mean, K */
    double air;                  /* vapour pressure, Pa */
    struct tc_plant_sides sides; /* of water on the set point */
    double loss;                 /* W of such water in all */
};

/* What of a case stays the same all year, the loss factor worked in. */
struct tc_plant {
    const struct tc_heat_case *c;
    struct tc_conductance surfaces; /* W/K */
    double plain;                   /* W/K, their sum */
    struct tc_pane pane;
    double pane_area;   /* m2 times the loss factor */
    double fresh;       /* W/K, of the flow of fresh water */
    double evaporation; /* W/Pa */
    double capacity;    /* J/K */
    double pressure;    /* saturation pressure at the set point, Pa */

    struct tc_day_parts parts;
    double part_gain[TC_DAY_PARTS_MAX]; /* W from pumps and lamps */
    double mean_gain;
};

/* The plant of a case that has passed tc_heat_check, which is borrowed. */
struct tc_plant tc_plant_make(const struct tc_heat_case *c);

/* It in a room of that mean temperature (K) and relative humidity. */
struct tc_plant_room tc_plant_room_at(const struct tc_plant *p, double room, double humidity);

/* It in the room of one of the case's months, 0 to 11. */
struct tc_plant_room tc_plant_month(const struct tc_plant *p, int month);

/* W through its panes at theta into a room of that temperature, K. */
double tc_plant_pane_loss(const struct tc_plant *p, double theta, double room);

/* The same while a room of that mean swings; the square is 0 where the room is not about as warm as the set
 * point. */
struct tc_plant_sides tc_plant_sides_at(const struct tc_plant *p, double theta, double room);

/* The pressure that the water's vapour has at theta, Pa, where it is one of water. */
double tc_plant_pressure(const struct tc_plant *p, double theta);

/*
 * What water that stays as it is gains in each part of the day with such sides, and so much more, W, but for
 * its mean loss.
 */
void tc_plant_gains(const struct tc_plant *p, double wave, double square, double more,
                    double gain[TC_DAY_PARTS_MAX]);

/* W that water on the set point loses in the coldest hour of a day of a month, 0 to 11, in its room, exactly.
 */
double tc_plant_coldest_loss(const struct tc_plant *p, int month, const struct tc_plant_room *m);

/* The least that the water gains in a part of the day, W, its loss aside. */
double tc_plant_least_gain(const struct tc_plant *p, const struct tc_plant_room *m);

#endif
