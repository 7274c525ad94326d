/* SPDX-License-Identifier: MIT */
/* Steps of a plan, taken back and done again. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

#include "screen/history.h"
#include "support/failing_malloc.h"

static struct tc_history history;
static struct tc_document now;

static int start(void **state)
{
    (void)state;
    tc_history_start(&history);
    memset(&now, 0, sizeof now);
    return 0;
}

static int end(void **state)
{
    (void)state;
    tc_history_free(&history);
    return 0;
}

static void change_to(double years)
{
    assert_int_equal(tc_history_keep(&history, &now), TC_OK);
    now.plan.years = years;
}

static void test_back_and_forth(void **state)
{
    (void)state;
    assert_false(tc_history_go(&history, &now, false));
    assert_false(tc_history_go(&history, &now, true));
    change_to(1);
    change_to(2);
    change_to(3);
    for (int years = 2; years >= 0; years--) {
        assert_true(tc_history_go(&history, &now, false));
        assert_int_equal((int)now.plan.years, years);
    }
    assert_false(tc_history_go(&history, &now, false));
    for (int years = 1; years <= 3; years++) {
        assert_true(tc_history_go(&history, &now, true));
        assert_int_equal((int)now.plan.years, years);
    }
    assert_false(tc_history_go(&history, &now, true));
}

static void test_a_change_ends_what_could_be_done_again(void **state)
{
    (void)state;
    change_to(1);
    change_to(2);
    assert_true(tc_history_go(&history, &now, false));
    change_to(7);
    assert_false(tc_history_go(&history, &now, true));
    assert_int_equal((int)now.plan.years, 7);
    assert_true(tc_history_go(&history, &now, false));
    assert_int_equal((int)now.plan.years, 1);
}

static void test_which_plan_it_is_goes_with_it(void **state)
{
    (void)state;
    now.file = 1;
    change_to(1);
    now.file = 2;
    assert_true(tc_history_go(&history, &now, false));
    assert_int_equal(now.file, 1);
    assert_true(tc_history_go(&history, &now, true));
    assert_int_equal(now.file, 2);
}

static void test_the_oldest_are_forgotten(void **state)
{
    (void)state;
    for (int i = 1; i <= TC_HISTORY_MOST + 50; i++)
        change_to(i);
    int steps = 0;
    while (tc_history_go(&history, &now, false))
        steps++;
    assert_int_equal(steps, TC_HISTORY_MOST);
    assert_int_equal((int)now.plan.years, 50);
    while (tc_history_go(&history, &now, true))
        steps--;
    assert_int_equal(steps, 0);
    assert_int_equal((int)now.plan.years, TC_HISTORY_MOST + 50);
}

static void test_no_memory(void **state)
{
    (void)state;
    change_to(1);
    failing_malloc_start(0, true);
    enum tc_status status = tc_history_keep(&history, &now);
    bool went = tc_history_go(&history, &now, false); /* needs none */
    failing_malloc_stop();
    assert_int_equal(status, TC_NO_MEMORY);
    assert_true(went);
    assert_int_equal((int)now.plan.years, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_back_and_forth, start, end),
        cmocka_unit_test_setup_teardown(test_a_change_ends_what_could_be_done_again, start, end),
        cmocka_unit_test_setup_teardown(test_which_plan_it_is_goes_with_it, start, end),
        cmocka_unit_test_setup_teardown(test_the_oldest_are_forgotten, start, end),
        cmocka_unit_test_setup_teardown(test_no_memory, start, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
