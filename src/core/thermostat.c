/* SPDX-License-Identifier: MIT */
#include "core/thermostat.h"

#include <math.h>

struct tc_thermostat tc_thermostat_make(double capacity, double conductance, double power, double step)
{
    return (struct tc_thermostat){
        .capacity = capacity,
        .conductance = conductance,
        .power = power,
        .step = step,
        .decay = -expm1(-step * conductance / capacity),
    };
}

/* Lets theta run towards target for a time whose 1 - exp(-time K / C) is decay; returns its integral. */
static double run(const struct tc_thermostat *t, double target, double time, double decay, double *theta)
{
    double change = (target - *theta) * decay;
    *theta += change;
    return target * time - change * t->capacity / t->conductance;
}

/* From the set point, for a time whose decay is given: stay on it if the heater can, else leave it. */
static double from_set_point(const struct tc_thermostat *t, double net, double time, double decay,
                             double *theta, struct tc_thermostat_sum *sum)
{
    sum->held = true;
    *theta = 0;
    if (net <= 0 && -net <= t->power)
        return -net * time;
    double heater = net > 0 ? 0 : t->power;
    sum->integral += run(t, (net + heater) / t->conductance, time, decay, theta);
    return heater * time;
}

/* The step meets the set point after `before` seconds, during which the heater gave `heater` watts. */
static double across_set_point(const struct tc_thermostat *t, double net, double heater, double before,
                               double *theta, struct tc_thermostat_sum *sum)
{
    double rate = t->conductance / t->capacity;
    double target = (net + heater) / t->conductance;
    sum->integral += target * before + *theta / rate;
    double rest = t->step - before;
    return heater * before + from_set_point(t, net, rest, -expm1(-rest * rate), theta, sum);
}

double tc_thermostat_step(const struct tc_thermostat *t, double net, double *theta,
                          struct tc_thermostat_sum *sum)
{
    if (*theta == 0)
        return from_set_point(t, net, t->step, t->decay, theta, sum);
    if (*theta < 0 && isinf(t->power)) {
        double jump = -*theta * t->capacity;
        return jump + from_set_point(t, net, t->step, t->decay, theta, sum);
    }
    double heater = *theta < 0 ? t->power : 0;
    double target = (net + heater) / t->conductance;
    if ((*theta < 0 && target > 0) || (*theta > 0 && target < 0)) {
        double before = t->capacity / t->conductance * log1p(-*theta / target);
        if (before < t->step)
            return across_set_point(t, net, heater, before, theta, sum);
    }
    sum->integral += run(t, target, t->step, t->decay, theta);
    return heater * t->step;
}
