/* SPDX-License-Identifier: MIT */
/* Who is beaten in everything: by hand, and against each pair held up one by one. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "core/base/random.h"
#include "core/cost/dominance.h"

/* A tank of 20 gallons, long and high, in dollars and SI units; sizes of the trade. */
static const struct tc_merits LONG = {{825, 0.0537, 0.222, 0.752, 0.249, 0.762}};
static const struct tc_merits HIGH = {{817, 0.0610, 0.177, 0.600, 0.350, 0.610}};

static struct tc_merits with(struct tc_merits merits, enum tc_respect respect, double more)
{
    merits.of[respect] += more;
    return merits;
}

static void one_is_beaten_by_another_that_is_nowhere_worse(void **state)
{
    (void)state;
    assert_false(tc_dominates(&LONG, &HIGH)); /* each has something */
    assert_false(tc_dominates(&HIGH, &LONG));
    struct tc_merits dearer = with(LONG, TC_RESPECT_COST, 1);
    assert_true(tc_dominates(&LONG, &dearer));
    assert_false(tc_dominates(&dearer, &LONG));
    assert_false(tc_dominates(&LONG, &LONG)); /* as good as is not better than */
    /* Less of wall and reach is better, more of the rest. */
    struct tc_merits wider = with(dearer, TC_RESPECT_WALL, -0.05);
    assert_false(tc_dominates(&LONG, &wider));
    struct tc_merits deeper = with(LONG, TC_RESPECT_REACH, 0.05);
    assert_true(tc_dominates(&LONG, &deeper));
    /* Half a millimetre is nothing. */
    struct tc_merits near = with(dearer, TC_RESPECT_SWIM, 0.0005);
    assert_true(tc_dominates(&LONG, &near));
    assert_true(tc_merits_alike(&LONG, &near));
    assert_false(tc_merits_alike(&LONG, &deeper));
}

static void a_score_is_the_cost_of_a_unit_of_the_goal(void **state)
{
    (void)state;
    assert_true(tc_goal_score(&HIGH, TC_GOAL_COST) < tc_goal_score(&LONG, TC_GOAL_COST));
    assert_true(tc_goal_score(&HIGH, TC_GOAL_WATER) < tc_goal_score(&LONG, TC_GOAL_WATER));
    assert_true(tc_goal_score(&LONG, TC_GOAL_BOTTOM) < tc_goal_score(&HIGH, TC_GOAL_BOTTOM));
    assert_true(tc_goal_score(&LONG, TC_GOAL_LENGTH) < tc_goal_score(&HIGH, TC_GOAL_LENGTH));
}

enum { MANY = 120, ROUNDS = 20 };

/* The definition itself: beaten is who some other dominates, and who beats is beaten by none. */
static void the_choice_is_what_no_pair_beats(void **state)
{
    (void)state;
    struct tc_random random;
    tc_random_seed(&random, 7, 0);
    static struct tc_merits merits[MANY];
    static int beaten_by[MANY];
    int beaten = 0, kept = 0;
    for (int round = 0; round < ROUNDS; round++) {
        for (int i = 0; i < MANY; i++)
            for (int r = 0; r < TC_RESPECT_COUNT; r++) /* few steps: many are equal in something */
                merits[i].of[r] = 1 + (double)(tc_random_next(&random) % 4);
        assert_int_equal(tc_dominance_find(merits, MANY, beaten_by), TC_OK);
        for (int i = 0; i < MANY; i++) {
            bool any = false;
            for (int k = 0; k < MANY; k++)
                any = any || tc_dominates(&merits[k], &merits[i]);
            assert_int_equal(any, beaten_by[i] >= 0);
            beaten += any;
            kept += !any;
            if (any) {
                assert_true(tc_dominates(&merits[beaten_by[i]], &merits[i]));
                assert_int_equal(beaten_by[beaten_by[i]], -1);
            }
        }
    }
    assert_true(beaten > 0 && kept > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_is_beaten_by_another_that_is_nowhere_worse),
        cmocka_unit_test(a_score_is_the_cost_of_a_unit_of_the_goal),
        cmocka_unit_test(the_choice_is_what_no_pair_beats),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
