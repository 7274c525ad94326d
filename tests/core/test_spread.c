/* SPDX-License-Identifier: MIT */
/* Figures known as ranges: moments, quantiles, and draws against their densities. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/base/random.h"
#include "core/base/spread.h"
#include "support/near.h"

/* The share of draws below a value: the distribution function in the manual of the R package triangle. */
static double share_below(const struct tc_spread *s, double value)
{
    if (value <= s->low || value >= s->high)
        return value >= s->high;
    double width = s->high - s->low; /* not 0: value lies inside */
    if (s->shape != TC_SPREAD_TRIANGULAR)
        return (value - s->low) / width;
    if (value < s->likely)
        return (value - s->low) * (value - s->low) / (width * (s->likely - s->low));
    return 1 - (s->high - value) * (s->high - value) / (width * (s->high - s->likely));
}

/* Mean and variance, as the quantile function has them: sums over the middles of equal shares. */
static void moments(const struct tc_spread *s, double *mean, double *variance)
{
    enum { SHARES = 20000 };
    double sum = 0, squares = 0;
    for (int i = 0; i < SHARES; i++) {
        double value = tc_spread_quantile(s, (i + 0.5) / SHARES);
        sum += value;
        squares += value * value;
    }
    *mean = sum / SHARES;
    *variance = squares / SHARES - *mean * *mean;
}

static void triangular_moments(void **state)
{
    (void)state;
    double mean, variance;
    /* (a + b + c) / 3 and (a2 + b2 + c2 - ab - ac - bc) / 18: manual of the R package triangle. */
    struct tc_spread s = tc_spread_triangular(2, 4, 9);
    moments(&s, &mean, &variance);
    assert_near(mean, 5, 1e-5);
    assert_near(variance, (4. + 16 + 81 - 8 - 18 - 36) / 18, 1e-5);
    /* The standard example of scipy.stats.triang, c = 0.158. */
    s = tc_spread_triangular(0, 0.158, 1);
    moments(&s, &mean, &variance);
    assert_near(mean, 0.386, 1e-5);
    assert_near(variance, 0.048164666666667, 1e-5);
    /* Mean 0 and variance 1 for -sqrt(6), 0, sqrt(6): manual of the R package metRology, dtri. */
    s = tc_spread_triangular(-sqrt(6), 0, sqrt(6));
    moments(&s, &mean, &variance);
    assert_near(mean, 0, 1e-5);
    assert_near(variance, 1, 1e-5);
}

