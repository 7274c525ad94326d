/* SPDX-License-Identifier: MIT */
/* Sizes, volumes and weights of tanks, by hand and against tables of water. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/goods/tank.h"
#include "support/near.h"
#include "support/sample.h"

#define LENGTH(array) (sizeof(array) / sizeof(array)[0])
#define CELSIUS(t)    (273.15 + (t))
#define POUND         0.45359237

static const struct tc_bed no_bed = {.void_share = 1};

static struct tc_tank_size measured(const struct tc_tank *tank, struct tc_bed bed, double celsius)
{
    struct tc_tank_size size;
    assert_int_equal(tc_tank_measure(tank, bed, CELSIUS(celsius), &size), TC_OK);
    return size;
}

/* All by hand: 100 x 40 x 50 cm of 10 mm glass, 3 cm of air, 5 cm of gravel with 40 % of voids. */
static void a_tank_by_hand(void **state)
{
    (void)state;
    const struct tc_tank tank = {.length = 1,
                                 .width = 0.4,
                                 .height = 0.5,
                                 .glass = 0.01,
                                 .bottom_glass = 0.01,
                                 .freeboard = 0.03,
                                 .frame_mass = 1.5};
    const struct tc_bed bed = {.depth = 0.05, .bulk_density = 1600, .void_share = 0.4};
    struct tc_tank_size size = measured(&tank, bed, 20);
    assert_near(size.inner_length, 0.98, 1e-12);
    assert_near(size.inner_width, 0.38, 1e-12);
    assert_near(size.inner_height, 0.49, 1e-12);
    assert_near(size.water_depth, 0.46, 1e-12);
    assert_near(size.bottom_area, 0.3724, 1e-12);
    assert_near(size.surface_area, 0.3724, 1e-12);
    assert_near(size.footprint, 0.4, 1e-12);
    assert_near(size.swim_length, 0.98, 1e-12);
    assert_near(size.reach, 0.44, 1e-12);
    /* 0.3724 x 0.46 = 0.171304, less grains of 0.3724 x 0.05 x 0.6 = 0.011172 */
    assert_near(size.water_volume, 0.160132, 1e-12);
    /* glass of 0.2 - 0.3724 x 0.49 = 0.017524 m3 at 2500 kg/m3 (EN 572-1) */
    assert_near(size.glass_mass, 43.81, 1e-9);
    assert_near(size.empty_mass, 45.31, 1e-9);
    assert_near(size.substrate_mass, 0.3724 * 0.05 * 1600, 1e-9);
    assert_near(size.water_mass, 0.160132 * 998.2071, 0.01);
    assert_near(size.filled_mass, 45.31 + 29.792 + 159.845, 0.01);
}

/* Pane by pane: the bottom lies within the four sides, two of which stand between the others. */
static void glass_weighs_what_its_panes_do(void **state)
{
    (void)state;
    struct tc_random random = draw_from(40);
    for (int i = 0; i < 1000; i++) {
        struct tc_tank tank = {.length = draw_between(&random, 0.2, 3),
                               .width = draw_between(&random, 0.2, 1),
                               .height = draw_between(&random, 0.2, 1),
                               .glass = draw_between(&random, 0.003, 0.025),
                               .bottom_glass = draw_between(&random, 0.003, 0.025)};
        struct tc_tank_size size = measured(&tank, no_bed, 25);
        double inner_length = tank.length - 2 * tank.glass, inner_width = tank.width - 2 * tank.glass;
        double panes = 2 * tank.length * tank.height * tank.glass +
                       2 * inner_width * tank.height * tank.glass +
                       inner_length * inner_width * tank.bottom_glass;
        assert_near(size.glass_mass, 2500 * panes, 1e-9 * size.glass_mass);
        assert_near(size.filled_mass, size.empty_mass + size.water_mass, 1e-9 * size.filled_mass);
    }
}

/* A bed lets in as much water as it has voids; it takes from the reach, not from the swim. */
static void a_bed_displaces_its_grains(void **state)
{
    (void)state;
    struct tc_tank tank = sample_tank_inches(30, 12, 18, 6);
    struct tc_tank_size bare = measured(&tank, no_bed, 25);
    for (int tenths = 0; tenths <= 10; tenths++) {
        struct tc_bed bed = {.depth = 0.04, .bulk_density = 1500, .void_share = tenths / 10.0};
        struct tc_tank_size size = measured(&tank, bed, 25);
        assert_near(bare.water_volume - size.water_volume, bare.bottom_area * 0.04 * (1 - bed.void_share),
                    1e-12);
        assert_near(bare.reach - size.reach, 0.04, 1e-12);
        assert_near(size.swim_length, bare.swim_length, 0);
        assert_near(size.water_depth, bare.water_depth, 0);
    }
}

