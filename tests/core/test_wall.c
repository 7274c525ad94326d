/* SPDX-License-Identifier: MIT */
/* How tanks stand on a wall, what they weigh on it, and where the best mix puts them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/base/unit.h"
#include "core/wall/wall.h"
#include "core/wall/wall_solve.h"
#include "support/failing_malloc.h"
#include "support/near.h"
#include "support/step.h"
#include "support/wall_case.h"

#define INCH    0.0254
#define FOOT    0.3048
#define POUND   0.45359237
#define SQ_FOOT (FOOT * FOOT)

/* A plain wall on which only its room limits. */
static struct tc_wall plain_wall(double length, double height, double depth)
{
    return (struct tc_wall){.length = length, .height = height, .depth = depth};
}

static struct tc_wall_model plain_model(double length, double width, double height)
{
    struct tc_wall_model model = {
        .length = length,
        .width = width,
        .height = height,
        .mass = 1000 * length * width * height,
        .area = length * width,
        .volume = length * width * height,
        .power = 10,
        .price = {10000, 20000},
        .most = TC_WALL_UNLIMITED,
    };
    return model;
}

static int most_tanks(const struct tc_wall *wall, const struct tc_wall_model *model)
{
    const struct tc_wall_goal goal = {.aim = TC_WALL_MOST_TANKS};
    struct tc_wall_mix mix;
    assert_int_equal(tc_wall_mix_find(wall, model, 1, &goal, NULL, &mix), TC_OK);
    assert_true(mix.proven);
    int tanks = mix.tanks;
    assert_int_equal(mix.count[0], tanks);
    tc_wall_mix_free(&mix);
    return tanks;
}

/* Six 3 ft tanks side by side want a little over 18 ft: common practice, no source. */
static void six_three_foot_tanks_want_a_little_over_18_feet(void **state)
{
    (void)state;
    struct tc_wall_model model = plain_model(36.25 * INCH, 18 * INCH, 16 * INCH);
    struct tc_wall wall = plain_wall(18 * FOOT, 0.5, 20 * INCH);
    wall.gap = 0.5 * INCH;
    assert_int_equal(most_tanks(&wall, &model), 5);
    wall.length = 18 * FOOT + 4 * INCH; /* 6 * 36.25 + 5 * 0.5 = 220 in exactly */
    assert_int_equal(most_tanks(&wall, &model), 6);
    wall.length -= 1e-6;
    assert_int_equal(most_tanks(&wall, &model), 5);
}

/*
 * With the same room height a 13 in high tank is stacked three high where a 17 in high one is stacked two
 * high: common practice, no source.
 */
static void a_13_inch_tank_stacks_three_high_where_a_17_inch_one_stacks_two(void **state)
{
    (void)state;
    struct tc_wall_model low = plain_model(30 * INCH, 12 * INCH, 13 * INCH);
    struct tc_wall_model high = plain_model(30 * INCH, 12 * INCH, 17 * INCH);
    /* Usable to 78..84 in, lowest tank a hand above the floor, a foot or an inch less above each tank. */
    for (int top = 78; top <= 84; top += 2) {
        for (int access = 11; access <= 12; access++) {
            struct tc_wall wall = plain_wall(3, top * INCH, 0.5);
            wall.lowest = 3 * INCH;
            wall.access = access * INCH;
            struct tc_wall_stand stand;
            tc_wall_stand(&wall, &low, false, &stand);
            assert_int_equal(stand.tiers, 3);
            assert_int_equal(stand.end, TC_WALL_END_HEIGHT);
            tc_wall_stand(&wall, &high, false, &stand);
            assert_int_equal(stand.tiers, 2);
        }
    }
}

