/* SPDX-License-Identifier: MIT */
/* Light against published conversions, Beer's law, refraction, and a row of lamps summed up by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/light.h"
#include "support/near.h"

#define DEGREE 0.017453292519943295

static const struct tc_light_path path = {
    .capture = 0.8,
    .lid_transmittance = 0.9,
    .surface_reflection = TC_SURFACE_REFLECTION,
    .attenuation = 0.5,
    .depth = 0.6,
    .area = 0.36,
};

static void ppf_comes_from_the_best_figure_known(void **state)
{
    (void)state;
    double ppf;
    struct tc_lamp lamp = {.ppf = 50, .power = 30, .efficacy = 2.7, .lumens = 3000};
    assert_int_equal(tc_lamp_ppf(&lamp, &ppf), TC_OK);
    assert_near(ppf, 50, 0);
    lamp.ppf = 0;
    assert_int_equal(tc_lamp_ppf(&lamp, &ppf), TC_OK);
    assert_near(ppf, 81, 1e-12);
    lamp.efficacy = 0; /* power alone says nothing */
    assert_int_equal(tc_lamp_ppf(&lamp, &ppf), TC_OK);
    assert_near(ppf, 3000 / 70.0, 1e-12);
    lamp.lumens = 0;
    assert_int_equal(tc_lamp_ppf(&lamp, &ppf), TC_NO_RESULT);
    lamp.lumens = NAN;
    assert_int_equal(tc_lamp_ppf(&lamp, &ppf), TC_RANGE);
    lamp.lumens = -1;
    assert_int_equal(tc_lamp_ppf(&lamp, &ppf), TC_RANGE);
}

/* Thimijan and Heins, HortScience 18(6), 1983: sunlight of 108 000 lux is 2000 umol/(m2 s), at 54. */
static void lumens_convert_as_published(void **state)
{
    (void)state;
    double ppf;
    struct tc_lamp sun = {.lumens = 108000, .lumens_per_ppf = 54};
    assert_int_equal(tc_lamp_ppf(&sun, &ppf), TC_OK);
    assert_near(ppf, 2000, 1e-9);
    struct tc_lamp fluorescent = {.lumens = 7400, .lumens_per_ppf = 74};
    assert_int_equal(tc_lamp_ppf(&fluorescent, &ppf), TC_OK);
    assert_near(ppf, 100, 1e-9);
    /* White diodes lie between the published 4200 K metal halide and the cool white tube. */
    assert_true(TC_LUMENS_PER_PPF > 65 && TC_LUMENS_PER_PPF < 74);
}

static void ppfd_is_the_product_of_what_lies_between(void **state)
{
    (void)state;
    double ppfd;
    assert_int_equal(tc_light_ppfd(&path, 100, &ppfd), TC_OK);
    /* exp(-0.5 * 0.6) = 0.7408 */
    assert_near(ppfd, 100 * 0.8 * 0.9 * 0.9796 * 0.740818 / 0.36, 0.001);
    struct tc_light_path bare = {.capture = 1, .lid_transmittance = 1, .area = 0.5};
    assert_int_equal(tc_light_ppfd(&bare, 100, &ppfd), TC_OK);
    assert_near(ppfd, 200, 1e-9);
    /* Clear water: exp(-0.2) = 0.8187 through a metre. */
    bare.attenuation = 0.2;
    bare.depth = 1;
    assert_int_equal(tc_light_ppfd(&bare, 100, &ppfd), TC_OK);
    assert_near(ppfd, 163.75, 0.01);
}

static void needed_ppf_is_the_inverse(void **state)
{
    (void)state;
    for (double wanted = 0; wanted < 300; wanted += 17) {
        double ppf, ppfd;
        assert_int_equal(tc_light_needed_ppf(&path, wanted, &ppf), TC_OK);
        assert_int_equal(tc_light_ppfd(&path, ppf, &ppfd), TC_OK);
        assert_near(ppfd, wanted, 1e-9);
    }
    struct tc_light_path dark = path;
    dark.lid_transmittance = 0;
    double ppf;
    assert_int_equal(tc_light_needed_ppf(&dark, 50, &ppf), TC_NO_RESULT);
    assert_int_equal(tc_light_needed_ppf(&dark, 0, &ppf), TC_OK);
    assert_near(ppf, 0, 0);
}

