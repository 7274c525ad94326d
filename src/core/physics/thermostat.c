/* SPDX-License-Identifier: MIT */
#include "core/physics/thermostat.h"

#include <math.h>

struct tc_stretch tc_stretch_make(const struct tc_thermostat *t, double seconds)
{
    return (struct tc_stretch){seconds, 1 / t->conductance, -expm1(-seconds * t->conductance / t->capacity),
                               0};
}

void tc_stretches_make(const struct tc_thermostat *t, int count, const double seconds[], const double more[],
                       struct tc_stretch stretches[])
{
    double rate = 1 / t->capacity;
    struct tc_stretch usual = tc_stretch_make(t, seconds[0]);
    for (int i = 0; i < count; i++) {
        if (seconds[i] != usual.seconds)
            usual = tc_stretch_make(t, seconds[i]);
        double turns = more[i] * seconds[i] * rate;
        stretches[i] = (struct tc_stretch){
            .seconds = seconds[i],
            .resistance = 1 / (t->conductance + more[i]),
            .decay = usual.decay + (1 - usual.decay) * turns * (1 - turns / 2),
        };
    }
}

/* What is left of a stretch of which `before` seconds are over. */
static struct tc_stretch rest_of(const struct tc_thermostat *t, struct tc_stretch stretch, double before)
{
    double seconds = stretch.seconds - before;
    return (struct tc_stretch){seconds, stretch.resistance,
                               -expm1(-seconds / (t->capacity * stretch.resistance)), 0};
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
    double target = (net + heater) * stretch.resistance;
    run->theta = target * stretch.decay;
    run->integral += target * stretch.seconds - run->theta * t->capacity * stretch.resistance;
    return heater * stretch.seconds;
}

/* Any stretch. Returns the heat given. */
static double pass(const struct tc_thermostat *t, struct tc_stretch stretch, double net,
                   struct tc_thermostat_run *run)
{
    if (run->theta == 0)
        return leave(t, stretch, net, run);
    double heater = heater_at(t, run->theta);
    if (isinf(heater)) {
        double jump = -run->theta * t->capacity;
        return jump + leave(t, stretch, net, run);
    }
    double time_constant = t->capacity * stretch.resistance;
    double target = (net + heater) * stretch.resistance;
    double end = run->theta * (1 - stretch.decay) + target * stretch.decay;
    if (run->theta * end > 0) {
        run->integral += target * stretch.seconds - (end - run->theta) * time_constant;
        run->theta = end;
        return heater * stretch.seconds;
    }
    double before = fmin(time_constant * log1p(-run->theta / target), stretch.seconds);
    run->integral += target * before + run->theta * time_constant;
    return heater * before + leave(t, rest_of(t, stretch, before), net, run);
}

/*
 * A stretch that touches the set point. It is cut where net passes zero, and the heater has to begin or to
 * end. Returns the heat given.
 */
static double meet(const struct tc_thermostat *t, struct tc_stretch stretch, double net,
                   struct tc_thermostat_run *run)
{
    double begin = net - stretch.rise / 2, end = net + stretch.rise / 2;
    if ((begin < 0) == (end < 0))
        return pass(t, stretch, net, run);
    double share = -begin / stretch.rise;
    struct tc_stretch last = rest_of(t, stretch, share * stretch.seconds);
    struct tc_stretch first = rest_of(t, stretch, last.seconds);
    double heat = pass(t, first, begin / 2, run);
    return heat + pass(t, last, end / 2, run);
}

struct tc_thermostat_run tc_thermostat_follow(const struct tc_thermostat *t, double theta, int count,
                                              const struct tc_stretch stretches[], const double net[],
                                              double loss, double heat[], double ends[])
{
    struct tc_thermostat_run run = {.held = false};
    double lowest = INFINITY, highest = -INFINITY, integral = 0;
    double heater = heater_at(t, theta); /* changes only where the set point is met */
    for (int i = 0; i < count; i++) {
        double decay = stretches[i].decay, seconds = stretches[i].seconds;
        double resistance = stretches[i].resistance;
        double target = (net[i] - loss + heater) * resistance;
        /* Written so that a stretch waits for the one before in one product and one sum only. */
        double end = theta * (1 - decay) + target * decay;
        if (theta * end > 0) { /* does not meet the set point */
            integral += target * seconds - (end - theta) * (t->capacity * resistance);
            theta = end;
            heat[i] = heater * seconds;
        } else {
            run.theta = theta;
            heat[i] = meet(t, stretches[i], net[i] - loss, &run);
            theta = run.theta;
            heater = heater_at(t, theta);
        }
        ends[i] = theta;
        lowest = theta < lowest ? theta : lowest;
        highest = theta > highest ? theta : highest;
    }
    run.theta = theta;
    run.integral += integral;
    run.lowest = lowest;
    run.highest = highest;
    return run;
}