static void inches_that_fit_on_paper_fit(void **state)
{
    (void)state;
    /* Sixteenths of an inch are whole units, so n of them fill n sixteenths to the last one. */
    for (int sixteenths = 1; sixteenths <= 16 * 40; sixteenths++) {
        double size = sixteenths * INCH / 16;
        assert_int_equal(tc_wall_units_up(size), tc_wall_units_down(size));
        assert_int_equal(tc_wall_units_up(size), sixteenths * 15875);
    }
    struct tc_wall_model model = plain_model(12 * INCH, 6 * INCH, 8 * INCH);
    for (int n = 1; n <= 40; n++) {
        struct tc_wall wall = plain_wall(n * 12 * INCH, 8 * INCH, 6 * INCH);
        assert_int_equal(most_tanks(&wall, &model), n);
        wall.length = n * 0.3048 - 1e-9; /* a hundredth of a unit: rounding of the figures, not a size */
        assert_int_equal(most_tanks(&wall, &model), n == 0 ? 0 : n - 1);
    }
}

static void refuses_figures_out_of_range(void **state)
{
    (void)state;
    const struct tc_wall good = plain_wall(3, 2, 0.6);
    assert_int_equal(tc_wall_check(&good), TC_OK);
    struct tc_wall wall = good;
    wall.length = NAN;
    assert_int_equal(tc_wall_check(&wall), TC_RANGE);
    wall = good;
    wall.gap = -0.01;
    assert_int_equal(tc_wall_check(&wall), TC_RANGE);
    wall = good;
    wall.power_limit = INFINITY;
    assert_int_equal(tc_wall_check(&wall), TC_RANGE);
    wall = good;
    wall.budget = -1;
    assert_int_equal(tc_wall_check(&wall), TC_RANGE);

    const struct tc_wall_model tank = plain_model(0.6, 0.3, 0.3);
    assert_int_equal(tc_wall_check_model(&tank), TC_OK);
    struct tc_wall_model model = tank;
    model.height = 0;
    assert_int_equal(tc_wall_check_model(&model), TC_RANGE);
    model = tank;
    model.least = 3;
    model.most = 2;
    assert_int_equal(tc_wall_check_model(&model), TC_RANGE);
    model = tank;
    model.sale_most = 1;
    model.sale_price[TC_WALL_TO_BUY] = model.price[TC_WALL_TO_BUY] + 1;
    assert_int_equal(tc_wall_check_model(&model), TC_RANGE);

    struct tc_wall_mix mix;
    const struct tc_wall_goal goal = {.aim = TC_WALL_MOST_TANKS};
    assert_int_equal(tc_wall_mix_find(&good, &model, 1, &goal, NULL, &mix), TC_RANGE);
    wall = plain_wall(1000, 50, 1);
    model = plain_model(0.01, 0.01, 0.01);
    assert_int_equal(tc_wall_mix_find(&wall, &model, 1, &goal, NULL, &mix), TC_RANGE);
    struct tc_wall_goal negative = {.wanted = -1};
    assert_int_equal(tc_wall_mix_find(&good, &tank, 1, &negative, NULL, &mix), TC_RANGE);
}

