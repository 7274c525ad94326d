/* SPDX-License-Identifier: MIT */
/*
 * The best mix of tanks against glpsol (GLPK, https://www.gnu.org/software/glpk/): a hundred random walls
 * for each aim, each as an integer program in its natural form (support/mixed_case.h).
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/wall/wall_solve.h"
#include "support/glpsol.h"
#include "support/need.h"
#include "support/step.h"
#include "support/mixed_case.h"

enum { WALLS = 100, SECONDS = 1, TIES_EVERY = 5, IMPOSSIBLE_EVERY = 3 };

static int64_t values[WALL_CASE_VARIABLES];
static int64_t worths[WALL_CASE_VARIABLES];

/* The optimum of a wall by glpsol. Walls that take it too long are left out. */
static enum glpsol_end optimum(struct glpsol *g, const struct wall_case *c,
                               const struct wall_case_worth *worth, const struct wall_case_worth *also,
                               int64_t at_least, int64_t *best)
{
    assert_true(glpsol_begin(g));
    int count = mixed_case_write(c, worth, also, at_least, worths, g->to);
    enum glpsol_end end = glpsol_solve(g, SECONDS, values, count, NULL);
    assert_true(end != GLPSOL_FAILED);
    *best = 0;
    for (int k = 0; k < count; k++)
        *best += worths[k] * values[k];
    return end;
}

static int64_t area_of(const struct wall_case *c, const struct tc_wall_mix *mix)
{
    int64_t sum = 0;
    for (int i = 0; i < c->models; i++)
        sum += (int64_t)mix->count[i] * c->model[i].area;
    return sum;
}

static int64_t volume_of(const struct wall_case *c, const struct tc_wall_mix *mix)
{
    int64_t sum = 0;
    for (int i = 0; i < c->models; i++)
        sum += (int64_t)mix->count[i] * c->model[i].volume;
    return sum;
}

/* What is to be large, and what the mix has of it, for the aims that are no ratio. */
static struct wall_case_worth worth_of(const struct wall_case *c, const struct tc_wall_mix *mix,
                                       int64_t *reached)
{
    switch (c->goal.aim) {
    case TC_WALL_MOST_TANKS: *reached = mix->tanks; return (struct wall_case_worth){.tanks = 1};
    case TC_WALL_MOST_AREA: *reached = area_of(c, mix); return (struct wall_case_worth){.area = 1};
    case TC_WALL_MOST_WATER: *reached = volume_of(c, mix); return (struct wall_case_worth){.volume = 1};
    default: *reached = -mix->cost[c->goal.money]; return (struct wall_case_worth){.cost = -1};
    }
}

/* Also the second goal: the least cost, or the most water, of all that are best for the first. */
static void check_tie(struct glpsol *g, const struct wall_case *c, const struct tc_wall_mix *mix,
                      const struct wall_case_worth *first, int64_t reached)
{
    struct wall_case_worth second = {.cost = -1};
    int64_t has = -mix->cost[c->goal.money];
    if (c->goal.aim == TC_WALL_LEAST_COST || c->goal.aim == TC_WALL_WATER_PER_MONEY) {
        second = (struct wall_case_worth){.volume = 1};
        has = volume_of(c, mix);
    }
    int64_t best;
    enum glpsol_end end = optimum(g, c, &second, first, reached, &best);
    assert_true(end != GLPSOL_IMPOSSIBLE);
    if (end == GLPSOL_OPTIMAL)
        assert_int_equal(has, best);
}

static void compare(enum tc_wall_objective aim)
{
    skip_without(glpsol_present(), "glpsol");
    struct glpsol g;
    assert_true(glpsol_open(&g));
    int had = 0; /* walls that hold tanks; some of the others are checked as well, and do not count */
    for (uint64_t seed = 1; had < WALLS / test_step(); seed++) {
        struct wall_case c;
        struct tc_wall wall;
        struct tc_wall_model models[WALL_CASE_MODELS];
        mixed_case_draw(&c, seed * 8 + (uint64_t)aim, aim);
        wall_case_in_si(&c, &wall, models);
        struct tc_wall_mix mix;
        enum tc_status status = tc_wall_mix_find(&wall, models, c.models, &c.goal, NULL, &mix);
        if (status != TC_OK) {
            assert_int_equal(status, TC_NO_RESULT);
            if (seed % IMPOSSIBLE_EVERY != 0)
                continue;
            int64_t best;
            const struct wall_case_worth any = {.tanks = 1};
            assert_true(optimum(&g, &c, &any, NULL, 0, &best) != GLPSOL_OPTIMAL);
            continue;
        }
        assert_true(mix.proven);
        had += mix.tanks > 0;
        int64_t reached;
        struct wall_case_worth worth;
        if (aim == TC_WALL_WATER_PER_MONEY) {
            /* The ratio is best where this cannot be made positive. */
            worth = (struct wall_case_worth){.volume = mix.cost[c.goal.money], .cost = -volume_of(&c, &mix)};
            reached = 0;
        } else {
            worth = worth_of(&c, &mix, &reached);
        }
        int64_t best;
        enum glpsol_end end = optimum(&g, &c, &worth, NULL, 0, &best);
        had -= end == GLPSOL_GAVE_UP && mix.tanks > 0;
        if (end != GLPSOL_GAVE_UP && (end != GLPSOL_OPTIMAL || best != reached))
            print_error("seed %d: found %lld, glpsol %lld\n", (int)seed, (long long)reached, (long long)best);
        assert_true(end != GLPSOL_IMPOSSIBLE);
        assert_true(end == GLPSOL_GAVE_UP || best == reached);
        if (end == GLPSOL_OPTIMAL && had % TIES_EVERY == 0)
            check_tie(&g, &c, &mix, &worth, reached);
        tc_wall_mix_free(&mix);
    }
    glpsol_close(&g);
}

static void most_tanks(void **state)
{
    (void)state;
    compare(TC_WALL_MOST_TANKS);
}

static void most_bottom_area(void **state)
{
    (void)state;
    compare(TC_WALL_MOST_AREA);
}

static void most_water(void **state)
{
    (void)state;
    compare(TC_WALL_MOST_WATER);
}

static void most_water_per_money(void **state)
{
    (void)state;
    compare(TC_WALL_WATER_PER_MONEY);
}

static void least_cost(void **state)
{
    (void)state;
    compare(TC_WALL_LEAST_COST);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(most_tanks), cmocka_unit_test(most_bottom_area),
        cmocka_unit_test(most_water), cmocka_unit_test(most_water_per_money),
        cmocka_unit_test(least_cost),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
