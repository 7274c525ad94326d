/* SPDX-License-Identifier: MIT */
#include "core/physics/thermostat.h"

#include <math.h>

struct tc_stretch tc_stretch_make(const struct tc_thermostat *t, double seconds)
{
    return (struct tc_stretch){seconds, -expm1(-seconds * t->conductance / t->capacity)};
}

/* What the heater gives off the set point, W. */
static double heater_at(const struct tc_thermostat *t, double theta)
{
    return theta < 0 ? t->power : 0;
}

/* From the set point: stay on it if the heater can, else leave it. Returns the heat given. */
static double leave(const struct tc_thermostat *t, struct tc_stretch stretch, double net,
                    struct tc_thermostat_run *run)
{
    run->held = true;
    run->theta = 0;
    if (net <= 0 && -net <= t->power)
        return -net * stretch.seconds;
    double heater = net > 0 ? 0 : t->power;
    double target = (net + heater) / t->conductance;
    run->theta = target * stretch.decay;
    run->integral += target * stretch.seconds - run->theta * t->capacity / t->conductance;
    return heater * stretch.seconds;
}

/* A stretch that begins on the set point or comes to it. Returns the heat given. */
static double meet(const struct tc_thermostat *t, struct tc_stretch stretch, double net,
                   struct tc_thermostat_run *run)
{
    if (run->theta == 0)
        return leave(t, stretch, net, run);
    double heater = heater_at(t, run->theta);
    if (isinf(heater)) {
        double jump = -run->theta * t->capacity;
        return jump + leave(t, stretch, net, run);
    }
    double time_constant = t->capacity / t->conductance;
    double target = (net + heater) / t->conductance;
    double before = fmin(time_constant * log1p(-run->theta / target), stretch.seconds);
    run->integral += target * before + run->theta * time_constant;
    return heater * before + leave(t, tc_stretch_make(t, stretch.seconds - before), net, run);
}

struct tc_thermostat_run tc_thermostat_follow(const struct tc_thermostat *t, double theta, int count,
                                              const struct tc_stretch stretches[], const double net[],
                                              double loss, double heat[])
{
    struct tc_thermostat_run run = {.held = false};
    double lowest = INFINITY, highest = -INFINITY, integral = 0;
    double resistance = 1 / t->conductance, time_constant = t->capacity * resistance;
    double heater = heater_at(t, theta); /* changes only where the set point is met */
    for (int i = 0; i < count; i++) {
        double decay = stretches[i].decay, seconds = stretches[i].seconds;
        double target = (net[i] - loss + heater) * resistance;
        /* Written so that a stretch waits for the one before in one product and one sum only. */
        double end = theta * (1 - decay) + target * decay;
        if (theta * end > 0) { /* does not meet the set point */
            integral += target * seconds - (end - theta) * time_constant;
            theta = end;
            heat[i] = heater * seconds;
        } else {
            run.theta = theta;
            heat[i] = meet(t, stretches[i], net[i] - loss, &run);
            theta = run.theta;
            heater = heater_at(t, theta);
        }
        lowest = theta < lowest ? theta : lowest;
        highest = theta > highest ? theta : highest;
    }
    run.theta = theta;
    run.integral += integral;
    run.lowest = lowest;
    run.highest = highest;
    return run;
}