/* The first obstacle of each kind. */
static void says_why_a_model_cannot_stand(void **state)
{
    (void)state;
    struct tc_wall_model model = plain_model(1.2, 0.5, 0.6); /* 360 kg */
    struct tc_wall_stand stand;
    struct tc_wall wall = plain_wall(1.0, 2, 0.7);
    tc_wall_stand(&wall, &model, false, &stand);
    assert_int_equal(stand.obstacle, TC_WALL_TOO_LONG);
    assert_int_equal(stand.tiers, 0);
    tc_wall_stand(&wall, &model, true, &stand);
    assert_int_equal(stand.obstacle, TC_WALL_TOO_DEEP);
    wall.depth = 1.3;
    tc_wall_stand(&wall, &model, true, &stand);
    assert_int_equal(stand.obstacle, TC_WALL_FITS);
    assert_int_equal(stand.tiers, 3);
    wall.reach = 0.8;
    tc_wall_stand(&wall, &model, true, &stand);
    assert_int_equal(stand.obstacle, TC_WALL_OUT_OF_REACH);
    wall.length = 3;
    wall.lowest = 0.1;
    wall.access = 0.2;
    wall.shelf = 0.05;
    tc_wall_stand(&wall, &model, false, &stand); /* 0.1 + 2 * 0.8 + 0.05 <= 2 */
    assert_int_equal(stand.tiers, 2);
    wall.height = 0.85;
    tc_wall_stand(&wall, &model, false, &stand);
    assert_int_equal(stand.obstacle, TC_WALL_TOO_HIGH);
    wall.height = 2;
    wall.tier_rating = 359;
    tc_wall_stand(&wall, &model, false, &stand);
    assert_int_equal(stand.obstacle, TC_WALL_TIER_LOAD);
    wall.tier_rating = 360;
    wall.bay_rating = 359;
    tc_wall_stand(&wall, &model, false, &stand);
    assert_int_equal(stand.obstacle, TC_WALL_BAY_LOAD);
    wall.bay_rating = 719;
    tc_wall_stand(&wall, &model, false, &stand);
    assert_int_equal(stand.tiers, 1);
    assert_int_equal(stand.end, TC_WALL_END_BAY_LOAD);
    wall.bay_rating = 720;
    wall.floor_limit = 360 * TC_GRAVITY / (1.2 * 0.5) - 1;
    tc_wall_stand(&wall, &model, false, &stand);
    assert_int_equal(stand.obstacle, TC_WALL_FLOOR_LOAD);
    wall.floor_limit += 1;
    tc_wall_stand(&wall, &model, false, &stand);
    assert_int_equal(stand.tiers, 1);
    assert_int_equal(stand.end, TC_WALL_END_FLOOR_LOAD);
    wall.floor_spread = 0.5; /* twice the footprint */
    tc_wall_stand(&wall, &model, false, &stand);
    assert_int_equal(stand.tiers, 2);
    wall.tiers = 1;
    tc_wall_stand(&wall, &model, false, &stand);
    assert_int_equal(stand.tiers, 1);
    assert_int_equal(stand.end, TC_WALL_END_TIERS);
}

/*
 * IRC table R301.5: 30 psf for sleeping rooms, 40 psf for others; "1 psf = 0.0479 kN/m2"; recomputed 146.5
 * and 195.3 kg/m2. EN 1991-1-1 table 6.2, category A, from memory: 1.5 to 2.0 kN/m2; recomputed 153.0 and
 * 203.9 kg/m2.
 */
static void floor_figures_agree_with_the_published_ones(void **state)
{
    (void)state;
    const struct tc_wall_floor_mark *marks;
    assert_int_equal(tc_wall_floor_marks(&marks), 4);
    const double psf = POUND * TC_GRAVITY / SQ_FOOT;
    assert_near(psf, 47.9, 0.05);
    assert_near(marks[0].pressure, 30 * psf, 1e-4);
    assert_near(marks[2].pressure, 40 * psf, 1e-4);
    const double per_area[] = {146.5, 153.0, 195.3, 203.9};
    for (int k = 0; k < 4; k++) {
        assert_near(marks[k].pressure / TC_GRAVITY, per_area[k], 0.06);
        assert_non_null(marks[k].text);
    }
    /* 0.4 m of water alone presses with rho g h = 3.9 kPa: far above what a dwelling's floor is designed for.
     */
    struct tc_wall wall = plain_wall(3, 2, 0.6);
    struct tc_wall_model model = plain_model(1, 0.5, 0.4);
    struct tc_wall_stand stand;
    tc_wall_stand(&wall, &model, false, &stand);
    double pressure = tc_wall_pressure(&wall, &stand, model.mass, 1);
    assert_near(pressure, 1000 * TC_GRAVITY * 0.4, 1e-9);
    assert_true(pressure > marks[3].pressure);
}

/* NEC 210.19(A)(1): 15 A -> 12 A, 1440 W; 20 A -> 16 A, 1920 W, at 120 V. 230 V, 16 A, plain: 3680 W. */
static void continuous_power_of_circuits(void **state)
{
    (void)state;
    assert_near(tc_wall_continuous_power(120, 15, TC_WALL_CONTINUOUS_SHARE), 1440, 1e-9);
    assert_near(tc_wall_continuous_power(120, 20, TC_WALL_CONTINUOUS_SHARE), 1920, 1e-9);
    assert_near(tc_wall_continuous_power(230, 16, 1), 3680, 1e-9);
    /* A conductor for 125 % of a load that goes on for hours carries that load and no more. */
    assert_near(tc_wall_continuous_power(120, 16 * 1.25, TC_WALL_CONTINUOUS_SHARE), 120 * 16, 1e-9);
}

