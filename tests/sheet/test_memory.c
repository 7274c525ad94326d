/* SPDX-License-Identifier: MIT */
/* Every allocation on the way from a plan to a printed sheet fails once: it is reported, and nothing leaks.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "print/print.h"
#include "profile/stock.h"
#include "sheet/answer.h"
#include "sheet/explain.h"
#include "sheet/question.h"
#include "sheet/stock_list.h"
#include "sheet/study.h"
#include "support/failing_malloc.h"
#include "support/made_wall_study.h"
#include "support/step.h"
#include "sheet/study_make.h"

/* A plan that touches much: several tanks of a kind, shared air, a wrong tank among them. */
static struct tc_plan much(const struct tc_stock *stock, bool faulty)
{
    char problem[TC_PROBLEM_SIZE];
    struct tc_plan plan = *tc_stock_plan(stock, "start");
    assert_true(tc_plan_set(&plan, "candidate 1/quantity", "3", problem));
    assert_true(tc_plan_set(&plan, "candidate 2/price", "40", problem));
    if (faulty) {
        assert_true(tc_plan_set(&plan, "candidate 3/tank", "no-such-tank", problem));
        assert_true(tc_plan_set(&plan, "candidate 1/measured", "900 kWh", problem));
    }
    return plan;
}

/* A plan of which many draws are made quickly: two bare tanks, one figure in doubt; a small wall. */
static struct tc_plan little(void)
{
    static const char *const set[][2] = {{"plan/setup", "breeding-plain"}, {"plan/region", "lowmere"},
                                         {"setup/heater", "no"},           {"candidate 1/filter", "none"},
                                         {"candidate 2/filter", "none"},   {"candidate 2/price", "40 to 45"},
                                         {"wall/length", "4 ft"},          {"wall/height", "4 ft"},
                                         {"wall/depth", "2 ft"},           {"wall/budget", "400"}};
    char problem[TC_PROBLEM_SIZE];
    struct tc_plan plan;
    tc_plan_start(&plan);
    assert_non_null(tc_plan_add(&plan, "10-gal"));
    assert_non_null(tc_plan_add(&plan, "15-high"));
    for (size_t i = 0; i < sizeof set / sizeof set[0]; i++)
        if (!tc_plan_set(&plan, set[i][0], set[i][1], problem))
            fail_msg("%s: %s", set[i][0], problem);
    return plan;
}

static void test_study(void **state)
{
    const struct tc_stock *stock = *state;
    struct tc_plan plan = much(stock, false);
    for (long n = 0;; n += test_step()) {
        struct tc_study study;
        struct tc_faults faults = TC_FAULTS_EMPTY;
        failing_malloc_start(n, n % 2 == 1);
        enum tc_status status = tc_study_make(&study, stock, &plan, made_today, &faults);
        bool failed = failing_malloc_stop();
        assert_int_equal(status, failed ? TC_NO_MEMORY : TC_OK);
        tc_study_free(&study);
        tc_faults_free(&faults);
        if (!failed) {
            assert_true(n >= 2);
            return;
        }
    }
}

/* With faults to tell of, it is not taken for done when there is no memory to tell them. */
static void test_faulty_study(void **state)
{
    const struct tc_stock *stock = *state;
    struct tc_plan plan = much(stock, true);
    for (long n = 0;; n += test_step()) {
        struct tc_study study;
        struct tc_faults faults = TC_FAULTS_EMPTY;
        failing_malloc_start(n, false);
        enum tc_status status = tc_study_make(&study, stock, &plan, made_today, &faults);
        bool failed = failing_malloc_stop();
        assert_int_not_equal(status, TC_OK);
        if (!failed) {
            assert_int_equal(status, TC_SYNTAX);
            assert_int_equal(study.alternative_count, 2);
            assert_int_equal(tc_faults_errors(&faults), 2);
        }
        tc_study_free(&study);
        tc_faults_free(&faults);
        if (!failed)
            return;
    }
}

static enum tc_status make_and_print(const struct tc_study *study, const struct tc_question *question)
{
    struct tc_sheet sheet = {0};
    struct tc_text out = TC_TEXT_EMPTY;
    char problem[TC_PROBLEM_SIZE] = "";
    const struct tc_ask ask = {.draws = 100, .vary = "years=9..11", .problem = problem};
    enum tc_status status = tc_answer_make(question, study, &ask, &sheet);
    if (status == TC_OK)
        status = tc_print(&out, &sheet, TC_PRINT_TEXT, &(struct tc_print_options){.width = 80});
    tc_text_free(&out);
    tc_sheet_free(&sheet);
    return status;
}

