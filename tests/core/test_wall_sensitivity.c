/* SPDX-License-Identifier: MIT */
/* What is left of each limit of a wall, and the least raise that brings a step. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/wall/wall_solve.h"
#include "core/wall/wall_sensitivity.h"
#include "support/near.h"
#include "support/step.h"
#include "support/wall_case.h"

static struct tc_wall_model tank(double length, double width, double height)
{
    return (struct tc_wall_model){.length = length,
                                  .width = width,
                                  .height = height,
                                  .mass = 50,
                                  .area = length * width,
                                  .volume = length * width * height,
                                  .power = 40,
                                  .price = {10000, 30000},
                                  .most = TC_WALL_UNLIMITED};
}

/* "The wall is full; one more tank needs 0.42 m": 0.6 m tanks on 3.18 m, gaps of nothing: 0.18 m are left. */
static void one_more_tank_needs_so_much_more_wall(void **state)
{
    (void)state;
    struct tc_wall wall = {.length = 3.18, .height = 0.5, .depth = 0.4, .power_limit = 510};
    struct tc_wall_model model = tank(0.6, 0.3, 0.3);
    const struct tc_wall_goal goal = {.aim = TC_WALL_MOST_TANKS};
    struct tc_wall_mix mix;
    assert_int_equal(tc_wall_mix_find(&wall, &model, 1, &goal, NULL, &mix), TC_OK);
    assert_int_equal(mix.tanks, 5);
    struct tc_wall_slack slack;
    tc_wall_slack(&wall, &mix, TC_WALL_LIMIT_LENGTH, &slack);
    assert_true(slack.limited);
    assert_near(slack.left, 0.18, 1e-9);
    tc_wall_slack(&wall, &mix, TC_WALL_LIMIT_POWER, &slack);
    assert_near(slack.left, 310, 1e-9);
    tc_wall_slack(&wall, &mix, TC_WALL_LIMIT_BUDGET, &slack);
    assert_false(slack.limited);
    tc_wall_slack(&wall, &mix, TC_WALL_LIMIT_HEIGHT, &slack);
    assert_near(slack.left, 0.2, 1e-9);

    struct tc_wall_sensitivity relief;
    assert_int_equal(
        tc_wall_sensitivity_find(&wall, &model, 1, &goal, &mix, TC_WALL_LIMIT_LENGTH, 0, NULL, &relief),
        TC_OK);
    assert_near(relief.raise, 0.42, 1e-9);
    assert_near(relief.reached, 6, 0);
    assert_true(relief.proven);
    /* More power alone brings nothing; a second tier wants 0.1 m more of height. */
    assert_int_equal(
        tc_wall_sensitivity_find(&wall, &model, 1, &goal, &mix, TC_WALL_LIMIT_POWER, 0, NULL, &relief),
        TC_NO_RESULT);
    assert_int_equal(
        tc_wall_sensitivity_find(&wall, &model, 1, &goal, &mix, TC_WALL_LIMIT_HEIGHT, 0, NULL, &relief),
        TC_OK);
    assert_near(relief.raise, 0.1, 1e-9);
    assert_near(relief.reached, 10, 0);
    /* End-on wants 0.2 m more of depth; so many fit that 510 W bind: 12 tanks but for them, 10 along. */
    assert_int_equal(
        tc_wall_sensitivity_find(&wall, &model, 1, &goal, &mix, TC_WALL_LIMIT_DEPTH, 0, NULL, &relief),
        TC_OK);
    assert_near(relief.raise, 0.2, 1e-9);
    assert_near(relief.reached, 10, 0);
    assert_int_equal(
        tc_wall_sensitivity_find(&wall, &model, 1, &goal, &mix, TC_WALL_LIMIT_BUDGET, 0, NULL, &relief),
        TC_NO_RESULT);
    assert_int_equal(
        tc_wall_sensitivity_find(&wall, &model, 1, &goal, &mix, TC_WALL_LIMIT_COUNT, 0, NULL, &relief),
        TC_RANGE);
    assert_int_equal(
        tc_wall_sensitivity_find(&wall, &model, 1, &goal, &mix, TC_WALL_LIMIT_LENGTH, NAN, NULL, &relief),
        TC_RANGE);
    tc_wall_mix_free(&mix);
}

/* The smallest change of a limit that is a change. */
static double unit_of(enum tc_wall_limit limit)
{
    switch (limit) {
    case TC_WALL_LIMIT_TIERS:
    case TC_WALL_LIMIT_BUDGET: return 1;
    case TC_WALL_LIMIT_POWER: return 1e-3;
    case TC_WALL_LIMIT_BAY_RATING:
    case TC_WALL_LIMIT_TIER_RATING: return 0.1;
    case TC_WALL_LIMIT_FLOOR: return 0.1;
    default: return 1e-6;
    }
}