static void bad_paths_are_refused(void **state)
{
    (void)state;
    static const double bad[] = {-0.1, NAN, INFINITY};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        for (size_t field = 0; field < sizeof path / sizeof(double); field++) {
            struct tc_light_path p = path;
            ((double *)&p)[field] = bad[i];
            double out;
            assert_int_equal(tc_light_ppfd(&p, 1, &out), TC_RANGE);
            assert_int_equal(tc_light_needed_ppf(&p, 1, &out), TC_RANGE);
        }
        double out;
        assert_int_equal(tc_light_ppfd(&path, bad[i], &out), TC_RANGE);
        assert_int_equal(tc_light_needed_ppf(&path, bad[i], &out), TC_RANGE);
    }
    struct tc_light_path p = path;
    p.area = 0;
    double out;
    assert_int_equal(tc_light_ppfd(&p, 1, &out), TC_RANGE);
    p = path;
    p.capture = 1.01;
    assert_int_equal(tc_light_ppfd(&p, 1, &out), TC_RANGE);
}

static void lamps_are_counted_up(void **state)
{
    (void)state;
    int count;
    assert_int_equal(tc_light_count(100, 40, &count), TC_OK);
    assert_int_equal(count, 3);
    assert_int_equal(tc_light_count(120, 40, &count), TC_OK);
    assert_int_equal(count, 3);
    assert_int_equal(tc_light_count(0.3, 0.1, &count), TC_OK); /* 0.3 / 0.1 is a hair above 3 */
    assert_int_equal(count, 3);
    assert_int_equal(tc_light_count(0, 40, &count), TC_OK);
    assert_int_equal(count, 1);
    assert_int_equal(tc_light_count(10, 0, &count), TC_NO_RESULT);
    assert_int_equal(tc_light_count(1e6, 1, &count), TC_RANGE);
    assert_int_equal(tc_light_count(NAN, 1, &count), TC_RANGE);
}

/* Light of a row of Lambertian points, x beside its middle: sum of cos^2 / r^2 along the row. */
static double light_beside_row(double height, double x)
{
    double sum = 0;
    for (double y = -200 * height; y <= 200 * height; y += 0.02 * height) {
        double square = height * height + x * x + y * y;
        sum += height * height / (square * square);
    }
    return sum;
}

static void a_row_lights_a_strip_to_the_wanted_uniformity(void **state)
{
    (void)state;
    static const double uniformities[] = {0.3, 0.5, 0.7, 0.9};
    for (size_t i = 0; i < sizeof uniformities / sizeof uniformities[0]; i++) {
        double height = 0.55, width = tc_light_row_width(height, uniformities[i]);
        double share = light_beside_row(height, width / 2) / light_beside_row(height, 0);
        assert_near(share, uniformities[i], 1e-3);
    }
    assert_near(tc_light_row_width(1, TC_LIGHT_UNIFORMITY), 1.037, 0.001);
}

/* Common practice, no source: one row for 12 to 18 in wide tanks, two for 24 in wide ones of some 20 in of
 * height. */
static void wide_tanks_need_a_second_row(void **state)
{
    (void)state;
    int rows;
    assert_int_equal(tc_light_rows(18 * 0.0254, 20 * 0.0254, TC_LIGHT_UNIFORMITY, &rows), TC_OK);
    assert_int_equal(rows, 1);
    assert_int_equal(tc_light_rows(24 * 0.0254, 20 * 0.0254, TC_LIGHT_UNIFORMITY, &rows), TC_OK);
    assert_int_equal(rows, 2);
    assert_int_equal(tc_light_rows(0.3, 0, 0.7, &rows), TC_RANGE);
    assert_int_equal(tc_light_rows(0, 0.5, 0.7, &rows), TC_RANGE);
    assert_int_equal(tc_light_rows(0.3, 0.5, 1, &rows), TC_RANGE);
    assert_int_equal(tc_light_rows(0.3, 0.5, NAN, &rows), TC_RANGE);
    assert_int_equal(tc_light_rows(1000, 0.01, 0.7, &rows), TC_RANGE);
}

