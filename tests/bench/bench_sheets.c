/* SPDX-License-Identifier: MIT */
/*
 * Time to answer each question of the demo's plans, beside one frame of the
 * screen, 16 ms. The plan is worked out anew each time, as after a key. The
 * sheets marked slow show how far they are instead, and can be stopped.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include <cmocka.h>

#include "profile/stock.h"
#include "profile/stock_finish.h"
#include "sheet/band.h"
#include "sheet/question.h"
#include "support/stock_text.h"
#include "sheet/study_make.h"

enum { ROUNDS = 15 };

#define FRAME 16.0 /* ms */

static double read_clock(clockid_t clock)
{
    struct timespec t;
    clock_gettime(clock, &t);
    return 1e3 * (double)t.tv_sec + 1e-6 * (double)t.tv_nsec;
}

static double now(void)
{
    return read_clock(CLOCK_MONOTONIC);
}

/* As the screen asks: long searches end early. */
static bool patient(void *context, double share)
{
    (void)context;
    (void)share;
    return true;
}

/* The middle of the times, so that a busy machine does not count. */
static double middle(double *times)
{
    for (int i = 1; i < ROUNDS; i++)
        for (int k = i; k > 0 && times[k] < times[k - 1]; k--) {
            double t = times[k];
            times[k] = times[k - 1];
            times[k - 1] = t;
        }
    return times[ROUNDS / 2];
}

static double study_time(const struct tc_stock *stock, const struct tc_plan *plan)
{
    static struct tc_study study;
    double times[ROUNDS];
    for (int i = 0; i < ROUNDS; i++) {
        struct tc_faults faults = TC_FAULTS_EMPTY;
        double start = now();
        tc_study_make(&study, stock, plan, (struct tc_date){2026, 11, 25}, &faults);
        times[i] = now() - start;
        tc_study_free(&study);
        tc_faults_free(&faults);
    }
    return middle(times);
}

/* A negative time: the question cannot be asked of the plan. */
static double question_time(const struct tc_stock *stock, const struct tc_plan *plan,
                            const struct tc_question *question, bool walls)
{
    static struct tc_study study;
    double times[ROUNDS];
    const struct tc_ask ask = {.walls = walls, .vary = "years=5..15", .go_on = patient, .at_screen = true};
    struct tc_faults faults = TC_FAULTS_EMPTY;
    bool answered = tc_study_make(&study, stock, plan, (struct tc_date){2026, 11, 25}, &faults) == TC_OK;
    for (int i = 0; answered && i < ROUNDS; i++) {
        struct tc_sheet sheet = {0};
        double start = now();
        answered = question->make(&study, &ask, &sheet) == TC_OK;
        times[i] = now() - start;
        tc_sheet_free(&sheet);
    }
    tc_study_free(&study);
    tc_faults_free(&faults);
    return answered ? middle(times) : -1;
}

static void say(const char *what, double ms, bool slow)
{
    if (ms < 0)
        printf("  %-16s        -\n", what);
    else
        printf("  %-16s %8.2f ms %7.2f frames%s\n", what, ms, ms / FRAME,
               slow ? "  (tells how far it is)" : "");
}

/* The likely ranges of a bill of twelve tanks, in time of the processor. */
static double band_time(const struct tc_stock *stock)
{
    static struct tc_study study;
    static struct tc_bands bands;
    static struct tc_plan plan;
    double times[ROUNDS];
    struct tc_faults faults = TC_FAULTS_EMPTY;
    plan = *tc_stock_plan(stock, "start");
    for (size_t i = 0; plan.candidate_count < TC_CANDIDATES_MAX && i < stock->tank_count; i++)
        assert_non_null(tc_plan_add(&plan, stock->tanks[i].goods.name));
    assert_int_equal(plan.candidate_count, TC_CANDIDATES_MAX);
    assert_int_equal(tc_study_make(&study, stock, &plan, (struct tc_date){2026, 11, 25}, &faults), TC_OK);
    for (int i = 0; i < ROUNDS; i++) {
        double start = read_clock(CLOCK_PROCESS_CPUTIME_ID);
        assert_int_equal(tc_bands_find(&bands, &study), TC_OK);
        times[i] = read_clock(CLOCK_PROCESS_CPUTIME_ID) - start;
    }
    tc_study_free(&study);
    tc_faults_free(&faults);
    return middle(times);
}

static void all_plans(void **state)
{
    (void)state;
    static struct tc_stock stock;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    const struct tc_question *question;
    tc_stock_start(&stock);
    stock_add_folder(&stock, "profiles");
    assert_int_equal(tc_stock_finish(&stock, &faults), TC_OK);
    for (size_t i = 0; i < stock.plan_count; i++) {
        const struct tc_plan *plan = &stock.plans[i];
        printf("plan %s, %d tanks\n", plan->name, plan->candidate_count);
        say("to work it out", study_time(&stock, plan), false);
        for (size_t k = 0; (question = tc_question_at(k)) != NULL; k++)
            say(question->name, question_time(&stock, plan, question, false), question->slow);
        say("bill --walls", question_time(&stock, plan, tc_question_find("bill"), true), false);
    }
    say("band of 12 tanks", band_time(&stock), false);
    tc_stock_free(&stock);
    tc_faults_free(&faults);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(all_plans)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
