/* SPDX-License-Identifier: MIT */
/*
 * heat_case.h - a tank, its room and its heater, as its heat is asked for (heat.h).
 */
#ifndef TC_CORE_PHYSICS_HEAT_CASE_H
#define TC_CORE_PHYSICS_HEAT_CASE_H

#include "core/base/status.h"
#include "core/physics/day_parts.h"
#include "core/physics/glazing.h"

/*
 * Heat capacity of a cubic metre of water, J/(m3 K): 997.05 kg/m3 times 4180 J/(kg K) at 25
 * degrees Celsius (Cengel, table A-9).
 */
#define TC_WATER_HEAT_CAPACITY 4.168e6

/* Of glass, J/(kg K) (EN 572-1). */
#define TC_GLASS_HEAT_CAPACITY 720.0

/* A loss factor outside of this is a slip of the pen. */
#define TC_LOSS_FACTOR_LEAST 0.01
#define TC_LOSS_FACTOR_MOST  100.0

/*
 * What goes through the panes of water that stands still, W, while the room swings: taken to follow a
 * parabola over the room's day, mean - wave w - square (w^2 - 1/2).
 */
struct tc_plant_sides {
    double mean, wave, square;
};

/* What of a case follows from its panes, rooms and light hours alone: made once for many (heat.h). */
struct tc_heat_frame {
    struct tc_day_parts parts;
    double air[12];                  /* vapour pressure of the room, Pa */
    struct tc_plant_sides sides[12]; /* of water on the set point */
    double coldest[12];              /* W through its panes in the day's coldest hour */
};

/* Temperatures in K, 233.15 to 373.15 unless noted; the range of each figure stands beside it. */
struct tc_heat_case {
    struct tc_glazing glazing;
    double water_volume;        /* m3, > 0, what is in the tank */
    double extra_heat_capacity; /* J/K, >= 0: glass, substrate, stones */
    double activity;            /* of the surface, 0 to 10: TC_ACTIVITY_CALM, above 1 aerated */
    double loss_factor;         /* all losses times this: 1 as computed, else as fitted (heat_calibrate.h) */
    double fresh_flow;          /* m3/s, >= 0: cold water that changes bring, spread evenly */
    double fresh_temperature;   /* of it */

    double set_temperature;   /* 273.15 to 323.15 */
    double limit_temperature; /* above it the year says so */
    double heater_power;      /* W, of all heaters; 0 for none, INFINITY for one that always suffices */

    double gain_steady; /* W, >= 0: heat in the water from what runs day and night (pumps, air) */
    double gain_light;  /* W, >= 0: heat in the water while the light is on */
    double light_begin; /* hour of the day, 0 up to 24 */
    double light_hours; /* 0 to 24 */

    double room_temperature[12]; /* mean of each month */
    double room_swing;           /* K, 0 to 30: warmest less mean hour, half of peak to peak */
    double room_humidity[12];    /* relative, 0 to 1, at the mean temperature */

    const struct tc_heat_frame *frame; /* of a case like this but for lid, parts and gains; or NULL */
};

/* TC_RANGE where a figure of the case is outside its range or is NaN. */
enum tc_status tc_heat_check(const struct tc_heat_case *c);

#endif
