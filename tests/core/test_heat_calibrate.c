/* SPDX-License-Identifier: MIT */
/* The loss factor from a meter: what the model makes of a factor, the fit turns back into it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/physics/heat_calibrate.h"
#include "support/heat_cases.h"
#include "support/near.h"

#define WEEK (7 * 86400.0)

/* Heater energy of a week in a steady room. */
static double week_of(struct tc_heat_case c, double factor, double room, double humidity)
{
    c.loss_factor = factor;
    c.room_swing = 0;
    for (int i = 0; i < 12; i++) {
        c.room_temperature[i] = room;
        c.room_humidity[i] = humidity;
    }
    struct tc_heat_year y;
    assert_int_equal(tc_heat_year(&c, &y), TC_OK);
    return y.heater_total * 7 / 365;
}

/* A covered tank by hand: the meter says 4.2 kWh in a week, so 25 W; pump and light give 5 + 7.5 * 9 / 24 W.
 */
static void a_week_by_hand(void **state)
{
    (void)state;
    struct tc_heat_case c = tc_plain_case();
    struct tc_heat_measure measure = {4.2 * 3.6e6, 7, 293.15, 0.5};
    double factor;
    assert_int_equal(tc_heat_calibrate(&c, &measure, &factor), TC_OK);
    c.loss_factor = 1;
    assert_near(factor, (25 + 5 + 7.5 * 9 / 24) / tc_heat_loss_at(&c, 293.15, 0.5), 1e-9);
    assert_near(week_of(c, factor, 293.15, 0.5), measure.energy, 1e-9 * measure.energy);
}

/* Steady state with only a pump: UA = P / (T_water - T_air), as keepers measure a covered tank
 * (fins.actwin.com, nanf, January 1999, "How to determine heat transfer", seen). */
static void a_pump_alone_measures_the_conductance(void **state)
{
    (void)state;
    struct tc_heat_case c = tc_plain_case();
    c.glazing.covered_share = 1;
    c.gain_light = 0;
    c.gain_steady = 0;
    struct tc_heat_measure measure = {30 * WEEK, 7, 293.15, 0.5};
    double factor;
    assert_int_equal(tc_heat_calibrate(&c, &measure, &factor), TC_OK);
    struct tc_conductance k = tc_glazing_conductance(&c.glazing, c.set_temperature);
    struct tc_pane pane = tc_glazing_pane(&c.glazing);
    double sides = tc_side_area(&c.glazing) * tc_pane_flux(&pane, c.set_temperature, 293.15);
    assert_near(factor * (sides + 5 * (k.bottom + k.lid)), 30, 1e-9);
}

static void fitting_undoes_the_model(void **state)
{
    (void)state;
    uint64_t seed = 41;
    int fitted = 0;
    for (int i = 0; i < 600; i++) {
        struct tc_heat_case c = tc_random_case(&seed);
        double factor = tc_random_between(&seed, 0.5, 2), room = tc_random_between(&seed, 285, 298), found;
        struct tc_heat_measure measure = {week_of(c, factor, room, 0.5), 7, room, 0.5};
        enum tc_status status = tc_heat_calibrate(&c, &measure, &found);
        if (measure.energy == 0 || measure.energy >= c.heater_power * WEEK * (1 - 1e-9)) {
            assert_int_equal(status, TC_NO_RESULT);
            continue;
        }
        assert_int_equal(status, TC_OK);
        assert_near(week_of(c, found, room, 0.5), measure.energy, 1e-6 * measure.energy);
        assert_near(found, factor, 1e-5 * factor);
        fitted++;
    }
    assert_true(fitted > 200);
}

static void impossible_measures_have_no_result(void **state)
{
    (void)state;
    struct tc_heat_case c = tc_plain_case();
    double factor;
    struct tc_heat_measure more_than_the_heater = {151 * WEEK, 7, 293.15, 0.5};
    assert_int_equal(tc_heat_calibrate(&c, &more_than_the_heater, &factor), TC_NO_RESULT);
    struct tc_heat_measure nothing = {0, 7, 293.15, 0.5};
    assert_int_equal(tc_heat_calibrate(&c, &nothing, &factor), TC_NO_RESULT);
    /* A room warmer than the water, its air as moist as the water could make it. */
    struct tc_heat_measure tropics = {20 * WEEK, 7, 305.15, 1};
    assert_int_equal(tc_heat_calibrate(&c, &tropics, &factor), TC_NO_RESULT);
    c.heater_power = 0;
    struct tc_heat_measure some = {20 * WEEK, 7, 293.15, 0.5};
    assert_int_equal(tc_heat_calibrate(&c, &some, &factor), TC_NO_RESULT);
}

static void bad_figures_are_refused(void **state)
{
    (void)state;
    struct tc_heat_case c = tc_plain_case();
    const struct tc_heat_measure good = {20 * WEEK, 7, 293.15, 0.5};
    static const double bad[] = {-1, NAN, INFINITY};
    double factor;
    assert_int_equal(tc_heat_calibrate(&c, &good, &factor), TC_OK);
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        struct tc_heat_measure m = good;
        m.energy = bad[i];
        assert_int_equal(tc_heat_calibrate(&c, &m, &factor), TC_RANGE);
        m = good;
        m.days = bad[i];
        assert_int_equal(tc_heat_calibrate(&c, &m, &factor), TC_RANGE);
        m = good;
        m.room_temperature = bad[i];
        assert_int_equal(tc_heat_calibrate(&c, &m, &factor), TC_RANGE);
        m = good;
        m.room_humidity = bad[i];
        assert_int_equal(tc_heat_calibrate(&c, &m, &factor), TC_RANGE);
    }
    struct tc_heat_measure m = good;
    m.days = 0;
    assert_int_equal(tc_heat_calibrate(&c, &m, &factor), TC_RANGE);
    c.activity = NAN;
    assert_int_equal(tc_heat_calibrate(&c, &good, &factor), TC_RANGE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_week_by_hand),           cmocka_unit_test(a_pump_alone_measures_the_conductance),
        cmocka_unit_test(fitting_undoes_the_model), cmocka_unit_test(impossible_measures_have_no_result),
        cmocka_unit_test(bad_figures_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
