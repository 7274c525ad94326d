/* SPDX-License-Identifier: MIT */
/* Upright panes: the correlation by hand, a standard's film, a published table, laws. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/physics/pane.h"
#include "support/near.h"

static const struct tc_pane bare = {.resistance = 0.006, .height = 0.4, .emissivity = TC_GLASS_EMISSIVITY};

/* The film of a face that does not radiate and is as warm as the water, D > 0 K above the room, W/(m2 K). */
static double convection(double height, double difference)
{
    const struct tc_pane pane = {.resistance = 0, .height = height, .emissivity = 0};
    return tc_pane_flux(&pane, difference, 0) / difference;
}

/*
 * Churchill and Chu (1975) worked step by step for a plate of 0.4 m, 10 K above air of 300 K: Rayleigh number
 * 9.80665 x 10 x 0.4^3 / (300 x 15.89e-6 x 22.5e-6) = 5.852e7, Nusselt number
 * (0.825 + 0.387 x 5.852e7^(1/6) / 1.1933)^2 = 51.98, times 0.0263 / 0.4.
 */
static void convection_is_that_of_the_correlation(void **state)
{
    (void)state;
    double rayleigh = 9.80665 * 10 * 0.064 / (300 * 15.89e-6 * 22.5e-6);
    double prandtl = pow(1 + pow(0.492 / 0.707, 9.0 / 16), 8.0 / 27);
    double nusselt = pow(0.825 + 0.387 * pow(rayleigh, 1.0 / 6) / prandtl, 2);
    assert_near(rayleigh, 5.852e7, 1e5);
    assert_near(convection(0.4, 10), nusselt * 0.0263 / 0.4, 2e-3 * 3.4);
    /* As little as the layer conducts where nothing moves: 0.68 k / H. */
    assert_near(convection(0.4, 1e-30), 0.825 * 0.825 * 0.0263 / 0.4, 1e-4);
}

/* ISO 6946 has 5.7 W/(m2 K) times the emissivity at 20 degrees (from memory), and 1 / 0.13 in all. */
static void the_film_is_that_of_the_standard_at_small_differences(void **state)
{
    (void)state;
    assert_near(tc_pane_radiation(1, 293.15), 5.71, 0.01);
    double film = tc_pane_radiation(0.9, 296) + convection(0.4, 4);
    assert_near(film, 1 / 0.13, 0.05 * 7.69);
}

/*
 * Engineering ToolBox, "Heat Loss from Open Water Tanks" (engineeringtoolbox.com, d_286, seen), bare steel
 * walls, still air of 60 F, Btu/(h ft2): from a summer's pool to near boiling, on a wall of 1 m. The row of
 * 100 F is 70; the standard's fixed film would give 54.
 */
static void walls_lose_what_the_warm_tank_table_has(void **state)
{
    (void)state;
    static const double rows[][2] = {{90, 50},   {100, 70},  {120, 110}, {130, 135}, {140, 160}, {150, 180},
                                     {160, 210}, {170, 235}, {180, 260}, {190, 290}, {200, 320}, {210, 360}};
    const struct tc_pane wall = {.resistance = 0, .height = 1, .emissivity = 0.9};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double water = (rows[i][0] - 32) / 1.8 + 273.15, room = (60 - 32) / 1.8 + 273.15;
        double ours = tc_pane_flux(&wall, water, room) / 3.15459;
        assert_near(ours, rows[i][1], 0.05 * rows[i][1]);
    }
}

/* What leaves by the film went through the glass. */
static void the_face_balances(void **state)
{
    (void)state;
    static const double resistances[] = {0, 0.004, 0.006, 0.02, 0.2, 1, 5};
    for (size_t i = 0; i < sizeof resistances / sizeof resistances[0]; i++)
        for (double difference = 0.01; difference < 60; difference *= 1.7) {
            struct tc_pane pane = bare;
            pane.resistance = resistances[i];
            double water = 298.15, room = water - difference;
            double flux = tc_pane_flux(&pane, water, room), face = difference - flux * pane.resistance;
            double film =
                tc_pane_radiation(pane.emissivity, (water + room) / 2) + convection(pane.height, face);
            assert_near(flux, film * face, 1e-4 * flux);
        }
}

static void more_difference_loses_more_and_a_warm_room_warms(void **state)
{
    (void)state;
    double before = 0;
    for (double difference = 0.5; difference < 40; difference += 0.5) {
        double flux = tc_pane_flux(&bare, 290 + difference / 2, 290 - difference / 2);
        assert_true(flux / difference > before);
        before = flux / difference;
        assert_near(tc_pane_flux(&bare, 290 - difference / 2, 290 + difference / 2), -flux, 1e-9 * flux);
    }
    assert_near(tc_pane_flux(&bare, 290, 290), 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(convection_is_that_of_the_correlation),
        cmocka_unit_test(the_film_is_that_of_the_standard_at_small_differences),
        cmocka_unit_test(walls_lose_what_the_warm_tank_table_has),
        cmocka_unit_test(the_face_balances),
        cmocka_unit_test(more_difference_loses_more_and_a_warm_room_warms),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
