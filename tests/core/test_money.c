/* SPDX-License-Identifier: MIT */
/* Money laws: exact sums, rounding half away from zero, overflow refused. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/money/money.h"

static void rounding_is_half_away_from_zero(void **state)
{
    (void)state;
    static const struct {
        double minor;
        tc_money rounded;
    } rows[] = {
        {0, 0},
        {0.4, 0},
        {0.5, 1},
        {-0.5, -1},
        {1.5, 2},
        {2.5, 3},
        {-2.5, -3},
        {2.4999, 2},
        {-2.4999, -2},
        /* Town utility bill: 550 kWh x 4.75 cents = 2612.5 is printed as 26.13
         * (City of Seymour, residential electricity bill comparison). */
        {550 * 4.75, 2613},
        {550 * 0.0475 * 100, 2613},
        {1e15, INT64_C(1000000000000000)},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        enum tc_status status = TC_OK;
        assert_int_equal(tc_money_round(rows[i].minor, &status), rows[i].rounded);
        assert_int_equal(status, TC_OK);
    }
}

static void overflow_and_nan_are_refused(void **state)
{
    (void)state;
    enum tc_status status = TC_OK;
    assert_int_equal(tc_money_add(TC_MONEY_MAX, 0, &status), TC_MONEY_MAX);
    assert_int_equal(status, TC_OK);
    tc_money_add(TC_MONEY_MAX, 1, &status);
    assert_int_equal(status, TC_OVERFLOW);

    static const double too_large[] = {9.1e15, -9.1e15, 1e300, INFINITY, -INFINITY};
    for (size_t i = 0; i < sizeof too_large / sizeof too_large[0]; i++) {
        status = TC_OK;
        tc_money_round(too_large[i], &status);
        assert_int_equal(status, TC_OVERFLOW);
    }
    status = TC_OK;
    tc_money_round(NAN, &status);
    assert_int_equal(status, TC_RANGE);
    status = TC_OK;
    tc_money_times(TC_MONEY_MAX / 2 + 1, 2, &status);
    assert_int_equal(status, TC_OVERFLOW);
    status = TC_OK;
    tc_money_times(-3, INT64_MIN, &status);
    assert_int_equal(status, TC_OVERFLOW);
    status = TC_OK;
    tc_money_subtract(INT64_MIN, 1, &status);
    assert_int_equal(status, TC_OVERFLOW);
}

static void a_status_once_bad_stays_bad(void **state)
{
    (void)state;
    enum tc_status status = TC_OK;
    tc_money_add(TC_MONEY_MAX, TC_MONEY_MAX, &status);
    assert_int_equal(tc_money_add(2, 3, &status), 5);
    assert_int_equal(status, TC_OVERFLOW);
}

static void products_and_shares(void **state)
{
    (void)state;
    enum tc_status status = TC_OK;
    assert_int_equal(tc_money_times(1999, 3, &status), 5997);
    assert_int_equal(tc_money_times(-1999, 3, &status), -5997);
    assert_int_equal(tc_money_times(1999, -3, &status), -5997);
    assert_int_equal(tc_money_times(0, INT64_MAX, &status), 0);
    /* At half price a tank listed at 90 costs 45: common practice, no source. */
    assert_int_equal(tc_money_share(9000, 0.5, &status), 4500);
    assert_int_equal(tc_money_share(27513, 0.01, &status), 275);
    const tc_money column[] = {1600, 2205, 2613, 3345, 17000, 750};
    /* The same utility bill: the rounded lines add up to the printed 275.13. */
    assert_int_equal(tc_money_sum(column, 6, &status), 27513);
    assert_int_equal(status, TC_OK);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rounding_is_half_away_from_zero),
        cmocka_unit_test(overflow_and_nan_are_refused),
        cmocka_unit_test(a_status_once_bad_stays_bad),
        cmocka_unit_test(products_and_shares),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