static void triangular_quantiles(void **state)
{
    (void)state;
    /* Read-me of the R package triangulr: qtri on (0, 1) with mode 0.5; its ptri gives 0.02, 0.5, 0.98. */
    struct tc_spread s = tc_spread_triangular(0, 0.5, 1);
    assert_near(tc_spread_quantile(&s, 0.1), 0.2236068, 5e-8);
    assert_near(tc_spread_quantile(&s, 0.5), 0.5, 1e-12);
    assert_near(tc_spread_quantile(&s, 0.9), 0.7763932, 5e-8);
    assert_near(share_below(&s, 0.1), 0.02, 1e-12);
    assert_near(share_below(&s, 0.9), 0.98, 1e-12);
    /* Computed with the formulas of the R package DescTools, qTri. */
    s = tc_spread_triangular(2, 4, 9);
    static const double rows[][2] = {
        {0, 2}, {0.10, 3.1832160}, {0.25, 3.8708287}, {0.50, 4.8166999}, {0.75, 6.0419601}, {0.90, 7.1291713},
        {1, 9}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        assert_near(tc_spread_quantile(&s, rows[i][0]), rows[i][1], 5e-8);
}

static void uniform_moments(void **state)
{
    (void)state;
    /* Mean (A + B) / 2, variance (B - A)2 / 12: NIST/SEMATECH e-Handbook 1.3.6.6.2. */
    struct tc_spread s = tc_spread_uniform(45, 51);
    double mean, variance;
    moments(&s, &mean, &variance);
    assert_near(mean, 48, 1e-9);
    assert_near(variance, 3, 1e-7);
    assert_near(tc_spread_middle(&s), 48, 1e-12);
    assert_near(tc_spread_quantile(&s, 0.25), 46.5, 1e-12);
    assert_near(share_below(&s, 46.5), 0.25, 1e-12);
}

static void fixed_has_no_spread(void **state)
{
    (void)state;
    struct tc_spread s = tc_spread_fixed(7);
    for (double p = 0; p <= 1; p += 0.25)
        assert_near(tc_spread_quantile(&s, p), 7, 0);
    /* Ranges of no width are fixed as well, whatever they are called. */
    s = tc_spread_triangular(7, 7, 7);
    assert_near(tc_spread_quantile(&s, 0.3), 7, 0);
    s = tc_spread_uniform(7, 7);
    assert_near(tc_spread_quantile(&s, 0.3), 7, 0);
}

static void middle_is_the_likely_value(void **state)
{
    (void)state;
    struct tc_spread s = tc_spread_triangular(45, 47, 50);
    assert_near(tc_spread_middle(&s), 47, 0);
}

static void quantile_rises_and_inverts(void **state)
{
    (void)state;
    static const struct tc_spread spreads[] = {{TC_SPREAD_TRIANGULAR, 2, 4, 9},
                                               {TC_SPREAD_TRIANGULAR, 2, 2, 9},
                                               {TC_SPREAD_TRIANGULAR, 2, 9, 9},
                                               {TC_SPREAD_UNIFORM, -3, 0, 3},
                                               {TC_SPREAD_TRIANGULAR, -5, -1, 0}};
    for (size_t i = 0; i < sizeof spreads / sizeof spreads[0]; i++) {
        const struct tc_spread *s = &spreads[i];
        double before = s->low;
        for (int k = 0; k <= 1000; k++) {
            double p = k / 1000.0;
            double value = tc_spread_quantile(s, p);
            assert_true(value >= before && value <= s->high);
            assert_near(share_below(s, value), p, 1e-12);
            before = value;
        }
    }
}

static void odd_ranges_are_refused(void **state)
{
    (void)state;
    static const struct tc_spread bad[] = {{TC_SPREAD_UNIFORM, 2, 1.5, 1},
                                           {TC_SPREAD_TRIANGULAR, 1, 3, 2},
                                           {TC_SPREAD_TRIANGULAR, 1, 0, 2},
                                           {TC_SPREAD_UNIFORM, 0, NAN, 1},
                                           {TC_SPREAD_UNIFORM, 0, INFINITY, INFINITY},
                                           {TC_SPREAD_UNIFORM, -1e308, 0, 1e308}};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        assert_int_equal(tc_spread_check(&bad[i]), TC_RANGE);
    struct tc_spread good = tc_spread_triangular(1, 1, 2);
    assert_int_equal(tc_spread_check(&good), TC_OK);
}

enum { CELLS = 25, DRAWS = 250000 };

/* Chi-square of draws against the distribution of s, in cells of equal width. */
static double chi_square(const struct tc_spread *s,
                         double (*draw)(struct tc_random *, const struct tc_spread *))
{
    double counts[CELLS] = {0};
    struct tc_random random;
    tc_random_seed(&random, 99, 3);
    double width = (s->high - s->low) / CELLS;
    for (int i = 0; i < DRAWS; i++) {
        int cell = (int)((draw(&random, s) - s->low) / width);
        counts[cell < CELLS ? cell : CELLS - 1] += 1;
    }
    double sum = 0;
    for (int c = 0; c < CELLS; c++) {
        double share = share_below(s, s->low + (c + 1) * width) - share_below(s, s->low + c * width);
        sum += (counts[c] - DRAWS * share) * (counts[c] - DRAWS * share) / (DRAWS * share);
    }
    return sum;
}

static double by_quantile(struct tc_random *random, const struct tc_spread *s)
{
    return tc_spread_quantile(s, tc_random_unit(random));
}

static double two_uniforms(struct tc_random *random, const struct tc_spread *s)
{
    (void)s;
    double first = tc_random_unit(random);
    return first + tc_random_unit(random);
}

static void draws_follow_the_density(void **state)
{
    (void)state;
    /* 24 degrees of freedom: 51.179 is the 0.1 % point (NIST e-Handbook 1.3.6.7.4). */
    static const struct tc_spread spreads[] = {{TC_SPREAD_TRIANGULAR, 2, 4, 9}, {TC_SPREAD_UNIFORM, 2, 3, 4}};
    for (size_t i = 0; i < sizeof spreads / sizeof spreads[0]; i++)
        assert_true(chi_square(&spreads[i], by_quantile) < 51.179);
    /* The sum of two uniform numbers is triangular with its peak in the middle. */
    struct tc_spread sum = tc_spread_triangular(0, 1, 2);
    assert_true(chi_square(&sum, two_uniforms) < 51.179);
    /* And the test can fail: the same sums are far from a slightly skew triangle. */
    struct tc_spread skew = tc_spread_triangular(0, 0.95, 2);
    assert_true(chi_square(&skew, two_uniforms) > 51.179);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(triangular_moments),
        cmocka_unit_test(triangular_quantiles),
        cmocka_unit_test(uniform_moments),
        cmocka_unit_test(fixed_has_no_spread),
        cmocka_unit_test(middle_is_the_likely_value),
        cmocka_unit_test(quantile_rises_and_inverts),
        cmocka_unit_test(odd_ranges_are_refused),
        cmocka_unit_test(draws_follow_the_density),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