static void sale_prices_hold_for_the_first_tanks(void **state)
{
    (void)state;
    struct tc_wall_model model = plain_model(0.6, 0.3, 0.3);
    model.sale_most = 3;
    model.sale_price[TC_WALL_TO_BUY] = 5000;
    model.sale_price[TC_WALL_OVER_PERIOD] = 15000;
    enum tc_status status = TC_OK;
    assert_int_equal(tc_wall_cost(&model, 2, TC_WALL_TO_BUY, &status), 10000);
    assert_int_equal(tc_wall_cost(&model, 5, TC_WALL_TO_BUY, &status), 3 * 5000 + 2 * 10000);
    assert_int_equal(tc_wall_cost(&model, 5, TC_WALL_OVER_PERIOD, &status), 3 * 15000 + 2 * 20000);
    assert_int_equal(status, TC_OK);
    struct tc_wall wall = plain_wall(10, 0.4, 0.4);
    wall.budget = 3 * 5000 + 2 * 10000 + 9999;
    const struct tc_wall_goal goal = {.aim = TC_WALL_MOST_TANKS};
    struct tc_wall_mix mix;
    assert_int_equal(tc_wall_mix_find(&wall, &model, 1, &goal, NULL, &mix), TC_OK);
    assert_int_equal(mix.tanks, 5);
    assert_int_equal(mix.on_sale[0], 3);
    assert_int_equal(mix.cost[TC_WALL_TO_BUY], 35000);
    assert_int_equal(mix.cost[TC_WALL_OVER_PERIOD], 85000);
    tc_wall_mix_free(&mix);
}

/* The tanks of one tier, from `first` on: beside one another, on one height, in the bay; returns the next. */
static int check_tier(const struct tc_wall *wall, const struct tc_wall_model *models,
                      const struct tc_wall_mix *mix, int first, double *top, double *mass, double *pressure)
{
    const struct tc_wall_bay *bay = &mix->bay[mix->tank[first].bay];
    struct tc_wall stretch = tc_wall_of_stretch(wall, bay->stretch);
    double x = bay->x + (wall->post > 0 ? wall->gap : 0);
    double highest = 0, most = 0;
    int k = first;
    for (; k < mix->tanks && mix->tank[k].bay == mix->tank[first].bay &&
           mix->tank[k].tier == mix->tank[first].tier;
         k++) {
        const struct tc_wall_tank *tank = &mix->tank[k];
        const struct tc_wall_model *model = &models[tank->model];
        assert_near(tank->x, x, 1e-6);
        assert_near(tank->y, mix->tank[first].y, 1e-9);
        assert_near(tank->width, tank->end_on ? model->width : model->length, 1e-9);
        assert_near(tank->depth, tank->end_on ? model->length : model->width, 1e-9);
        assert_true(tank->depth <= stretch.depth && (wall->reach <= 0 || tank->depth <= wall->reach));
        x += tank->width + wall->gap;
        highest = fmax(highest, model->height);
        most = fmax(most, model->mass * TC_GRAVITY / (tank->width * (tank->depth + wall->floor_spread)));
        *mass += model->mass;
    }
    assert_true(x - (wall->post > 0 ? 0 : wall->gap) <= bay->x + bay->width + 1e-6);
    assert_true(wall->bay_length > 0 || k == first + 1);
    *top = mix->tank[first].y + highest + wall->access;
    *pressure += most;
    return k;
}

