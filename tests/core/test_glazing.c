/* SPDX-License-Identifier: MIT */
/* Transmittances against sums of resistances done by hand from ISO 6946. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/physics/glazing.h"
#include "core/physics/vapour.h"
#include "support/near.h"

/* 60 x 30 cm inside, 36 cm of water, 6 mm sides, 8 mm bottom on a board; half of it under a 4 mm lid. */
static const struct tc_glazing shelf = {
    .inner_length = 0.60,
    .inner_width = 0.30,
    .water_depth = 0.36,
    .side_thickness = 0.006,
    .bottom_thickness = 0.008,
    .bottom_insulation = TC_BOARD_RESISTANCE,
    .covered_share = 0.5,
    .lid_resistance = 0.004,
};

static void bottoms_lose_heat_downwards(void **state)
{
    (void)state;
    /* Bare on a frame: 1 / (0.008 + 0.17); on 18 mm of plywood: 1 / (0.008 + 0.018 / 0.13 + 0.17). */
    assert_near(tc_bottom_transmittance(0.008, 0), 5.618, 0.0005);
    assert_near(tc_bottom_transmittance(0.008, TC_BOARD_RESISTANCE), 3.163, 0.004);
    assert_near(TC_BOARD_RESISTANCE, 0.018 / 0.13, 0.001);
}

static void an_open_surface_loses_heat_upwards(void **state)
{
    (void)state;
    /* Rsi = 0.10 is convection of 5.0 and radiation of about 5.1 W/(m2 K) (ISO 6946, annex C, from memory).
     */
    assert_near(tc_surface_transmittance(), 10, 1e-9);
}

static void a_lid_lies_between_a_dry_double_pane_and_none(void **state)
{
    (void)state;
    double lid = tc_lid_transmittance(0.004, 298.15);
    double dry = 1 / (0.16 + 0.004 + 0.10); /* only the layer of ISO 6946, no vapour in it */
    double none = 1 / (0.004 + 0.10);       /* as if the lid lay on the water */
    assert_true(lid > dry && lid < none);
    /* By hand: slope at 25 C 188.8 Pa/K (IF97), vapour 1.95 / 67.4 * 188.8 = 5.46, layer 1 / (6.25 + 5.46).
     */
    assert_near(lid, 1 / (1 / 11.71 + 0.104), 0.005);
    /* Warmer water sends more vapour up; a thicker lid holds more. */
    assert_true(tc_lid_transmittance(0.004, 303.15) > lid);
    assert_true(tc_lid_transmittance(0.05, 298.15) < lid);
}

static void conductances_are_area_times_transmittance(void **state)
{
    (void)state;
    struct tc_conductance k = tc_glazing_conductance(&shelf, 298.15);
    assert_near(tc_water_surface(&shelf), 0.18, 1e-12);
    /* Outer perimeter 2 (0.612 + 0.312) = 1.848 m, 0.36 m high. */
    assert_near(tc_side_area(&shelf), 0.66528, 1e-9);
    struct tc_pane pane = tc_glazing_pane(&shelf);
    assert_near(pane.resistance, 0.006, 1e-12);
    assert_near(pane.height, 0.36, 1e-12);
    assert_near(k.bottom, 0.612 * 0.312 / (0.008 + 0.138 + 0.17), 1e-9);
    assert_near(k.surface, 0.09 * 10, 1e-9);
    assert_near(k.lid, 0.09 * tc_lid_transmittance(0.004, 298.15), 1e-12);
}

/*
 * Engineering ToolBox, "Heat Loss from Open Water Tanks" (engineeringtoolbox.com, d_286, seen): the surface
 * of water of 90 F in still air of 60 F loses 50 Btu/(h ft2) by radiation and convection, that of 100 F
 * loses 70.
 */
static void an_open_surface_is_that_of_the_warm_tank_table(void **state)
{
    (void)state;
    assert_near(tc_surface_transmittance() * 30 / 1.8 / 3.15459, 50, 0.06 * 50);
    assert_near(tc_surface_transmittance() * 40 / 1.8 / 3.15459, 70, 0.02 * 70);
}

static void figures_out_of_range_are_refused(void **state)
{
    (void)state;
    assert_int_equal(tc_glazing_check(&shelf), TC_OK);
    static const double bad[] = {-0.1, NAN, INFINITY, -INFINITY};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        for (size_t field = 0; field < sizeof shelf / sizeof(double); field++) {
            struct tc_glazing g = shelf;
            ((double *)&g)[field] = bad[i];
            assert_int_equal(tc_glazing_check(&g), TC_RANGE);
        }
    }
    struct tc_glazing g = shelf;
    g.covered_share = 1.001;
    assert_int_equal(tc_glazing_check(&g), TC_RANGE);
    g = shelf;
    g.sheltered_share = 1.001;
    assert_int_equal(tc_glazing_check(&g), TC_RANGE);
    g = shelf;
    g.water_depth = 0;
    assert_int_equal(tc_glazing_check(&g), TC_RANGE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bottoms_lose_heat_downwards),
        cmocka_unit_test(an_open_surface_loses_heat_upwards),
        cmocka_unit_test(a_lid_lies_between_a_dry_double_pane_and_none),
        cmocka_unit_test(conductances_are_area_times_transmittance),
        cmocka_unit_test(an_open_surface_is_that_of_the_warm_tank_table),
        cmocka_unit_test(figures_out_of_range_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
