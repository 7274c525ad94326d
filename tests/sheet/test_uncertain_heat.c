/* SPDX-License-Identifier: MIT */
/* Heat read from a net, beside heat worked out for each draw. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdlib.h>

#include "core/cost/lattice.h"
#include "sheet/study_make.h"
#include "sheet/uncertain.h"
#include "sheet/uncertain_heat.h"
#include "support/failing_malloc.h"
#include "support/made_wall_study.h"
#include "support/step.h"

enum { MANY = 1000000, SEED = 31 };

static void study_of(struct tc_study *study, void **state, const char *const (*pairs)[2])
{
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_plan plan = *tc_stock_plan(*state, "start");
    for (; (*pairs)[0]; pairs++)
        made_set(&plan, (*pairs)[0], (*pairs)[1]);
    assert_int_equal(tc_study_make(study, *state, &plan, made_today, &faults), TC_OK);
    assert_int_equal(tc_faults_errors(&faults), 0);
    tc_faults_free(&faults);
}

/* What a net misses of the costs of one alternative. */
struct missed {
    double least, greatest, worst, sum;
};

static void add_missed(struct missed *missed, double exact, double read)
{
    missed->least = fmin(missed->least, exact);
    missed->greatest = fmax(missed->greatest, exact);
    missed->worst = fmax(missed->worst, fabs(read - exact));
    missed->sum += read - exact;
}

/* Compares costs of draws that the nets were not tried with; how many draws. */
static int compare_draws(const struct tc_uncertain *plain, const struct tc_uncertain *uncertain,
                         struct missed missed[])
{
    struct tc_lattice lattice;
    double *values = calloc((size_t)plain->count + 1, sizeof *values);
    int count = 0;
    assert_non_null(values);
    tc_lattice_start(&lattice, plain->spreads, plain->count, SEED, 1);
    for (int draw = 0; draw < TC_LATTICE_POINTS; draw++) {
        double exact[TC_CANDIDATES_MAX], read[TC_CANDIDATES_MAX];
        for (int f = 0, k = 0; f < plain->count; f++)
            values[f] = plain->spreads[f].shape == TC_SPREAD_FIXED
                            ? tc_spread_middle(&plain->spreads[f])
                            : tc_lattice_draw(&lattice, k++, &plain->spreads[f]);
        if (draw % (2 * test_step()) != 0)
            continue;
        tc_uncertain_costs((void *)plain, values, exact);
        tc_uncertain_costs((void *)uncertain, values, read);
        for (int i = 0; i < plain->study->alternative_count; i++)
            add_missed(&missed[i], exact[i], read[i]);
        count++;
    }
    free(values);
    return count;
}

/* Makes the nets of a plan for so many draws and compares; how many figures move the heat of the first. */
static int compare(void **state, const char *const (*pairs)[2], int draws)
{
    static struct tc_study study;
    struct tc_uncertain plain, uncertain;
    struct missed missed[TC_CANDIDATES_MAX];
    study_of(&study, state, pairs);
    assert_int_equal(tc_uncertain_find(&plain, &study), TC_OK);
    assert_int_equal(tc_uncertain_find(&uncertain, &study), TC_OK);
    assert_int_equal(tc_heat_nets_make(&uncertain, draws, 2), TC_OK);
    for (int i = 0; i < study.alternative_count; i++)
        missed[i] = (struct missed){INFINITY, -INFINITY, 0, 0};
    int figures = uncertain.nets[0].figures, count = compare_draws(&plain, &uncertain, missed);
    for (int i = 0; i < study.alternative_count; i++) {
        double range = missed[i].greatest - missed[i].least;
        assert_true(range > 0);
        assert_true(missed[i].worst <= 2 * TC_NET_ERROR * range);
        if (test_step() == 1)
            assert_true(fabs(missed[i].sum / count) <= 1.5 * TC_NET_BIAS * range);
        if (uncertain.nets[i].figures == 0)
            assert_true(missed[i].worst == 0);
        else
            assert_true(missed[i].worst > 0); /* it was read, not worked out */
    }
    tc_uncertain_free(&plain);
    tc_uncertain_free(&uncertain);
    tc_study_free(&study);
    return figures;
}

/* The demonstration, a tariff that asks for the hour, and heat that three figures move. */
static void costs_are_those_of_each_draw(void **state)
{
    static const char *const demo[][2] = {{NULL, NULL}};
    static const char *const hours[][2] = {{"plan/region", "vintersund"}, {NULL, NULL}};
    static const char *const wide[][2] = {
        {"region/room", "18 C to 21 C"},      {"setup/temperature", "23 C to 26 C"},
        {"setup/heat-loss", "80 % to 120 %"}, {"region/room-offset", "0 K"},
        {"candidate 1/price", "30 to 90"},    {NULL, NULL}};
    assert_in_range(compare(state, demo, MANY), 1, TC_NET_FIGURES);
    assert_in_range(compare(state, hours, MANY), 1, TC_NET_FIGURES);
    assert_int_equal(compare(state, wide, MANY), 3);
}

/* Few draws are not worth a net; of more figures than it has room for there is none. */
static void where_there_is_no_net_all_is_as_ever(void **state)
{
    static const char *const demo[][2] = {{NULL, NULL}};
    static const char *const many[][2] = {
        {"region/room", "19 C to 22 C"},      {"region/room-offset", "-1 K to 1 K"},
        {"region/humidity", "40 % to 60 %"},  {"setup/temperature", "24 C to 26 C"},
        {"setup/heat-loss", "80 % to 120 %"}, {NULL, NULL}};
    assert_int_equal(compare(state, demo, 100), 0);
    assert_int_equal(compare(state, many, MANY), 0);
}

static void memory_may_fail_anywhere(void **state)
{
    static struct tc_study study;
    static const char *const demo[][2] = {{NULL, NULL}};
    bool failed = true;
    study_of(&study, state, demo);
    for (long n = 0; failed; n++) {
        struct tc_uncertain uncertain;
        assert_int_equal(tc_uncertain_find(&uncertain, &study), TC_OK);
        failing_malloc_start(n, false);
        enum tc_status status = tc_heat_nets_make(&uncertain, 5000, 1);
        failed = failing_malloc_stop();
        assert_int_equal(status, failed ? TC_NO_MEMORY : TC_OK);
        tc_uncertain_free(&uncertain);
    }
    tc_study_free(&study);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(costs_are_those_of_each_draw),
        cmocka_unit_test(where_there_is_no_net_all_is_as_ever),
        cmocka_unit_test(memory_may_fail_anywhere),
    };
    return cmocka_run_group_tests(tests, made_read_demo, made_free_demo);
}
