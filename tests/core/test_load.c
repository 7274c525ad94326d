/* SPDX-License-Identifier: MIT */
/* Loads by month and hour: sums, shapes and running times. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "core/tariff/load.h"
#include "support/near.h"

static void a_year_has_365_days(void **state)
{
    (void)state;
    int days = 0;
    for (int m = 0; m < TC_MONTHS; m++)
        days += tc_load_days(m);
    assert_int_equal(days, 365);
    assert_int_equal(tc_load_days(1), 28);
    assert_int_equal(tc_load_days(-1), 0);
    assert_int_equal(tc_load_days(12), 0);
}

static void spreading_keeps_the_months(void **state)
{
    (void)state;
    const double units[TC_MONTHS] = {10, 20, 30, 40, 50, 60, 70, 80, 90, 100, 110, 120};
    struct tc_load load;
    tc_load_even(&load, units);
    for (int m = 0; m < TC_MONTHS; m++)
        assert_near(tc_load_month(&load, m), units[m], 1e-12);
    assert_near(tc_load_year(&load), 780, 1e-9);
    assert_near(load.use[0][5], 10.0 / 24, 1e-15);
}

static void a_device_runs_its_hours(void **state)
{
    (void)state;
    struct tc_load load;
    /* 40 W from half past nine for ten hours. */
    tc_load_daily(&load, 0.040, 9.5, 10);
    assert_near(load.use[0][9], 0.040 * 0.5 * 31, 1e-12);
    assert_near(load.use[0][10], 0.040 * 31, 1e-12);
    assert_near(load.use[0][19], 0.040 * 0.5 * 31, 1e-12);
    assert_near(load.use[0][20], 0, 0);
    assert_near(tc_load_year(&load), 0.040 * 10 * 365, 1e-9);
    /* Past midnight. */
    tc_load_daily(&load, 1, 22, 4);
    assert_near(load.use[1][22], 28, 1e-12);
    assert_near(load.use[1][1], 28, 1e-12);
    assert_near(load.use[1][2], 0, 0);
    assert_near(tc_load_year(&load), 4 * 365, 1e-9);
    /* All day, from any hour, and not at all. */
    tc_load_daily(&load, 1, 23.25, 24);
    for (int h = 0; h < TC_HOURS; h++)
        assert_near(load.use[0][h], 31, 1e-12);
    tc_load_daily(&load, 1, 5, 0);
    assert_near(tc_load_year(&load), 0, 0);
}

static void loads_add(void **state)
{
    (void)state;
    struct tc_load a, b;
    tc_load_daily(&a, 1, 0, 24);
    tc_load_daily(&b, 2, 0, 12);
    tc_load_add(&a, &b, 0.5);
    assert_near(a.use[0][0], 62, 1e-12);
    assert_near(a.use[0][12], 31, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_year_has_365_days),
        cmocka_unit_test(spreading_keeps_the_months),
        cmocka_unit_test(a_device_runs_its_hours),
        cmocka_unit_test(loads_add),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