static void raise_by(struct tc_wall *wall, enum tc_wall_limit limit, double raise)
{
    switch (limit) {
    case TC_WALL_LIMIT_LENGTH: wall->length += raise; break;
    case TC_WALL_LIMIT_HEIGHT: wall->height += raise; break;
    case TC_WALL_LIMIT_DEPTH: wall->depth += raise; break;
    case TC_WALL_LIMIT_REACH: wall->reach += raise; break;
    case TC_WALL_LIMIT_TIERS: wall->tiers += (int)lround(raise); break;
    case TC_WALL_LIMIT_BAY_RATING: wall->bay_rating += raise; break;
    case TC_WALL_LIMIT_TIER_RATING: wall->tier_rating += raise; break;
    case TC_WALL_LIMIT_FLOOR: wall->floor_limit += raise; break;
    case TC_WALL_LIMIT_POWER: wall->power_limit += raise; break;
    case TC_WALL_LIMIT_BUDGET: wall->budget += llround(raise); break;
    case TC_WALL_LIMIT_COUNT: break;
    }
}

/* How far the goal gets with a limit raised; the direction such that more is better. */
static double goal_with(const struct wall_case *c, const struct tc_wall *wall,
                        const struct tc_wall_model *models, enum tc_wall_limit limit, double raise)
{
    struct tc_wall raised = *wall;
    raise_by(&raised, limit, raise);
    struct tc_wall_mix mix;
    assert_int_equal(tc_wall_mix_find(&raised, models, c->models, &c->goal, NULL, &mix), TC_OK);
    double reached = c->goal.aim == TC_WALL_LEAST_COST ? -mix.reached : mix.reached;
    tc_wall_mix_free(&mix);
    return reached;
}

/* With the raise the goal is reached, with a little less it is not: asked of the packing itself. */
static void a_raise_is_enough_and_no_less_would_be(void **state)
{
    (void)state;
    int helped[TC_WALL_LIMIT_COUNT] = {0};
    int asked = 0, open = 0;
    for (uint64_t seed = 80; seed <= 180; seed += (uint64_t)test_step()) {
        struct wall_case c;
        struct tc_wall wall;
        struct tc_wall_model models[WALL_CASE_MODELS];
        wall_case_draw_small(&c, seed, 5, (enum tc_wall_objective)(seed % 5));
        wall_case_in_si(&c, &wall, models);
        struct tc_wall_mix mix;
        if (tc_wall_mix_find(&wall, models, c.models, &c.goal, NULL, &mix) != TC_OK)
            continue;
        double sign = c.goal.aim == TC_WALL_LEAST_COST ? -1 : 1;
        double step = c.goal.aim == TC_WALL_MOST_TANKS ? 2 : 0.05 * mix.reached;
        double target = sign * mix.reached + step;
        double margin = 1e-6 * fabs(target);
        for (int k = 0; step > 0 && k < TC_WALL_LIMIT_COUNT; k++) {
            enum tc_wall_limit limit = (enum tc_wall_limit)k;
            struct tc_wall_slack slack;
            tc_wall_slack(&wall, &mix, limit, &slack);
            assert_true(!slack.limited || slack.used <= slack.limit * (1 + 1e-6));
            struct tc_wall_sensitivity relief;
            enum tc_status status =
                tc_wall_sensitivity_find(&wall, models, c.models, &c.goal, &mix, limit, step, NULL, &relief);
            asked++;
            if (status != TC_OK || !relief.proven) {
                assert_true(status == TC_NO_RESULT || status == TC_STOPPED || status == TC_OK);
                open += status != TC_NO_RESULT;
                continue;
            }
            helped[k]++;
            assert_true(relief.raise > 0);
            double with = goal_with(&c, &wall, models, limit, relief.raise);
            assert_true(with >= target - margin);
            /* The ratio with it may be better still than the one that is enough. */
            if (c.goal.aim != TC_WALL_WATER_PER_MONEY)
                assert_near(sign * relief.reached, with, margin);
            assert_true(sign * relief.reached <= with + margin);
            assert_true(goal_with(&c, &wall, models, limit, relief.raise - unit_of(limit)) < target + margin);
        }
        tc_wall_mix_free(&mix);
    }
    for (int k = 0; k < TC_WALL_LIMIT_COUNT; k++)
        assert_true(helped[k] > 0 || test_step() > 1); /* every limit had its turn */
    assert_true(open <= asked / 50);                   /* hardly a search is given up */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_more_tank_needs_so_much_more_wall),
        cmocka_unit_test(a_raise_is_enough_and_no_less_would_be),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
