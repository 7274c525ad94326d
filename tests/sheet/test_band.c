/* SPDX-License-Identifier: MIT */
/* The band of the bill, beside the many draws of the sheet of doubts. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "core/cost/uncertainty.h"
#include "profile/stock.h"
#include "sheet/band.h"
#include "sheet/uncertain.h"
#include "support/failing_malloc.h"
#include "support/made_wall_study.h"
#include "support/near.h"
#include "support/step.h"
#include "sheet/study_make.h"

/* As many as `tankcost doubts` draws by itself, and more. */
enum { DRAWS = 20000 };

/* Share of the band's width by which its ends may differ from those of the draws. */
static const double TENTH = 0.1;

static void study_of(struct tc_study *study, void **state, const struct tc_plan *plan)
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    assert_int_equal(tc_study_make(study, *state, plan, made_today, &faults), TC_OK);
    assert_int_equal(tc_faults_errors(&faults), 0);
    tc_faults_free(&faults);
}

/* A plan whose figures are what they are but for those set here. */
static struct tc_plan start_with(void **state, const char *const (*pairs)[2])
{
    struct tc_plan plan = *tc_stock_plan(*state, "start");
    for (; (*pairs)[0]; pairs++)
        made_set(&plan, (*pairs)[0], (*pairs)[1]);
    return plan;
}

static void assert_agree(void **state, const struct tc_plan *plan)
{
    static struct tc_study study;
    static struct tc_bands all_bands;
    struct tc_band *bands = all_bands.band;
    struct tc_uncertain uncertain;
    struct tc_uncertainty doubt;
    study_of(&study, state, plan);
    assert_int_equal(tc_bands_find(&all_bands, &study), TC_OK);
    assert_int_equal(tc_uncertain_find(&uncertain, &study), TC_OK);
    assert_true(uncertain.count > 0);
    const struct tc_uncertainty_study many = {.candidates = study.alternative_count,
                                              .figures = uncertain.count,
                                              .spreads = uncertain.spreads,
                                              .costs = tc_uncertain_costs,
                                              .context = &uncertain,
                                              .draws = DRAWS,
                                              .seed = 7,
                                              .threads = 2};
    assert_int_equal(tc_uncertainty_run(&many, &doubt), TC_OK);
    for (int i = 0; i < study.alternative_count; i++) {
        assert_true(bands[i].known);
        assert_true(bands[i].low < bands[i].high);
        double slack = TENTH * (doubt.candidate[i].p90 - doubt.candidate[i].p10);
        assert_near((double)bands[i].low, doubt.candidate[i].p10, slack);
        assert_near((double)bands[i].high, doubt.candidate[i].p90, slack);
    }
    for (int i = study.alternative_count; i < TC_CANDIDATES_MAX; i++)
        assert_false(bands[i].known);
    tc_uncertainty_free(&doubt);
    tc_uncertain_free(&uncertain);
    tc_study_free(&study);
}

static void it_agrees_with_many_draws(void **state)
{
    static const char *const demo[][2] = {{NULL, NULL}};
    static const char *const wide[][2] = {{"candidate 1/price", "30 to 90 likely 40"},
                                          {"candidate 2/price", "50 to 80"},
                                          {"plan/discount", "0 % to 6 %"},
                                          {"region/room", "17 C to 22 C"},
                                          {"setup/water-change", "15 % to 40 %"},
                                          {NULL, NULL}};
    static const char *const one[][2] = {{"candidate 1/price", "30 to 90"},
                                         {"candidate 2/price", "30 to 90"},
                                         {"candidate 3/price", "30 to 90"},
                                         {NULL, NULL}};
    /* Ranges that work together: a weak heater in a cold room, prices of power that rise, few years or many.
     */
    static const char *const cold[][2] = {{"setup/temperature", "22 to 28 C"},
                                          {"setup/heat-loss", "70 to 140 %"},
                                          {"region/room", "12 C to 20 C likely 19 C"},
                                          {"region/electricity-escalation", "0 % to 6 %"},
                                          {"plan/discount", "1 % to 5 %"},
                                          {"plan/years", "4 years"},
                                          {NULL, NULL}};
    static const char *const lit[][2] = {{"setup/light-hours", "4 h to 14 h"},
                                         {"region/household-energy", "100 kWh to 700 kWh"},
                                         {"region/humidity", "30 % to 70 %"},
                                         {"candidate 1/light-price", "10 to 60"},
                                         {"candidate 2/heater-price", "10 to 60 likely 15"},
                                         {"plan/years", "15 years"},
                                         {NULL, NULL}};
    struct tc_plan plan = start_with(state, wide);
    assert_agree(state, &plan);
    if (test_step() > 1)
        return;
    plan = start_with(state, cold);
    assert_agree(state, &plan);
    plan = start_with(state, lit);
    assert_agree(state, &plan);
    plan = start_with(state, demo);
    assert_agree(state, &plan);
    plan = start_with(state, one);
    assert_agree(state, &plan);
}