static void check_bay(const struct tc_wall *wall, const struct tc_wall_model *models,
                      const struct tc_wall_mix *mix, const struct tc_wall_bay *bay)
{
    double mass = 0, pressure = 0, top = 0, fullest = 0;
    int tiers = 0;
    for (int k = bay->first; k < bay->first + bay->tanks;) {
        double before = mass;
        assert_near(mix->tank[k].y, tiers == 0 ? wall->lowest : top + wall->shelf, 1e-6);
        assert_int_equal(mix->tank[k].tier, tiers++);
        k = check_tier(wall, models, mix, k, &top, &mass, &pressure);
        fullest = fmax(fullest, mass - before);
        /* Heavy tiers stand below. */
        assert_true(tiers < 2 || bay->tier_mass >= mass - before - 1e-9);
    }
    assert_int_equal(tiers, bay->tiers);
    assert_true(wall->tiers == 0 || tiers <= wall->tiers);
    assert_near(bay->mass, mass, 1e-6);
    assert_near(bay->tier_mass, fullest, 1e-6);
    assert_near(bay->height, top, 1e-6);
    assert_near(bay->pressure, pressure, 1e-6 * pressure);
    assert_true(top <= tc_wall_of_stretch(wall, bay->stretch).height + 1e-6);
    assert_true(wall->bay_length <= 0 || bay->width <= wall->bay_length + 1e-6);
    assert_true(wall->bay_rating <= 0 || bay->mass <= wall->bay_rating * (1 + 1e-6));
    assert_true(wall->tier_rating <= 0 || bay->tier_mass <= wall->tier_rating * (1 + 1e-6));
    assert_true(wall->floor_limit <= 0 || bay->pressure <= wall->floor_limit * (1 + 1e-6));
}

/* Everything of a mix follows from its placement; nothing overlaps, leaves the wall or breaks a rating. */
static void check_placement(const struct tc_wall *wall, const struct tc_wall_model *models,
                            const struct tc_wall_mix *mix)
{
    int tanks = 0;
    double mass = 0, power[TC_WALL_CIRCUITS_MAX] = {0}, end[TC_WALL_STRETCHES_MAX] = {0};
    for (int b = 0; b < mix->bays; b++) {
        const struct tc_wall_bay *bay = &mix->bay[b];
        double at = end[bay->stretch];
        assert_near(bay->x, at > 0 ? at + (wall->post > 0 ? wall->post : wall->gap) : wall->post, 1e-6);
        end[bay->stretch] = bay->x + bay->width;
        assert_int_equal(bay->first, tanks);
        check_bay(wall, models, mix, bay);
        tanks += bay->tanks;
        mass += bay->mass;
        power[bay->circuit] += bay->power;
    }
    assert_int_equal(tanks, mix->tanks);
    assert_near(mass, mix->mass, 1e-6);
    for (int s = 0; s <= wall->more_stretches; s++) {
        assert_near(end[s] > 0 ? end[s] + wall->post : 0, mix->length[s], 1e-6);
        assert_true(mix->length[s] <= tc_wall_of_stretch(wall, s).length + 1e-9);
    }
    for (int c = 0; c <= wall->more_circuits; c++) {
        double limit = c == 0 ? wall->power_limit : wall->more_power[c - 1];
        assert_near(power[c], mix->power_on[c], 1e-6);
        assert_true(limit <= 0 || power[c] <= limit + 1e-6);
    }
}

