/* SPDX-License-Identifier: MIT */
/* The heated lump against closed forms and against small steps. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/physics/thermostat.h"
#include "support/heat_cases.h"
#include "support/near.h"

#define HOUR 3600.0

static struct tc_thermostat_run follow(const struct tc_thermostat *t, double theta, double net,
                                       double seconds, double *heat)
{
    struct tc_stretch stretch = tc_stretch_make(t, seconds);
    double end;
    return tc_thermostat_follow(t, theta, 1, &stretch, &net, 0, heat, &end);
}

/* Newton's law of cooling: theta(t) = A + (theta0 - A) exp(-t K / C), A where gains and losses meet. */
static void without_a_heater_water_cools_exponentially(void **state)
{
    (void)state;
    const struct tc_thermostat t = {.capacity = 4e5, .conductance = 10, .power = 0};
    const double ambient = -6, start = 3, net = 10 * ambient;
    struct tc_stretch day[24];
    double nets[24], heat[24], ends[24];
    for (int i = 0; i < 24; i++) {
        day[i] = tc_stretch_make(&t, HOUR);
        nets[i] = net;
    }
    struct tc_thermostat_run run = tc_thermostat_follow(&t, start, 24, day, nets, 0, heat, ends);
    double left = exp(-24 * HOUR * 10 / 4e5);
    assert_near(run.theta, ambient + (start - ambient) * left, 1e-12);
    /* Its integral: A t + (theta0 - A) (1 - exp(-t / tau)) tau. */
    assert_near(run.integral, ambient * 24 * HOUR + (start - ambient) * (1 - left) * 4e4, 1e-7);
    for (int i = 0; i < 24; i++)
        assert_near(heat[i], 0, 0);
    assert_near(run.lowest, run.theta, 0);
    assert_near(ends[23], run.theta, 0);
    assert_near(ends[11], ambient + (start - ambient) * exp(-12 * HOUR / 4e4), 1e-12);
    assert_near(run.highest, ambient + (start - ambient) * exp(-HOUR / 4e4), 1e-12);
}

static void on_the_set_point_the_heater_gives_the_loss(void **state)
{
    (void)state;
    const struct tc_thermostat t = {.capacity = 4e5, .conductance = 10, .power = 100};
    double heat;
    struct tc_thermostat_run run = follow(&t, 0, -60, HOUR, &heat);
    assert_near(heat, 60 * HOUR, 1e-9);
    assert_near(run.theta, 0, 0);
    assert_near(run.integral, 0, 0);
    assert_true(run.held);
    /* The last watt it has, and one more. */
    run = follow(&t, 0, -100, HOUR, &heat);
    assert_near(run.theta, 0, 0);
    run = follow(&t, 0, -101, HOUR, &heat);
    assert_true(run.theta < 0);
    assert_near(heat, 100 * HOUR, 1e-9);
    /* Gains alone: the heater rests. */
    run = follow(&t, 0, 5, HOUR, &heat);
    assert_true(run.theta > 0);
    assert_near(heat, 0, 0);
}

/* Heating up from below: the time is tau ln((A - theta0) / A) with A = (net + P) / K. */
static void cold_water_is_heated_to_the_set_point_and_held(void **state)
{
    (void)state;
    const struct tc_thermostat t = {.capacity = 4e5, .conductance = 10, .power = 200};
    const double start = -2, net = -60, target = 14;
    double time = 4e4 * log((target - start) / target), heat;
    assert_true(time < 2 * HOUR);
    struct tc_thermostat_run run = follow(&t, start, net, 2 * HOUR, &heat);
    assert_near(run.theta, 0, 0);
    assert_near(heat, 200 * time + 60 * (2 * HOUR - time), 1e-6);
    /* A heater without limit does it at once. */
    const struct tc_thermostat strong = {.capacity = 4e5, .conductance = 10, .power = INFINITY};
    run = follow(&strong, start, net, HOUR, &heat);
    assert_near(run.theta, 0, 0);
    assert_near(heat, 2 * 4e5 + 60 * HOUR, 1e-6);
}

