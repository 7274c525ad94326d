/* SPDX-License-Identifier: MIT */
/*
 * heat_calibrate.h - a tank's losses from a meter instead of from its figures.
 *
 * A keeper reads off a plug-in meter what the heater of a tank used in a week, and knows how warm
 * the room was. The loss factor that makes the model use as much takes the place of 1 for that
 * tank and, with less right, for others equipped like it.
 */
#ifndef TC_CORE_PHYSICS_HEAT_CALIBRATE_H
#define TC_CORE_PHYSICS_HEAT_CALIBRATE_H

#include "core/physics/heat.h"
#include "core/base/status.h"

/* What a keeper measured with a plug-in meter on the heater alone. */
struct tc_heat_measure {
    double energy;           /* J, >= 0 */
    double days;             /* > 0, commonly 7 */
    double room_temperature; /* K, mean over that time */
    double room_humidity;    /* relative, 0 to 1 */
};

/*
 * The loss factor with which the model, with the case's gains, light and heater, in a steady room,
 * uses the energy measured. The case's own loss factor, room and swing are not looked at.
 *
 * TC_NO_RESULT where the heater never ran or ran all the time, which says nothing about the losses,
 * and where no factor from TC_LOSS_FACTOR_LEAST to TC_LOSS_FACTOR_MOST uses as much: the room is too
 * warm, or the meter was on something else. TC_RANGE for figures that are negative, out of range or
 * no numbers.
 */
enum tc_status tc_heat_calibrate(const struct tc_heat_case *c, const struct tc_heat_measure *measure,
                                 double *loss_factor);

#endif
