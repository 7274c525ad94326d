/* SPDX-License-Identifier: MIT */
/*
 * heat.h - a heated tank through the year.
 *
 * A tank is one lump of water in a room whose air follows a sine through the day about a
 * mean for each month, with the same vapour content all day. It loses heat by its panes,
 * bottom, lid and surface (glazing.h) and by evaporation (vapour.h), gains some from pumps and
 * lamps, and has a heater on a thermostat (thermostat.h). Each month its days are followed
 * hour by hour until one repeats the last; the rest of the month is like that day. A month
 * starts where the one before ended. Gains are credited in full and the heater never takes heat
 * away, so a tank that lamps and pumps alone hold above its set point has no heating bill.
 *
 * The loss by evaporation is exact at the set point; away from it, it runs along the chord from there to the
 * temperature at which the month's mean day would settle. The room's temperature and the light are averaged
 * over each hour. Against an integration by the minute of all 365 days without these simplifications the
 * year's energy agrees within 0.5 % (tests/core/test_heat.c).
 *
 * Limits: no ice, no chiller, no sun on the tank, no heat from fish, bottom fed by no cable; the room is not
 * warmed by the tank; dry loss is linear, for a tank warmer than its room.
 *
 * All functions are pure, and take time of the order of a microsecond.
 */
#ifndef TC_CORE_HEAT_H
#define TC_CORE_HEAT_H

#include <stdbool.h>

#include "core/glazing.h"
#include "core/status.h"

/*
 * Heat capacity of a cubic metre of water, J/(m3 K): 997.05 kg/m3 times 4180 J/(kg K) at 25
 * degrees Celsius (Cengel, table A-9).
 */
#define TC_WATER_HEAT_CAPACITY 4.168e6

/* Of glass, J/(kg K) (EN 572-1); wet sand and gravel is close to 800 (common practice, no source). */
#define TC_GLASS_HEAT_CAPACITY 720.0

/* The hour of the day at which a room is warmest (common practice, no source). */
#define TC_WARMEST_HOUR 15.0

/* Days of each month of a common year. */
extern const int tc_days_of_month[12];

/* Temperatures in K, 233.15 to 373.15 unless noted; the range of each figure stands beside it. */
struct tc_heat_case {
    struct tc_glazing glazing;
    double water_volume;        /* m3, > 0, what is in the tank */
    double extra_heat_capacity; /* J/K, >= 0: glass, substrate, stones */
    double activity;            /* of the surface, 0 to 10: TC_ACTIVITY_CALM, above 1 aerated */
    double loss_factor;         /* all losses times this, 0.01 to 100: 1 as computed, else fitted */

    double set_temperature;   /* 273.15 to 323.15 */
    double limit_temperature; /* above it the year says so */
    double heater_power;      /* W, of all heaters; 0 for none, INFINITY for one that always suffices */

    double gain_steady; /* W, >= 0: heat in the water from what runs day and night (pumps, air) */
    double gain_light;  /* W, >= 0: heat in the water while the light is on */
    double light_begin; /* hour of the day, 0 up to 24 (tc_light_begin_at_noon) */
    double light_hours; /* 0 to 24 */

    double room_temperature[12]; /* mean of each month */
    double room_swing;           /* K, 0 to 30: warmest less mean hour, half of peak to peak */
    double room_humidity[12];    /* relative, 0 to 1, at the mean temperature */
};

/* Heat lost in a year by way of each surface, J. Negative where the room heated the tank. */
struct tc_heat_losses {
    double sides, bottom;
    double surface; /* open water, dry: convection and radiation */
    double lid;
    double evaporation;
};

/* What a year brings. Months 0 to 11, hours 0 to 23; energies in J, temperatures in K. */
struct tc_heat_year {
    double heater[12][24]; /* by month and hour of the day, summed over the month's days */
    double heater_total;
    struct tc_heat_losses loss;
    double gain_steady, gain_light;
    double stored; /* in the water from the year's start to its end, as good as 0 */

    double evaporated[12]; /* m3 of water */
    double evaporated_total;

    double water_lowest[12], water_highest[12]; /* on the day that repeats */
    double hottest;                             /* of the year */
    int hottest_month;
    bool above_limit; /* hottest is above limit_temperature */

    int coldest_month; /* the one in which holding the set point asks for most heat */
    double duty;       /* share of that month the heater is on at full power; 0 without a heater or limit */
    double shortfall;  /* K the water falls below the set point in that month, 0 if it is held */
    double unserved;   /* W missing in that month's coldest hour, 0 if the heater suffices */
};

/* TC_RANGE where a figure of the case is outside its range or is no number. */
enum tc_status tc_heat_check(const struct tc_heat_case *c);

/* The year. TC_RANGE as above; *year is then untouched. */
enum tc_status tc_heat_year(const struct tc_heat_case *c, struct tc_heat_year *year);

/* Sum of a year's losses, J. */
double tc_heat_loss_total(const struct tc_heat_losses *loss);

/*
 * Loss in W of a case at its set point, in a room of that temperature (K) and relative
 * humidity, loss factor applied and gains not taken off. The case must have passed tc_heat_check.
 */
double tc_heat_loss_at(const struct tc_heat_case *c, double room_temperature, double humidity);

/*
 * Power in W that a heater needs: the loss in the coldest hour of the year, less the steady gain,
 * with the light off, times 1 + margin (0.25 for a quarter more). Never below what holds the
 * set point; 0 where no heater is needed. The case's own heater is not looked at. TC_RANGE for a bad case
 * or a margin outside 0 to 10.
 */
enum tc_status tc_heat_needed_power(const struct tc_heat_case *c, double margin, double *power);

#endif