static void warm_water_drifts_down_to_the_set_point(void **state)
{
    (void)state;
    const struct tc_thermostat t = {.capacity = 4e5, .conductance = 10, .power = 50};
    double heat, time = 4e4 * log((0.5 + 3) / 3.0);
    struct tc_thermostat_run run = follow(&t, 0.5, -30, 3 * HOUR, &heat);
    assert_near(heat, 30 * (3 * HOUR - time), 1e-6);
    /* Falls through it when the heater is too weak: towards (-80 + 50) / 10. */
    run = follow(&t, 0.5, -80, 3 * HOUR, &heat);
    double before = 4e4 * log((0.5 + 8) / 8.0);
    assert_near(run.theta, -3 * (1 - exp(-(3 * HOUR - before) / 4e4)), 1e-12);
    assert_near(heat, 50 * (3 * HOUR - before), 1e-6);
}

static void many_stretches_are_one(void **state)
{
    (void)state;
    uint64_t seed = 3;
    for (int trial = 0; trial < 2000; trial++) {
        struct tc_thermostat t = {.capacity = exp(tc_random_between(&seed, 9, 16)),
                                  .conductance = exp(tc_random_between(&seed, -1, 5)),
                                  .power = tc_random_between(&seed, 0, 500)};
        double start = trial % 5 == 0 ? 0 : tc_random_between(&seed, -3, 3);
        double net = tc_random_between(&seed, -300, 300);
        double whole;
        struct tc_thermostat_run once = follow(&t, start, net, HOUR, &whole);
        struct tc_stretch minutes[60];
        double nets[60], heat[60], ends[60], sum = 0;
        for (int i = 0; i < 60; i++) {
            minutes[i] = tc_stretch_make(&t, 60);
            nets[i] = net + 7;
        }
        struct tc_thermostat_run often = tc_thermostat_follow(&t, start, 60, minutes, nets, 7, heat, ends);
        for (int i = 0; i < 60; i++)
            sum += heat[i];
        assert_near(often.theta, once.theta, 1e-9);
        assert_near(sum, whole, 1e-8 * (1 + whole));
        assert_near(often.integral, once.integral, 1e-8 * (1 + fabs(once.integral)));
    }
}

static void the_first_law_holds_in_every_stretch(void **state)
{
    (void)state;
    uint64_t seed = 11;
    for (int trial = 0; trial < 20000; trial++) {
        struct tc_thermostat t = {.capacity = exp(tc_random_between(&seed, 9, 16)),
                                  .conductance = exp(tc_random_between(&seed, -1, 5)),
                                  .power = trial % 7 == 0 ? INFINITY : tc_random_between(&seed, 0, 500)};
        double start = trial % 5 == 0 ? 0 : tc_random_between(&seed, -3, 3);
        double net = tc_random_between(&seed, -300, 300), heat;
        struct tc_thermostat_run run = follow(&t, start, net, HOUR, &heat);
        double in = net * HOUR + heat - t.conductance * run.integral;
        double size = fabs(net) * HOUR + heat + t.capacity * fabs(start);
        assert_near(t.capacity * (run.theta - start), in, 1e-12 * size);
        assert_true(heat >= 0);
        assert_true(heat <= t.power * HOUR * (1 + 1e-12));
    }
}

/* The same by a thousand Euler steps a minute, which know nothing of exponentials. */
static void small_steps_give_the_same(void **state)
{
    (void)state;
    uint64_t seed = 5;
    for (int trial = 0; trial < 40; trial++) {
        struct tc_thermostat t = {.capacity = tc_random_between(&seed, 1e4, 1e6),
                                  .conductance = tc_random_between(&seed, 1, 30),
                                  .power = tc_random_between(&seed, 0, 300)};
        double start = tc_random_between(&seed, -1, 1), net = tc_random_between(&seed, -200, 200), heat;
        struct tc_thermostat_run run = follow(&t, start, net, HOUR, &heat);
        const double step = 0.06;
        double theta = start, given = 0;
        for (int i = 0; i < 60000; i++) {
            double free = net - t.conductance * theta;
            double heater = fmin(fmax(-theta * t.capacity / step - free, 0), t.power);
            theta += (free + heater) * step / t.capacity;
            given += heater * step;
        }
        assert_near(run.theta, theta, 1e-4 * (1 + fabs(theta)));
        assert_near(heat, given, 1e-4 * (100 * HOUR));
    }
}