/*
 * Each sheet that is slow (or is not) from a study of the plan, each allocation failing once; of slow sheets
 * fewer and fewer of the many alike, since each time costs thousands of draws.
 */
static void fail_sheets(const struct tc_stock *stock, const struct tc_plan *plan, bool slow)
{
    struct tc_study study;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    assert_int_equal(tc_study_make(&study, stock, plan, made_today, &faults), TC_OK);
    const struct tc_question *question;
    for (size_t i = 0; (question = tc_question_at(i)) != NULL; i++) {
        if (question->slow != slow)
            continue;
        enum tc_status first = make_and_print(&study, question);
        if (first != TC_OK)
            fail_msg("%s: %s", question->name, tc_status_text(first));
        bool failed = true;
        for (long n = 0; failed; n += test_step() + (slow ? n * test_step() / 2 : 0)) {
            failing_malloc_start(n, n % 2 == 1);
            enum tc_status status = make_and_print(&study, question);
            failed = failing_malloc_stop();
            if (status != (failed ? TC_NO_MEMORY : TC_OK))
                fail_msg("%s, allocation %ld: %s", question->name, n, tc_status_text(status));
        }
    }
    tc_study_free(&study);
    tc_faults_free(&faults);
}

static void test_sheets(void **state)
{
    struct tc_plan plan = much(*state, false);
    fail_sheets(*state, &plan, false);
}

static void test_slow_sheets(void **state)
{
    struct tc_plan plan = little();
    fail_sheets(*state, &plan, true);
}

/* A sheet with how its figures came about, and that as a sheet of its own. */
static enum tc_status explain(const struct tc_study *study, const struct tc_question *question)
{
    struct tc_sheet sheet = {0}, out = {0};
    char problem[TC_PROBLEM_SIZE] = "";
    const struct tc_ask ask = {.draws = 2, .vary = "years=9..11", .explain = true, .problem = problem};
    enum tc_status status = tc_answer_make(question, study, &ask, &sheet);
    if (status == TC_OK)
        status = tc_explain_make(&sheet, NULL, false, &out);
    tc_sheet_free(&out);
    tc_sheet_free(&sheet);
    return status;
}

/* The terms of a sheet are tens of thousands of allocations alike: those fail whose places are six times as
 * far on, one after the other. */
static void test_explained(void **state)
{
    struct tc_study study;
    struct tc_plan plan = little();
    struct tc_faults faults = TC_FAULTS_EMPTY;
    const struct tc_question *question;
    assert_int_equal(tc_study_make(&study, *state, &plan, made_today, &faults), TC_OK);
    for (size_t i = 0; (question = tc_question_at(i)) != NULL; i++) {
        bool failed = true;
        if (i % (size_t)test_step() != 0)
            continue;
        for (long n = (long)i % 3; failed; n = 6 * n + 1) {
            failing_malloc_start(n, n % 2 == 1);
            enum tc_status status = explain(&study, question);
            failed = failing_malloc_stop();
            if (status != (failed ? TC_NO_MEMORY : TC_OK))
                fail_msg("%s, allocation %ld: %s", question->name, n, tc_status_text(status));
        }
    }
    tc_study_free(&study);
    tc_faults_free(&faults);
}

static void test_stock_list(void **state)
{
    for (long n = 0;; n += test_step()) {
        struct tc_sheet sheet = {0};
        const struct tc_stock_ask ask = {.kind = "substrate", .units = TC_US};
        failing_malloc_start(n, false);
        enum tc_status status = tc_make_stock_list(*state, &ask, &sheet);
        bool failed = failing_malloc_stop();
        assert_int_equal(status, failed ? TC_NO_MEMORY : TC_OK);
        tc_sheet_free(&sheet);
        if (!failed)
            return;
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_study),     cmocka_unit_test(test_faulty_study),
        cmocka_unit_test(test_sheets),    cmocka_unit_test(test_slow_sheets),
        cmocka_unit_test(test_explained), cmocka_unit_test(test_stock_list),
    };
    return cmocka_run_group_tests(tests, made_read_demo, made_free_demo);
}