static void racks_uprights_and_ratings_count(void **state)
{
    (void)state;
    /* 0.5 m tanks in bays of up to 1.6 m clear: three columns, 3 * 0.5 + 4 * 0.02 = 1.58 m. */
    struct tc_wall wall = plain_wall(3.5, 1.9, 0.4);
    wall.access = 0.3;
    wall.lowest = 0.1;
    wall.gap = 0.02;
    wall.post = 0.04;
    wall.bay_length = 1.6;
    wall.bay_price = 8000;
    wall.tier_price = 1500;
    struct tc_wall_model model = plain_model(0.5, 0.3, 0.3); /* 45 kg */
    const struct tc_wall_goal goal = {.aim = TC_WALL_MOST_TANKS};
    struct tc_wall_mix mix;
    assert_int_equal(tc_wall_mix_find(&wall, &model, 1, &goal, NULL, &mix), TC_OK);
    /* End-on does not fit in 0.4 m. Two bays: 0.04 + 2 * (1.58 + 0.04) = 3.28 m; three tiers of 0.6 m. */
    assert_int_equal(mix.bays, 2);
    assert_int_equal(mix.tanks, 18);
    assert_near(mix.length[0], 3.28, 1e-9);
    assert_int_equal(mix.rack, 2 * (8000 + 3 * 1500));
    assert_int_equal(mix.cost[TC_WALL_TO_BUY], 18 * 10000 + mix.rack);
    assert_near(mix.bay[0].mass, 9 * 45, 1e-9);
    assert_near(mix.bay[0].tier_mass, 3 * 45, 1e-9);
    check_placement(&wall, &model, &mix);
    tc_wall_mix_free(&mix);

    wall.tier_rating = 100; /* two columns a bay: 0.04 + n * (1.04 + 0.02 + 0.04): three bays */
    assert_int_equal(tc_wall_mix_find(&wall, &model, 1, &goal, NULL, &mix), TC_OK);
    assert_int_equal(mix.tanks, 18);
    assert_int_equal(mix.bays, 3);
    check_placement(&wall, &model, &mix);
    tc_wall_mix_free(&mix);

    /*
     * Five of the six tanks a bay of two columns has room for. A bay of two takes 1.10 m, one of a single
     * column 0.58 m for three tanks: of 3.46 m, one wide bay and four single ones take 3.42 m and hold 5
     * + 12.
     */
    wall.bay_rating = 5 * 45;
    assert_int_equal(tc_wall_mix_find(&wall, &model, 1, &goal, NULL, &mix), TC_OK);
    assert_int_equal(mix.tanks, 17);
    assert_int_equal(mix.bays, 5);
    assert_near(mix.length[0], 0.04 + 1.10 + 4 * 0.58, 1e-9);
    check_placement(&wall, &model, &mix);
    tc_wall_mix_free(&mix);
}

static void end_on_where_depth_and_reach_allow(void **state)
{
    (void)state;
    struct tc_wall wall = plain_wall(3, 0.5, 0.5);
    struct tc_wall_model model = plain_model(0.6, 0.3, 0.3);
    assert_int_equal(most_tanks(&wall, &model), 5);
    wall.depth = 0.6;
    assert_int_equal(most_tanks(&wall, &model), 10);
    wall.reach = 0.55;
    assert_int_equal(most_tanks(&wall, &model), 5);
    /* 3.2 m: ten end-on leave 0.2 m; five along leave the same; a mix of both is no better. 3.3 m hold
     * eleven. */
    wall.reach = 0;
    wall.length = 3.2;
    assert_int_equal(most_tanks(&wall, &model), 10);
    wall.length = 3.3;
    assert_int_equal(most_tanks(&wall, &model), 11);
}

static void ties_go_to_the_cheaper(void **state)
{
    (void)state;
    struct tc_wall wall = plain_wall(2.4, 0.5, 0.4);
    struct tc_wall_model models[3] = {plain_model(0.6, 0.3, 0.3), plain_model(0.6, 0.3, 0.3),
                                      plain_model(0.6, 0.3, 0.3)};
    models[1].price[TC_WALL_TO_BUY] = 9999;
    models[1].most = 1;
    const struct tc_wall_goal goal = {.aim = TC_WALL_MOST_TANKS};
    struct tc_wall_mix mix;
    assert_int_equal(tc_wall_mix_find(&wall, models, 3, &goal, NULL, &mix), TC_OK);
    assert_true(mix.proven);
    assert_int_equal(mix.tanks, 4);
    assert_int_equal(mix.count[1], 1);
    assert_true(mix.count[0] == 3 || mix.count[2] == 3);
    tc_wall_mix_free(&mix);
}

static void wanted_numbers_are_kept_or_refused(void **state)
{
    (void)state;
    struct tc_wall wall = plain_wall(3.0, 0.5, 0.4);
    struct tc_wall_model models[2] = {plain_model(0.6, 0.3, 0.3), plain_model(0.3, 0.3, 0.3)};
    models[0].least = 2;
    struct tc_wall_goal goal = {.aim = TC_WALL_MOST_TANKS};
    struct tc_wall_mix mix;
    assert_int_equal(tc_wall_mix_find(&wall, models, 2, &goal, NULL, &mix), TC_OK);
    assert_int_equal(mix.count[0], 2);
    assert_int_equal(mix.count[1], 6);
    check_placement(&wall, models, &mix);
    tc_wall_mix_free(&mix);
    goal = (struct tc_wall_goal){.aim = TC_WALL_LEAST_COST, .wanted = 9};
    assert_int_equal(tc_wall_mix_find(&wall, models, 2, &goal, NULL, &mix), TC_NO_RESULT);
    models[0].least = 6;
    goal.wanted = 0;
    assert_int_equal(tc_wall_mix_find(&wall, models, 2, &goal, NULL, &mix), TC_NO_RESULT);
}

