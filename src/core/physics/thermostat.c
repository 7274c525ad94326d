/* SPDX-License-Identifier: MIT */
#include "core/physics/thermostat.h"

#include <math.h>

/* 1 - exp(-x): up to so much, which nearly all stretches have, by a series that is true to 3e-14 of it. */
static inline double decay_of(double x)
{
    if (x > 0.1)
        return -expm1(-x);
    double rest = 1.0 / 720 - x * (1.0 / 5040 - x * (1.0 / 40320));
    return x * (1 - x * (1.0 / 2 - x * (1.0 / 6 - x * (1.0 / 24 - x * (1.0 / 120 - x * rest)))));
}

/* A stretch in which K / C is so much, 1/s, and K is 1 / resistance. */
static inline struct tc_stretch stretch_of(double seconds, double resistance, double rate)
{
    double decay = decay_of(seconds * rate);
    return (struct tc_stretch){seconds, resistance, 1 - decay, resistance * decay, 0};
}

struct tc_stretch tc_stretch_make(const struct tc_thermostat *t, double seconds)
{
    return stretch_of(seconds, 1 / t->conductance, t->conductance / t->capacity);
}

void tc_stretches_make(const struct tc_thermostat *t, int count, const double seconds[], const double wave[],
                       double more, struct tc_stretch stretches[])
{
    double rate = 1 / t->capacity, usual = seconds[0], kept = tc_stretch_make(t, usual).kept;
    for (int i = 0; i < count; i++) {
        if (seconds[i] != usual) {
            usual = seconds[i];
            kept = tc_stretch_make(t, usual).kept;
        }
        double added = more * wave[i], turns = added * usual * rate;
        double resistance = 1 / (t->conductance + added);
        double left = kept * (1 - turns * (1 - turns * (1.0 / 2 - turns * (1.0 / 6))));
        stretches[i] = (struct tc_stretch){usual, resistance, left, resistance * (1 - left), 0};
    }
}

/* What is left of a stretch of which `before` seconds are over. */
static struct tc_stretch rest_of(const struct tc_thermostat *t, struct tc_stretch stretch, double before)
{
    return stretch_of(stretch.seconds - before, stretch.resistance, 1 / (t->capacity * stretch.resistance));
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
    run->theta = (net + heater) * stretch.push;
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
    double end = run->theta * stretch.kept + (net + heater) * stretch.push;
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
    double lowest = INFINITY, highest = -INFINITY, integral = 0, capacity = t->capacity;
    double heater = heater_at(t, theta); /* changes only where the set point is met */
    for (int i = 0; i < count; i++) {
        const struct tc_stretch *s = &stretches[i];
        double flow = net[i] - loss + heater;
        /* Written so that a stretch waits for the one before in one product and one sum only. */
        double end = theta * s->kept + flow * s->push;
        if (theta * end > 0) { /* does not meet the set point */
            integral += (flow * s->seconds - (end - theta) * capacity) * s->resistance;
            theta = end;
            heat[i] = heater * s->seconds;
        } else {
            run.theta = theta;
            heat[i] = meet(t, *s, net[i] - loss, &run);
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

double tc_stretches_keep(int count, const struct tc_stretch stretches[])
{
    double kept = 1;
    for (int i = 0; i < count; i++)
        kept *= stretches[i].kept;
    return kept;
}

bool tc_thermostat_repeat(const struct tc_thermostat *t, double theta, int count,
                          const struct tc_stretch stretches[], const double net[], double loss, double heat[],
                          double ends[], struct tc_thermostat_run *run)
{
    double heater = heater_at(t, theta), more = heater - loss, from_zero = 0, kept = 1;
    for (int i = 0; i < count; i++) {
        ends[i] = from_zero = from_zero * stretches[i].kept + (net[i] + more) * stretches[i].push;
        kept *= stretches[i].kept;
    }
    double begin = from_zero / (1 - kept), left = begin;
    double at = begin, lowest = begin, highest = begin, integral = 0, capacity = t->capacity;
    for (int i = 0; i < count; i++) {
        const struct tc_stretch *s = &stretches[i];
        left *= s->kept;
        double next = ends[i] + left;
        integral += ((net[i] + more) * s->seconds - (next - at) * capacity) * s->resistance;
        ends[i] = at = next;
        lowest = at < lowest ? at : lowest;
        highest = at > highest ? at : highest;
    }
    for (int i = 0; theta < 0 && i < count; i++)
        heat[i] = heater * stretches[i].seconds;
    *run = (struct tc_thermostat_run){begin, integral, lowest, highest, false};
    return theta < 0 ? highest < 0 : lowest > 0;
}
