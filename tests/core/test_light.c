/* SPDX-License-Identifier: MIT */
/* Light against published conversions, Beer's law, refraction, and a row of lamps summed up by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/physics/light.h"
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

/*
 * Thimijan and Heins, HortScience 18(6), 1983: lux for each umol/(m2 s), which is lumens for each
 * umol/s. White diodes lie between the 4200 K metal halide (65) and the cool white tube (74).
 */
static void lumens_convert_within_the_published_white_lamps(void **state)
{
    (void)state;
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

static void a_light_is_on_for_its_hours(void **state)
{
    (void)state;
    for (double begin = 0; begin < 24; begin += 0.37) {
        for (double hours = 0; hours <= 24; hours += 0.75) {
            int lit = 0;
            for (int minute = 0; minute < 1440; minute++)
                lit += tc_light_is_on(begin, hours, (minute + 0.5) / 60);
            assert_near(lit, hours * 60, 1.001);
        }
    }
    assert_true(tc_light_is_on(8, 10, 8));
    assert_false(tc_light_is_on(8, 10, 18));
    assert_true(tc_light_is_on(20, 8, 3.9));
    assert_false(tc_light_is_on(20, 8, 4));
    assert_true(tc_light_is_on(20, 24, 19.9));
}

/* The angles the header speaks of, by Snell's law; 48.75 degrees is printed for 1.33
 * (physicsgurus.com/90329, seen), 48.6 for 1.333 (from memory). */
static void water_turns_light_as_the_header_says(void **state)
{
    (void)state;
    const double index = 1.333;
    double critical = asin(1 / index) / DEGREE;
    assert_near(critical, 48.6, 0.05);
    assert_near(asin(1 / 1.33) / DEGREE, 48.7535, 0.0001);
    assert_near(asin(index * sin((90 - critical) * DEGREE)) / DEGREE, 61.8, 0.05);
    double ratio = (index - 1) / (index + 1);
    assert_near(TC_SURFACE_REFLECTION, ratio * ratio, 1e-4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lumens_convert_within_the_published_white_lamps),
        cmocka_unit_test(ppfd_is_the_product_of_what_lies_between),
        cmocka_unit_test(needed_ppf_is_the_inverse),
        cmocka_unit_test(bad_paths_are_refused),
        cmocka_unit_test(a_row_lights_a_strip_to_the_wanted_uniformity),
        cmocka_unit_test(wide_tanks_need_a_second_row),
        cmocka_unit_test(a_light_is_on_for_its_hours),
        cmocka_unit_test(water_turns_light_as_the_header_says),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