static void an_empty_wall_is_an_answer(void **state)
{
    (void)state;
    struct tc_wall wall = plain_wall(0.5, 0.5, 0.4);
    struct tc_wall_model model = plain_model(0.6, 0.3, 0.3);
    wall.post = 0.6;
    const struct tc_wall_goal goal = {.aim = TC_WALL_MOST_WATER};
    struct tc_wall_mix mix;
    assert_int_equal(tc_wall_mix_find(&wall, &model, 1, &goal, NULL, &mix), TC_OK);
    assert_int_equal(mix.tanks, 0);
    assert_int_equal(mix.bays, 0);
    assert_near(mix.length[0], 0, 0);
    tc_wall_mix_free(&mix);
    assert_int_equal(tc_wall_mix_find(&wall, NULL, 0, &goal, NULL, &mix), TC_OK);
    assert_int_equal(mix.tanks, 0);
    tc_wall_mix_free(&mix);
    /* Water per money is of at least one tank. */
    const struct tc_wall_goal ratio = {.aim = TC_WALL_WATER_PER_MONEY};
    assert_int_equal(tc_wall_mix_find(&wall, &model, 1, &ratio, NULL, &mix), TC_NO_RESULT);
}

static void random_mixes_stand_as_they_say(void **state)
{
    (void)state;
    int bays_of_several = 0;
    for (uint64_t seed = 1; seed <= 500; seed += (uint64_t)test_step()) {
        struct wall_case c;
        struct tc_wall wall;
        struct tc_wall_model models[WALL_CASE_MODELS];
        wall_case_draw_small(&c, seed, 8, TC_WALL_MOST_WATER);
        wall_case_in_si(&c, &wall, models);
        struct tc_wall_mix mix;
        if (tc_wall_mix_find(&wall, models, c.models, &c.goal, NULL, &mix) != TC_OK)
            continue;
        check_placement(&wall, models, &mix);
        assert_true(wall.budget == 0 || mix.cost[wall.budget_kind] <= wall.budget);
        assert_true(wall.floor_limit == 0 || mix.pressure <= wall.floor_limit * (1 + 1e-6));
        assert_true(mix.tanks >= c.goal.wanted);
        for (int k = 0; k < 2; k++) {
            enum tc_status status = TC_OK;
            tc_money cost = mix.rack;
            for (int i = 0; i < c.models; i++) {
                assert_true(mix.count[i] >= models[i].least);
                assert_true(models[i].most == TC_WALL_UNLIMITED || mix.count[i] <= models[i].most);
                cost += tc_wall_cost(&models[i], mix.count[i], (enum tc_wall_money)k, &status);
            }
            assert_int_equal(mix.cost[k], cost);
        }
        for (int b = 0; b < mix.bays; b++)
            bays_of_several += mix.bay[b].tanks > mix.bay[b].tiers;
        tc_wall_mix_free(&mix);
    }
    assert_true(bays_of_several > 50 || test_step() > 1);
}

