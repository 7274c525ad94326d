/* SPDX-License-Identifier: MIT */
/* How many figures of a plan were typed over those of the profiles. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include "profile/plan_typed.h"

static void test_what_counts(void **state)
{
    static const struct {
        const char *path, *text;
        int counts;
    } typed[] = {
        {"candidate 1/price", "45", 1},
        {"candidate 1/lid-price", "12", 1},
        {"candidate 1/filter-power", "9 W", 1},
        {"candidate 1/heater-life", "2 years", 1},
        {"candidate 1/resale", "30 %", 1},
        {"candidate 1/length", "36 in", 1},
        {"region/room", "20 C", 1},
        {"setup/light-hours", "8 h", 1},
        /* Choices, and figures of the plan itself. */
        {"candidate 1/lid", "unnamed", 0},
        {"candidate 1/quantity", "3", 0},
        {"candidate 1/wall-most", "4", 0},
        {"candidate 1/filter-count", "2", 0},
        {"candidate 1/measured", "4 kWh", 1},
        {"candidate 1/sale", "list", 0},
        {"plan/years", "5 years", 0},
        {"wall/length", "3 m", 0},
    };
    struct tc_plan plan;
    char problem[TC_PROBLEM_SIZE];
    int expected = 0;
    (void)state;
    tc_plan_start(&plan);
    tc_plan_add(&plan, "29-high");
    assert_int_equal(tc_plan_typed_figures(&plan), 0);
    for (size_t i = 0; i < sizeof typed / sizeof typed[0]; i++) {
        if (!tc_plan_set(&plan, typed[i].path, typed[i].text, problem))
            fail_msg("%s: %s", typed[i].path, problem);
        expected += typed[i].counts;
        if (tc_plan_typed_figures(&plan) != expected)
            fail_msg("%s: %d, not %d", typed[i].path, tc_plan_typed_figures(&plan), expected);
    }
    for (size_t i = 0; i < sizeof typed / sizeof typed[0]; i++)
        tc_plan_set(&plan, typed[i].path, "", problem);
    assert_int_equal(tc_plan_typed_figures(&plan), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_what_counts)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
