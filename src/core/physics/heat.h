/* SPDX-License-Identifier: MIT */
/*
 * heat.h - a heated tank through the year.
 *
 * A tank is one lump of water in a room whose air follows a sine through the day about a mean for
 * each month, with the same vapour content all day. It loses heat by its panes (pane.h), bottom, lid and
 * surface (glazing.h), by evaporation (vapour.h) and by fresh water that is colder than the tank, gains
 * some from pumps and lamps, and has a heater on a thermostat (thermostat.h). Each month its days are
 * followed from hour to hour until one repeats the last; the rest of the month is like that day. A month
 * starts where the one before ended. Gains are credited in full and the heater never takes heat away, so
 * a tank that lamps and pumps alone hold above its set point has no heating bill, and fresh water none
 * either.
 *
 * How exact: on the set point losses are exact but for the room's swing, over which the sides' loss
 * follows a parabola (that of four values in a room that passes the water's temperature); away from it they
 * follow lines whose slope is that of each hour's room, and what these miss is made good where the water
 * touches the set point or is about as warm as the room (plant_follow.h). The room's wave is averaged over
 * each hour, but for hours in which the heater begins or ends; light is cut at its minute. Against steps of a
 * minute through all 365 days without these simplifications, the energy of each random year of the tests
 * agrees within 0.5 % or 0.1 kWh, whichever is more, its evaporation within 2
 * %, or 0.2 l, and its hottest water within 0.1 K (tests/core/test_heat.c).
 *
 * Limits: no ice, no chiller, no sun on the tank, no heat from fish; a room that the tank does not
 * warm (room_balance.h has one that it does); still air.
 *
 * All functions are pure. A year takes about two microseconds, up to nine where the water leaves the set
 * point (tests/bench/bench_heat.c).
 */
#ifndef TC_CORE_PHYSICS_HEAT_H
#define TC_CORE_PHYSICS_HEAT_H

#include <stdbool.h>

#include "core/base/status.h"
#include "core/physics/heat_case.h"

/* Heat lost in a year by way of each surface, J. Negative where the room heated the tank. */
struct tc_heat_losses {
    double sides, bottom;
    double surface; /* open water, dry: convection and radiation */
    double lid;
    double evaporation;
    double fresh; /* what fresh water takes until it is as warm as the tank; no factor on it */
};

/* What a year brings. Months 0 to 11, hours 0 to 23; energies in J, temperatures in K. */
struct tc_heat_year {
    double heater[12][24];   /* by month and hour of the day, summed over the month's days */
    double heater_month[12]; /* the same for whole months */
    double heater_total;
    struct tc_heat_losses loss;
    struct tc_heat_losses loss_month[12]; /* the same by month */
    double stored_month[12];              /* in the water from the month's start to its end */
    double dry_month[12];                 /* through sides, bottom, surface and lid: what the room gets */
    double gain_steady, gain_light;
    double stored; /* in the water from the year's start to its end, as good as 0 */

    double evaporated[12]; /* m3 of water */
    double evaporated_total;

    double water_lowest[12], water_highest[12]; /* at the full hours of the day that repeats */
    double water_rises; /* K that the water rises in a year in all; it falls as much */
    double hottest;     /* of the year */
    int hottest_month;
    bool above_limit; /* hottest is above limit_temperature */

    int coldest_month; /* the one in which holding the set point needs most heat */
    double duty;       /* share of that month's time the heater is on; 0 if it has no power or no limit */
    double shortfall;  /* K by which the water falls below the set point in that month */
    double unserved;   /* W missing in that month's hardest hour */
};

/*
 * Makes the frame of a case: good for all cases with the same panes, sheltered share, loss factor, set point,
 * rooms and light hours, and with it each year is the same to the bit and worked out in half the time.
 */
enum tc_status tc_heat_frame_make(const struct tc_heat_case *c, struct tc_heat_frame *frame);

/* The year. TC_RANGE as above; *year is then untouched. */
enum tc_status tc_heat_year(const struct tc_heat_case *c, struct tc_heat_year *year);

/* The day that repeats where all days are like it; W are means over the day, temperatures K. */
struct tc_heat_day {
    double heater, dry, evaporation; /* W; dry as dry_month */
    double lowest, highest, mean;    /* of the water */
};

/*
 * That day in a room of that mean temperature (K) and relative humidity at it. The case's own rooms are not
 * looked at, but its swing is. TC_RANGE as tc_heat_check, and for a room outside of its ranges.
 */
enum tc_status tc_heat_repeating_day(const struct tc_heat_case *c, double room_temperature, double humidity,
                                     struct tc_heat_day *day);

/* Sum of a year's losses, J. */
double tc_heat_loss_total(const struct tc_heat_losses *loss);

/*
 * Loss in W of a case at its set point, in a room of that temperature (K) and relative humidity,
 * with the loss factor, without fresh water and without the gains. The case must have passed tc_heat_check.
 * NAN outside the temperatures that tc_saturation_pressure knows.
 */
double tc_heat_loss_at(const struct tc_heat_case *c, double room_temperature, double humidity);

/*
 * Power in W that a heater needs: the loss in the coldest hour of the year, fresh water included, less the
 * steady gain,
 * with the light off, times 1 + margin (0.25 for a quarter more). Never below what holds the set
 * point; 0 where no heater is needed. The case's own heater is not looked at. TC_RANGE for a bad
 * case or a margin outside 0 to 10.
 */
enum tc_status tc_heat_needed_power(const struct tc_heat_case *c, double margin, double *power);

#endif
