/* SPDX-License-Identifier: MIT */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "core/base/number.h"
#include "print/axis.h"
#include "support/draw.h"
#include "support/near.h"

static void check(double low, double high, int most, double first, double last, double step)
{
    struct tc_axis axis = tc_axis_fit(low, high, most);
    assert_near(axis.low, first, fabs(step) * 1e-9);
    assert_near(axis.high, last, fabs(step) * 1e-9);
    assert_near(axis.step, step, fabs(step) * 1e-9);
    assert_int_equal(axis.intervals, (int)lround((last - first) / step));
}

/* By hand: the least of 1, 2, 5 times a power of ten that does with so many steps. */
static void test_known_axes(void **state)
{
    (void)state;
    check(0, 10, 10, 0, 10, 1);
    check(0, 10, 5, 0, 10, 2);
    check(0, 10, 4, 0, 10, 5);
    check(0, 10.1, 10, 0, 12, 2);
    check(0, 1499.34, 5, 0, 1500, 500);
    check(-31, 88, 5, -50, 100, 50);
    check(0.1, 0.3, 4, 0.1, 0.3, 0.05);
    check(-5, 5, 2, -5, 5, 5);
    check(-1, 1, 1, -1, 1, 1); /* zero within: two intervals are the least there can be */
    check(1e-6, 3e-6, 4, 1e-6, 3e-6, 5e-7);
    check(2e12, 9e12, 7, 2e12, 9e12, 1e12);
}

static void test_ranges_without_width(void **state)
{
    (void)state;
    const double odd[][2] = {{5, 5}, {0, 0}, {-3, -3}, {NAN, 1}, {0, INFINITY}, {2, 1}, {1e15, 1e15}};
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++) {
        struct tc_axis axis = tc_axis_fit(odd[i][0], odd[i][1], 5);
        assert_true(isfinite(axis.low) && isfinite(axis.high) && axis.step > 0);
        assert_true(axis.high > axis.low);
        assert_in_range(axis.intervals, 1, 5);
    }
}

/* Laws that hold for any range. */
static void test_any_axis(void **state)
{
    (void)state;
    struct tc_random random = draw_from(7);
    for (int n = 0; n < 20000; n++) {
        double scale = pow(10, draw_between(&random, -6, 9));
        double low = draw_between(&random, -1, 1) * scale;
        double high = low + draw_between(&random, 0.001, 1) * scale;
        int most = 2 + draw_below(&random, 19);
        struct tc_axis axis = tc_axis_fit(low, high, most);
        assert_in_range(axis.intervals, 1, most);
        assert_true(axis.low <= low + axis.step * 1e-6 && axis.high >= high - axis.step * 1e-6);
        assert_true(axis.low > low - axis.step && axis.high < high + axis.step);
        double digit = axis.step / pow(10, floor(log10(axis.step) + 1e-9));
        assert_true(fabs(digit - 1) < 1e-6 || fabs(digit - 2) < 1e-6 || fabs(digit - 5) < 1e-6);
        int each = 0;
        struct tc_axis cells = tc_axis_fit_cells(low, high, 4 + most, 2, &each);
        assert_true(each >= 2);
        assert_in_range(cells.intervals * each, 2, 4 + most);
    }
}

static void test_labels(void **state)
{
    (void)state;
    char buffer[TC_NUMBER_SIZE];
    struct tc_axis axis = tc_axis_fit(-0.3, 0.2, 5);
    const char *const wanted[] = {"-0.3", "-0.2", "-0.1", "0.0", "0.1", "0.2"};
    assert_int_equal(axis.intervals, 5);
    for (int i = 0; i <= 5; i++)
        assert_string_equal(tc_axis_label(buffer, &axis, i), wanted[i]);
    axis = tc_axis_fit(0, 20000, 4);
    assert_string_equal(tc_axis_label(buffer, &axis, axis.intervals), "20 000");
    axis = tc_axis_fit(0, 0.05, 4);
    assert_string_equal(tc_axis_label(buffer, &axis, 1), "0.02");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_known_axes),
        cmocka_unit_test(test_ranges_without_width),
        cmocka_unit_test(test_any_axis),
        cmocka_unit_test(test_labels),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