/* Stopped after a few nodes: a mix that keeps all limits, and a bound no better mix can pass. */
static void a_stopped_search_says_so(void **state)
{
    (void)state;
    int stopped = 0;
    for (uint64_t seed = 1; seed <= 40; seed += (uint64_t)test_step()) {
        enum tc_wall_objective aim = (enum tc_wall_objective)(seed % 5);
        struct wall_case c;
        struct tc_wall wall;
        struct tc_wall_model models[WALL_CASE_MODELS];
        wall_case_draw_room(&c, seed, 10, 6000, aim);
        wall_case_in_si(&c, &wall, models);
        const struct tc_knapsack_effort effort = {.nodes = 1};
        struct tc_wall_mix mix;
        struct tc_wall_mix best;
        enum tc_status status = tc_wall_mix_find(&wall, models, c.models, &c.goal, &effort, &mix);
        assert_true(status == TC_OK || status == TC_STOPPED || status == TC_NO_RESULT);
        if (status != TC_OK)
            continue;
        assert_int_equal(tc_wall_mix_find(&wall, models, c.models, &c.goal, NULL, &best), TC_OK);
        check_placement(&wall, models, &mix);
        double sign = aim == TC_WALL_LEAST_COST ? -1 : 1;
        double margin = 1e-9 * fabs(best.reached);
        assert_true(sign * mix.reached <= sign * best.reached + margin);
        assert_true(sign * mix.bound >= sign * best.reached - margin);
        if (mix.goals_proven > 0)
            assert_near(mix.reached, best.reached, margin);
        else
            stopped++;
        tc_wall_mix_free(&mix);
        tc_wall_mix_free(&best);
    }
    assert_true(stopped > 5 || test_step() > 1);
}

static void the_same_question_has_the_same_answer(void **state)
{
    (void)state;
    struct wall_case c;
    struct tc_wall wall;
    struct tc_wall_model models[WALL_CASE_MODELS];
    wall_case_draw_room(&c, 5, 12, 12000, TC_WALL_MOST_TANKS);
    wall_case_in_si(&c, &wall, models);
    struct tc_wall_mix mix;
    struct tc_wall_mix again;
    assert_int_equal(tc_wall_mix_find(&wall, models, c.models, &c.goal, NULL, &mix), TC_OK);
    assert_int_equal(tc_wall_mix_find(&wall, models, c.models, &c.goal, NULL, &again), TC_OK);
    assert_int_equal(mix.nodes, again.nodes);
    for (int i = 0; i < c.models; i++)
        assert_int_equal(mix.count[i], again.count[i]);
    tc_wall_mix_free(&mix);
    tc_wall_mix_free(&again);
}

static void running_out_of_memory_is_reported_and_leaks_nothing(void **state)
{
    (void)state;
    struct wall_case c;
    struct tc_wall wall;
    struct tc_wall_model models[WALL_CASE_MODELS];
    wall_case_draw_room(&c, 4, 2, 2000, TC_WALL_WATER_PER_MONEY);
    wall_case_in_si(&c, &wall, models);
    for (long n = 0;; n++) {
        struct tc_wall_mix mix;
        failing_malloc_start(n, false);
        enum tc_status status = tc_wall_mix_find(&wall, models, c.models, &c.goal, NULL, &mix);
        if (!failing_malloc_stop()) {
            assert_int_equal(status, TC_OK);
            tc_wall_mix_free(&mix);
            assert_true(n > 100);
            break;
        }
        assert_int_equal(status, TC_NO_MEMORY);
        assert_null(mix.tank);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(six_three_foot_tanks_want_a_little_over_18_feet),
        cmocka_unit_test(a_13_inch_tank_stacks_three_high_where_a_17_inch_one_stacks_two),
        cmocka_unit_test(inches_that_fit_on_paper_fit),
        cmocka_unit_test(refuses_figures_out_of_range),
        cmocka_unit_test(says_why_a_model_cannot_stand),
        cmocka_unit_test(floor_figures_agree_with_the_published_ones),
        cmocka_unit_test(continuous_power_of_circuits),
        cmocka_unit_test(sale_prices_hold_for_the_first_tanks),
        cmocka_unit_test(racks_uprights_and_ratings_count),
        cmocka_unit_test(end_on_where_depth_and_reach_allow),
        cmocka_unit_test(ties_go_to_the_cheaper),
        cmocka_unit_test(wanted_numbers_are_kept_or_refused),
        cmocka_unit_test(an_empty_wall_is_an_answer),
        cmocka_unit_test(random_mixes_stand_as_they_say),
        cmocka_unit_test(a_stopped_search_says_so),
        cmocka_unit_test(the_same_question_has_the_same_answer),
        cmocka_unit_test(running_out_of_memory_is_reported_and_leaks_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
