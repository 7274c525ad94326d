/* SPDX-License-Identifier: MIT */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "profile/stock_finish.h"
#include "support/made_wall_study.h"

#include <math.h>
#include <string.h>

#include "sheet/question.h"
#include "support/stock_text.h"
#include "sheet/study_make.h"

const struct tc_date made_today = {2026, 11, 25};

int made_read_demo(void **state)
{
    static struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    tc_stock_start(&stock);
    stock_add_folder(&stock, "profiles");
    assert_int_equal(tc_stock_finish(&stock, &faults), TC_OK);
    assert_int_equal(tc_faults_errors(&faults), 0);
    tc_faults_free(&faults);
    *state = &stock;
    return 0;
}

int made_free_demo(void **state)
{
    tc_stock_free(*state);
    return 0;
}

void made_set(struct tc_plan *plan, const char *path, const char *text)
{
    char problem[TC_PROBLEM_SIZE];
    if (!tc_plan_set(plan, path, text, problem))
        fail_msg("%s = %s: %s", path, text, problem);
}

struct tc_plan made_new_wall(void **state)
{
    return *tc_stock_plan(*state, "new-wall");
}

struct tc_plan made_bare_wall(const char *const *tanks, const char *length, const char *height)
{
    struct tc_plan plan;
    tc_plan_start(&plan);
    made_set(&plan, "plan/setup", "breeding-plain");
    made_set(&plan, "plan/region", "lowmere");
    for (; *tanks; tanks++)
        assert_non_null(tc_plan_add(&plan, *tanks));
    made_set(&plan, "wall/length", length);
    made_set(&plan, "wall/height", height);
    made_set(&plan, "wall/depth", "24 in");
    made_set(&plan, "wall/objective", "tanks");
    return plan;
}

void made_study(struct made *made, void **state, const struct tc_plan *plan, struct tc_date day)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    assert_int_equal(tc_study_make(&made->study, *state, plan, day, &faults), TC_OK);
    assert_int_equal(tc_faults_errors(&faults), 0);
    tc_faults_free(&faults);
}

void made_wall_study(struct made *made, void **state, const struct tc_plan *plan)
{
    const struct tc_ask ask = {.seed = 0};
    struct tc_search_budget search;
    made_study(made, state, plan, made_today);
    tc_search_budget_start(&search, &ask);
    assert_int_equal(tc_wall_study_make(&made->wall_study, &made->study, &ask, &search), TC_OK);
}

void made_free(struct made *made)
{
    tc_wall_study_free(&made->wall_study);
    tc_study_free(&made->study);
}

enum tc_status made_sheet(const struct tc_study *from, const char *name, bool walls, struct tc_sheet *sheet,
                          char *problem)
{
    const struct tc_ask ask = {.walls = walls, .problem = problem};
    *sheet = (struct tc_sheet){0};
    return tc_question_find(name)->make(from, &ask, sheet);
}

struct tc_plan made_long_wall(const struct tc_stock *stock, struct tc_random *random)
{
    struct tc_plan plan;
    tc_plan_start(&plan);
    made_set(&plan, "plan/setup", "breeding-plain");
    made_set(&plan, "plan/region", "lowmere");
    for (size_t i = 0; i < stock->tank_count && plan.candidate_count < TC_CANDIDATES_MAX; i++)
        if (stock->tanks[i].length > 0.5 && stock->tanks[i].length < 1.3)
            tc_plan_add(&plan, stock->tanks[i].goods.name)->price = 20 + floor(100 * tc_random_unit(random));
    made_set(&plan, "wall/length", "30 m");
    made_set(&plan, "wall/height", "2.5 m");
    made_set(&plan, "wall/depth", "1.5 m");
    made_set(&plan, "wall/circuit-current", "60 A");
    made_set(&plan, "wall/rack-price", "55");
    made_set(&plan, "wall/budget", "9000");
    return plan;
}

void made_assert_sums(const struct tc_cost *cost)
{
    enum tc_status status = TC_OK;
    assert_int_equal(cost->to_buy, tc_money_sum(cost->buy, TC_BUY_COUNT, &status));
    assert_int_equal(cost->each_year, tc_money_sum(cost->run, TC_RUN_COUNT, &status));
    assert_int_equal(cost->as_paid, tc_money_sum(cost->paid, TC_LIFE_COUNT, &status));
    assert_int_equal(cost->present_value, tc_money_sum(cost->present, TC_LIFE_COUNT, &status));
    assert_int_equal(status, TC_OK);
}