static void a_tank_without_room_is_refused(void **state)
{
    (void)state;
    const struct tc_tank good = {
        .length = 0.6, .width = 0.3, .height = 0.3, .glass = 0.006, .bottom_glass = 0.006, .freeboard = 0.03};
    struct tc_tank_size size;
    struct tc_tank tank = good;
    double depth = 0.3 - 0.006 - 0.03;
    tank.glass = 0.15;
    assert_int_equal(tc_tank_measure(&tank, no_bed, 298.15, &size), TC_RANGE);
    tank.glass = 0.1499;
    assert_int_equal(tc_tank_measure(&tank, no_bed, 298.15, &size), TC_OK);
    tank = good;
    tank.length = 0.012;
    assert_int_equal(tc_tank_measure(&tank, no_bed, 298.15, &size), TC_RANGE);
    tank = good;
    tank.freeboard = 0.294;
    assert_int_equal(tc_tank_measure(&tank, no_bed, 298.15, &size), TC_RANGE);
    tank = good;
    tank.height = NAN;
    assert_int_equal(tc_tank_measure(&tank, no_bed, 298.15, &size), TC_RANGE);
    struct tc_bed bed = {.depth = depth + 1e-9};
    assert_int_equal(tc_tank_measure(&good, bed, 298.15, &size), TC_RANGE);
    bed.depth = depth - 1e-9;
    assert_int_equal(tc_tank_measure(&good, bed, 298.15, &size), TC_OK);
    bed.depth = -0.001;
    assert_int_equal(tc_tank_measure(&good, bed, 298.15, &size), TC_RANGE);
}

/* Kilograms a cubic metre; the tables of handbooks are rounded. */
static void water_is_as_dense_as_in_tables(void **state)
{
    (void)state;
    static const struct {
        double celsius, density, tolerance;
    } rows[] = {
        {20, 998.2071, 0.01}, /* wfrjr.com, table of water (seen); CRC Handbook (from memory) */
        {25, 997.0479, 0.01},  {30, 995.6502, 0.01},
        {10, 999.7, 0.06}, /* Cengel, table A-9, properties of saturated water, one decimal */
        {15, 999.1, 0.06},     {20, 998.0, 0.25}, /* rounded to whole figures from here on */
        {25, 997.0, 0.25},     {30, 996.0, 0.5},
        {35, 994.0, 0.25},     {16.85, 998.77, 0.15}, /* Perry, 9th edition, table 2-135: 290 K and 300 K */
        {26.85, 996.51, 0.15}, {4, 999.975, 0.01},    /* the densest (from memory) */
    };
    for (size_t i = 0; i < LENGTH(rows); i++)
        assert_near(tc_water_density(CELSIUS(rows[i].celsius)), rows[i].density, rows[i].tolerance);
    for (double t = 4; t < 40; t += 0.5)
        assert_true(tc_water_density(CELSIUS(t)) > tc_water_density(CELSIUS(t + 0.5)));
    assert_true(tc_water_density(CELSIUS(0)) < tc_water_density(CELSIUS(4)));
    /* A US gallon of water of 20 degrees weighs 8.330 lb (from memory). */
    assert_near(tc_water_density(CELSIUS(20)) * US_GALLON / POUND, 8.330, 0.001);
}

/* Common practice, no source: a filled tank weighs about ten pounds for each gallon it is called; less by its
 * nominal size, which leaves out frame and rim. */
static void trade_sizes_weigh_ten_pounds_a_gallon(void **state)
{
    (void)state;
    static const struct {
        double length, width, height, glass, gallons;
    } rows[] = {
        {20, 10, 12, 4, 10}, {30, 12, 12, 5, 20}, {30, 12, 18, 5, 29},
        {36, 18, 16, 8, 40}, {48, 13, 20, 8, 55}, {48, 18, 20, 10, 75},
    };
    for (size_t i = 0; i < LENGTH(rows); i++) {
        struct tc_tank tank =
            sample_tank_inches(rows[i].length, rows[i].width, rows[i].height, rows[i].glass);
        const struct tc_bed bed = {.depth = 1.5 * INCH, .bulk_density = 1600, .void_share = 0.4};
        double pounds = measured(&tank, bed, 25).filled_mass / POUND;
        assert_near(pounds / rows[i].gallons, 9.5, 1.2);
    }
}

/*
 * Common practice, no source: a footprint of 36 x 18.5 in is roughly 660 in2, one of
 * 48 to 48.5 by 12.5 to 12.75 in roughly 618 in2: the 3 ft tank has more bottom.
 */
static void three_feet_can_have_more_bottom_than_four(void **state)
{
    (void)state;
    const double square_inch = INCH * INCH;
    struct tc_tank three = sample_tank_inches(36, 18.5, 12, 8);
    struct tc_tank four = sample_tank_inches(48.5, 12.75, 15, 8);
    struct tc_tank four_at_least = sample_tank_inches(48, 12.5, 15, 8);
    assert_near(measured(&three, no_bed, 25).footprint / square_inch, 660, 10);
    assert_near(measured(&four, no_bed, 25).footprint / square_inch, 618, 10);
    assert_near(measured(&four_at_least, no_bed, 25).footprint / square_inch, 618, 20);
    assert_true(measured(&three, no_bed, 25).bottom_area > measured(&four, no_bed, 25).bottom_area);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_tank_by_hand),
        cmocka_unit_test(glass_weighs_what_its_panes_do),
        cmocka_unit_test(a_bed_displaces_its_grains),
        cmocka_unit_test(a_tank_without_room_is_refused),
        cmocka_unit_test(water_is_as_dense_as_in_tables),
        cmocka_unit_test(trade_sizes_weigh_ten_pounds_a_gallon),
        cmocka_unit_test(three_feet_can_have_more_bottom_than_four),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
