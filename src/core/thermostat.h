/* SPDX-License-Identifier: MIT */
/*
 * thermostat.h - one lump of water with a heater on a thermostat, solved in closed form.
 *
 *     C d(theta)/dt = net + heater - K theta
 *
 * theta (K) is how far the water is above the set point, net (W) what the water would gain
 * without its heater if it were at the set point, K (W/K) how the loss grows with theta, C (J/K) its
 * heat capacity. The thermostat is ideal: below the set point the heater gives all it has,
 * above it nothing, and on it just what holds the water there, which is what a real one
 * gives on average. Over a step net is constant, so theta runs along exponentials that
 * meet the set point at most once; no error comes from the length of the step.
 */
#ifndef TC_CORE_THERMOSTAT_H
#define TC_CORE_THERMOSTAT_H

#include <stdbool.h>

struct tc_thermostat {
    double capacity;    /* J/K, > 0 */
    double conductance; /* W/K, > 0 */
    double power;       /* W, >= 0; 0 is no heater, INFINITY one that always suffices */
    double step;        /* s, > 0 */
    double decay;       /* 1 - exp(-step conductance / capacity): set by tc_thermostat_make */
};

struct tc_thermostat tc_thermostat_make(double capacity, double conductance, double power, double step);

/* Sums over the steps since the caller set them to zero. */
struct tc_thermostat_sum {
    double integral; /* of theta over time, K s */
    bool held;       /* the water was on the set point at some time */
};

/*
 * Follows one step from *theta, leaves its end there, adds to sum, and returns what the heater gave, J.
 * The first law holds to rounding: C (end - start) = step net + heat - K integral.
 */
double tc_thermostat_step(const struct tc_thermostat *thermostat, double net, double *theta,
                          struct tc_thermostat_sum *sum);

#endif