/* Net runs along a straight line, and the conductance is another in every stretch: small steps again. */
static void bent_stretches_are_small_steps(void **state)
{
    (void)state;
    uint64_t seed = 41;
    for (int trial = 0; trial < 40; trial++) {
        const struct tc_thermostat t = {.capacity = tc_random_between(&seed, 1e5, 1e6),
                                        .conductance = tc_random_between(&seed, 4, 20),
                                        .power = 300};
        const double seconds[2] = {HOUR, HOUR / 2};
        const double wave[2] = {tc_random_between(&seed, -1, 1), 0}, more = 0.3 * t.conductance;
        struct tc_stretch parts[2];
        tc_stretches_make(&t, 2, seconds, wave, more, parts);
        double net[2], heat[2], ends[2], theta = 0, given[2] = {0};
        for (int i = 0; i < 2; i++) {
            net[i] = tc_random_between(&seed, -40, 40);
            parts[i].rise = tc_random_between(&seed, -60, 60);
        }
        tc_thermostat_follow(&t, 0, 2, parts, net, 0, heat, ends);
        for (int i = 0; i < 2; i++) {
            const int steps = 20000;
            double step = seconds[i] / steps;
            for (int k = 0; k < steps; k++) {
                double at = net[i] + parts[i].rise * ((k + 0.5) / steps - 0.5);
                double free = at - (t.conductance + more * wave[i]) * theta;
                double heater = fmin(fmax(-theta * t.capacity / step - free, 0), t.power);
                theta += (free + heater) * step / t.capacity;
                given[i] += heater * step;
            }
            assert_near(ends[i], theta, 0.01 * 60 * HOUR / t.capacity);
            assert_near(heat[i], given[i], 0.01 * 60 * HOUR);
        }
    }
}

/* A day followed over and over ends where the one that repeats is said to, and does what is said of it. */
static void the_day_that_repeats_is_the_end_of_many(void **state)
{
    (void)state;
    enum { PARTS = 6 };
    uint64_t seed = 43;
    int off = 0;
    for (int trial = 0; trial < 60; trial++) {
        const struct tc_thermostat t = {.capacity = tc_random_between(&seed, 2e4, 1e6),
                                        .conductance = tc_random_between(&seed, 4, 20),
                                        .power = 30};
        double seconds[PARTS], wave[PARTS], net[PARTS], heat[PARTS], ends[PARTS], heats[PARTS], all[PARTS];
        double side = trial % 2 ? -1 : 1;
        for (int i = 0; i < PARTS; i++) {
            seconds[i] = HOUR * tc_random_between(&seed, 1, 6);
            wave[i] = tc_random_between(&seed, -0.3, 0.3);
            net[i] = side * tc_random_between(&seed, 0, 90);
        }
        struct tc_stretch parts[PARTS];
        tc_stretches_make(&t, PARTS, seconds, wave, t.conductance, parts);
        struct tc_thermostat_run run, day = {.theta = side * 5};
        if (!tc_thermostat_repeat(&t, side, PARTS, parts, net, 2, heat, ends, &run))
            continue;
        off++;
        for (int i = 0; i < 2000; i++)
            day = tc_thermostat_follow(&t, day.theta, PARTS, parts, net, 2, heats, all);
        assert_near(run.theta, day.theta, 1e-9 * fabs(day.theta));
        assert_near(run.integral, day.integral, 1e-9 * fabs(day.integral));
        assert_near(run.lowest, day.lowest, 1e-9);
        assert_near(run.highest, day.highest, 1e-9);
        for (int i = 0; i < PARTS; i++) {
            assert_near(ends[i], all[i], 1e-9);
            assert_near(side < 0 ? heat[i] : 0, heats[i], 1e-9);
        }
    }
    assert_true(off > 30);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_day_that_repeats_is_the_end_of_many),
        cmocka_unit_test(without_a_heater_water_cools_exponentially),
        cmocka_unit_test(on_the_set_point_the_heater_gives_the_loss),
        cmocka_unit_test(cold_water_is_heated_to_the_set_point_and_held),
        cmocka_unit_test(warm_water_drifts_down_to_the_set_point),
        cmocka_unit_test(many_stretches_are_one),
        cmocka_unit_test(the_first_law_holds_in_every_stretch),
        cmocka_unit_test(small_steps_give_the_same),
        cmocka_unit_test(bent_stretches_are_small_steps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