/* 10 % and 90 % of an even spread from 40 to 60 are 42 and 58; all that follows the price is its tax and
 * resale. */
static void a_price_alone_is_known_by_hand(void **state)
{
    static struct tc_study study;
    static struct tc_bands all_bands;
    struct tc_band *bands = all_bands.band;
    struct tc_plan plan;
    double costs[2];
    tc_plan_start(&plan);
    made_set(&plan, "plan/setup", "breeding-plain");
    made_set(&plan, "plan/region", "lowmere");
    assert_non_null(tc_plan_add(&plan, "10-gal"));
    made_set(&plan, "setup/heater", "no");
    made_set(&plan, "setup/filter", "none");
    for (int i = 0; i < 2; i++) {
        made_set(&plan, "candidate 1/price", i ? "58" : "42");
        study_of(&study, state, &plan);
        costs[i] = (double)study.alternatives[0].cost.present_value;
        tc_study_free(&study);
    }
    made_set(&plan, "candidate 1/price", "40 to 60");
    study_of(&study, state, &plan);
    assert_int_equal(tc_bands_find(&all_bands, &study), TC_OK);
    assert_true(bands[0].known);
    assert_near((double)bands[0].low, costs[0], 0.01 * costs[0]);
    assert_near((double)bands[0].high, costs[1], 0.01 * costs[1]);
    tc_study_free(&study);
}

static void without_ranges_there_is_none(void **state)
{
    static struct tc_study study;
    static struct tc_bands all_bands;
    struct tc_band *bands = all_bands.band;
    struct tc_plan plan;
    tc_plan_start(&plan);
    made_set(&plan, "plan/setup", "breeding-plain");
    made_set(&plan, "plan/region", "lowmere");
    assert_non_null(tc_plan_add(&plan, "10-gal"));
    assert_non_null(tc_plan_add(&plan, "40-breeder"));
    made_set(&plan, "setup/heat-loss", "100 %"); /* both are ranges by default */
    made_set(&plan, "region/room-offset", "0 K");
    study_of(&study, state, &plan);
    struct tc_uncertain uncertain;
    assert_int_equal(tc_uncertain_find(&uncertain, &study), TC_OK);
    assert_int_equal(uncertain.count, 0);
    tc_uncertain_free(&uncertain);
    assert_int_equal(tc_bands_find(&all_bands, &study), TC_OK);
    for (int i = 0; i < TC_CANDIDATES_MAX; i++)
        assert_false(bands[i].known);
    tc_study_free(&study);
}

static void the_same_figures_give_the_same_band(void **state)
{
    static struct tc_study study;
    static struct tc_bands all_first, all_second;
    struct tc_band *first = all_first.band, *second = all_second.band;
    study_of(&study, state, tc_stock_plan(*state, "start"));
    assert_int_equal(tc_bands_find(&all_first, &study), TC_OK);
    assert_int_equal(tc_bands_find(&all_second, &study), TC_OK);
    for (int i = 0; i < study.alternative_count; i++) {
        assert_int_equal(first[i].low, second[i].low);
        assert_int_equal(first[i].high, second[i].high);
    }
    tc_study_free(&study);
}

static void memory_may_fail_anywhere(void **state)
{
    static struct tc_study study;
    static struct tc_bands all_bands;
    bool failed = true;
    study_of(&study, state, tc_stock_plan(*state, "start"));
    for (long n = 0; failed; n++) {
        failing_malloc_start(n, n % 2 == 1);
        enum tc_status status = tc_bands_find(&all_bands, &study);
        failed = failing_malloc_stop();
        assert_int_equal(status, failed ? TC_NO_MEMORY : TC_OK);
    }
    tc_study_free(&study);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(it_agrees_with_many_draws),    cmocka_unit_test(a_price_alone_is_known_by_hand),
        cmocka_unit_test(without_ranges_there_is_none), cmocka_unit_test(the_same_figures_give_the_same_band),
        cmocka_unit_test(memory_may_fail_anywhere),
    };
    return cmocka_run_group_tests(tests, made_read_demo, made_free_demo);
}
