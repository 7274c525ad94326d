/* SPDX-License-Identifier: MIT */
/* Splitting money by largest remainder: the parts add up, whatever the weights. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/base/random.h"
#include "core/money/split.h"
#include "support/draw.h"
#include "support/near.h"

static void largest_remainder_example(void **state)
{
    (void)state;
    /*
     * Wikipedia, "Largest remainder method" (Hare quota): votes 47000, 16000,
     * 15800, 12000, 6100, 3100 for 10 seats give 5, 2, 1, 1, 1, 0. From memory;
     * recomputed: quotas 4.7 1.6 1.58 1.2 0.61 0.31.
     */
    const double votes[] = {47000, 16000, 15800, 12000, 6100, 3100};
    static const tc_money seats[] = {5, 2, 1, 1, 1, 0};
    tc_money parts[6];
    assert_int_equal(tc_money_split(10, votes, 6, parts), TC_OK);
    for (int i = 0; i < 6; i++)
        assert_int_equal(parts[i], seats[i]);
}

static void small_cases(void **state)
{
    (void)state;
    tc_money parts[3];
    const double alike[] = {1, 1, 1};
    assert_int_equal(tc_money_split(100, alike, 3, parts), TC_OK);
    assert_int_equal(parts[0], 34); /* ties go to the earlier part */
    assert_int_equal(parts[1], 33);
    assert_int_equal(parts[2], 33);
    assert_int_equal(tc_money_split(-100, alike, 3, parts), TC_OK);
    assert_int_equal(parts[0] + parts[1] + parts[2], -100);
    const double none[] = {0, 0, 0};
    assert_int_equal(tc_money_split(7, none, 3, parts), TC_OK);
    assert_int_equal(parts[0] + parts[1] + parts[2], 7);
    const double credit[] = {3, -1, 0};
    assert_int_equal(tc_money_split(10, credit, 3, parts), TC_OK);
    assert_int_equal(parts[0], 15);
    assert_int_equal(parts[1], -5);
    assert_int_equal(parts[2], 0);
    const double odd[] = {1, NAN, 1};
    assert_int_equal(tc_money_split(10, odd, 3, parts), TC_RANGE);
    assert_int_equal(tc_money_split(10, alike, 0, parts), TC_RANGE);
    const double huge[] = {1e300, -0.9999999e300, 0};
    assert_int_equal(tc_money_split(TC_MONEY_MAX, huge, 3, parts), TC_OVERFLOW);
}

static void huge_amounts_lose_nothing(void **state)
{
    (void)state;
    /* The two shares, rounded down in doubles of this size, come out one unit too much. */
    const double weights[] = {0.1, 0.4};
    tc_money amount = TC_MONEY_MAX - 1, parts[2];
    assert_int_equal(tc_money_split(amount, weights, 2, parts), TC_OK);
    assert_true(parts[0] + parts[1] == amount);
    assert_near((double)parts[0], (double)amount / 5, 2);
}

static void parts_add_up_and_stay_within_one(void **state)
{
    (void)state;
    struct tc_random random;
    tc_random_seed(&random, 77, 1);
    for (int i = 0; i < 5000; i++) {
        double weights[20];
        tc_money parts[20];
        int count = 1 + (int)draw_index(&random, 20);
        double whole = 0;
        for (int k = 0; k < count; k++) {
            weights[k] = draw_index(&random, 5) ? tc_random_unit(&random) : 0;
            whole += weights[k];
        }
        double scale = i % 3 ? 1e4 : 8.9e15;
        tc_money amount = (tc_money)((tc_random_unit(&random) - 0.3) * scale);
        assert_int_equal(tc_money_split(amount, weights, count, parts), TC_OK);
        tc_money sum = 0;
        for (int k = 0; k < count; k++)
            sum += parts[k];
        assert_int_equal(sum, amount);
        for (int k = 0; i % 3 && whole > 0 && k < count; k++)
            assert_true(fabs((double)parts[k] - (double)amount * weights[k] / whole) < 1 + 1e-9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(largest_remainder_example),
        cmocka_unit_test(small_cases),
        cmocka_unit_test(huge_amounts_lose_nothing),
        cmocka_unit_test(parts_add_up_and_stay_within_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