static void daily_light_adds_up(void **state)
{
    (void)state;
    /* 100 umol/(m2 s) for 10 h: 3.6 mol/(m2 d). */
    assert_near(tc_light_daily(100, 10), 3.6, 1e-12);
}

static void the_hours_of_light_add_up(void **state)
{
    (void)state;
    for (double begin = 0; begin < 24; begin += 0.37) {
        for (double hours = 0; hours <= 24; hours += 0.75) {
            double share[24], sum = 0;
            assert_int_equal(tc_light_by_hour(begin, hours, share), TC_OK);
            for (int hour = 0; hour < 24; hour++) {
                assert_true(share[hour] >= 0 && share[hour] <= 1 + 1e-12);
                sum += share[hour];
                /* By the minute: is the light on in the middle of it? */
                int lit = 0;
                for (int minute = 0; minute < 600; minute++) {
                    double since = fmod(hour + (minute + 0.5) / 600 - begin + 24, 24);
                    lit += since < hours;
                }
                assert_near(share[hour], lit / 600.0, 2.1 / 600);
            }
            assert_near(sum, hours, 1e-9);
        }
    }
    double share[24];
    assert_int_equal(tc_light_by_hour(24, 8, share), TC_RANGE);
    assert_int_equal(tc_light_by_hour(8, 24.1, share), TC_RANGE);
    assert_int_equal(tc_light_by_hour(NAN, 8, share), TC_RANGE);
    assert_int_equal(tc_light_by_hour(8, NAN, share), TC_RANGE);
    assert_near(tc_light_begin_at_noon(9), 7.5, 0);
    assert_near(tc_light_begin_at_noon(24), 0, 0);
}

/* Snell; "48.6" and "48.75 degrees" are both printed, for n = 1.333 and 1.33. */
static void angles_are_those_of_water(void **state)
{
    (void)state;
    assert_near(tc_light_critical_angle(TC_WATER_INDEX) / DEGREE, 48.607, 0.001);
    assert_near(tc_light_critical_angle(1.33) / DEGREE, 48.7535, 0.0001);
    /* A ray that enters at the grazing angle meets an upright pane just at the critical one. */
    double in_water = asin(sin(tc_light_grazing_angle(TC_WATER_INDEX)) / TC_WATER_INDEX);
    assert_near(90 - in_water / DEGREE, 48.607, 0.001);
    assert_near(tc_light_grazing_angle(TC_WATER_INDEX) / DEGREE, 61.8, 0.05);
    assert_near(tc_light_grazing_angle(1.5) / DEGREE, 90, 1e-9);
    /* Fresnel, straight on. */
    double ratio = (TC_WATER_INDEX - 1) / (TC_WATER_INDEX + 1);
    assert_near(TC_SURFACE_REFLECTION, ratio * ratio, 1e-4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ppf_comes_from_the_best_figure_known),
        cmocka_unit_test(lumens_convert_as_published),
        cmocka_unit_test(ppfd_is_the_product_of_what_lies_between),
        cmocka_unit_test(needed_ppf_is_the_inverse),
        cmocka_unit_test(bad_paths_are_refused),
        cmocka_unit_test(lamps_are_counted_up),
        cmocka_unit_test(a_row_lights_a_strip_to_the_wanted_uniformity),
        cmocka_unit_test(wide_tanks_need_a_second_row),
        cmocka_unit_test(daily_light_adds_up),
        cmocka_unit_test(the_hours_of_light_add_up),
        cmocka_unit_test(angles_are_those_of_water),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
