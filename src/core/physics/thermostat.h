/* SPDX-License-Identifier: MIT */
/*
 * thermostat.h - one lump of water with a heater on a thermostat, solved in closed form.
 *
 *     C d(theta)/dt = net + heater - K theta
 *
 * theta (K) is how far the water is above the set point, net (W) what the water would gain
 * without its heater if it were at the set point, K (W/K) how the loss grows with theta, C (J/K)
 * its heat capacity. The thermostat is ideal: below the set point the heater gives all it has,
 * above it nothing, and on it just what holds the water there, which is what a real one gives on
 * average. Over a stretch of time net is constant, so theta runs along exponentials that meet the
 * set point at most once; the length of the stretch brings no error. Where net rises or falls instead, a
 * stretch that touches the set point is cut where net passes zero, and each piece has its own mean; others
 * take the mean of all.
 */
#ifndef TC_CORE_PHYSICS_THERMOSTAT_H
#define TC_CORE_PHYSICS_THERMOSTAT_H

#include <stdbool.h>

struct tc_thermostat {
    double capacity;    /* C, J/K, > 0 */
    double conductance; /* K, W/K, > 0 */
    double power;       /* of the heater, W, >= 0; 0 is none, INFINITY one that always suffices */
};

/* A stretch of time, made for one thermostat. */
struct tc_stretch {
    double seconds;    /* > 0 */
    double resistance; /* 1 / K, K/W */
    double kept;       /* exp(-seconds K / C) */
    double push;       /* (1 - kept) / K, K/W */
    double rise;       /* W by which net is more at its end than at its beginning; net is then the mean */
};

struct tc_stretch tc_stretch_make(const struct tc_thermostat *thermostat, double seconds);

/* `count` stretches, in each of which K is more x wave W/K more than the thermostat has, and still above
 * zero. */
void tc_stretches_make(const struct tc_thermostat *thermostat, int count, const double seconds[],
                       const double wave[], double more, struct tc_stretch stretches[]);

/* What the water did over some stretches. */
struct tc_thermostat_run {
    double theta;           /* at the end */
    double integral;        /* of theta over time, K s */
    double lowest, highest; /* theta where stretches end */
    bool held;              /* the water was on the set point at some time */
};

/*
 * Follows the water from theta through `count` >= 1 stretches, with net[i] - loss as the net gain
 * of each, and writes what the heater gave in each, in J, to heat[] and theta at its end to ends[]. The first
 * law holds to rounding: C (end - start) = sum of (net - loss) seconds + sum of heat - K integral, where K is
 * the same in all of them.
 */
struct tc_thermostat_run tc_thermostat_follow(const struct tc_thermostat *thermostat, double theta, int count,
                                              const struct tc_stretch stretches[], const double net[],
                                              double loss, double heat[], double ends[]);

/* What is left of a deviation after so many stretches in which the set point is not met, 0 to 1. */
double tc_stretches_keep(int count, const struct tc_stretch stretches[]);

/*
 * Where such stretches end as they begin without meeting the set point, on theta's side of it: written to
 * *run, with what a follow would write, but that heat[] is left alone above it. False if
 * they do meet it; nothing written is of use then.
 */
bool tc_thermostat_repeat(const struct tc_thermostat *thermostat, double theta, int count,
                          const struct tc_stretch stretches[], const double net[], double loss, double heat[],
                          double ends[], struct tc_thermostat_run *run);

#endif
