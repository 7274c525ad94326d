/* SPDX-License-Identifier: MIT */
/* Means, deviations and percentiles against certified values. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdlib.h>

#include "core/base/random.h"
#include "core/base/summary.h"
#include "support/near.h"

/* first, then `pairs` times low and high, as the NumAcc data sets are made. */
static struct tc_summary accuracy_data(double first, double low, double high, int pairs)
{
    struct tc_summary s = tc_summary_empty();
    tc_summary_add(&s, first);
    for (int i = 0; i < pairs; i++) {
        tc_summary_add(&s, low);
        tc_summary_add(&s, high);
    }
    return s;
}

static void certified_means_and_deviations(void **state)
{
    (void)state;
    /* NIST Statistical Reference Datasets, univariate: NumAcc1 to NumAcc4. */
    struct tc_summary s = accuracy_data(10000001, 10000003, 10000002, 1);
    assert_near(s.mean, 10000002, 0);
    assert_near(tc_summary_deviation(&s), 1, 0);
    s = accuracy_data(1.2, 1.1, 1.3, 500);
    assert_near(s.mean, 1.2, 1e-14);
    assert_near(tc_summary_deviation(&s), 0.1, 1e-14);
    s = accuracy_data(1000000.2, 1000000.1, 1000000.3, 500);
    assert_near(s.mean, 1000000.2, 1e-9);
    assert_near(tc_summary_deviation(&s), 0.1, 2e-10);
    s = accuracy_data(10000000.2, 10000000.1, 10000000.3, 500);
    assert_near(s.mean, 10000000.2, 1e-8);
    assert_near(tc_summary_deviation(&s), 0.1, 2e-9);
    assert_near(s.count, 1001, 0);
    assert_near(s.least, 10000000.1, 0);
    assert_near(s.most, 10000000.3, 0);
}

static void merging_is_adding(void **state)
{
    (void)state;
    struct tc_random random;
    tc_random_seed(&random, 8, 8);
    struct tc_summary all = tc_summary_empty(), merged = tc_summary_empty();
    for (int part = 0; part < 20; part++) {
        struct tc_summary s = tc_summary_empty();
        for (int i = 0; i < part; i++) {
            double x = 1e6 + tc_random_unit(&random);
            tc_summary_add(&s, x);
            tc_summary_add(&all, x);
        }
        tc_summary_merge(&merged, &s);
    }
    assert_near(merged.count, 190, 0);
    assert_near(merged.mean, all.mean, 1e-9);
    assert_near(tc_summary_variance(&merged), tc_summary_variance(&all), 1e-9);
    assert_near(merged.least, all.least, 0);
    assert_near(merged.most, all.most, 0);
}

static void few_figures(void **state)
{
    (void)state;
    struct tc_summary s = tc_summary_empty();
    assert_near(tc_summary_variance(&s), 0, 0);
    assert_near(tc_summary_standard_error(&s), 0, 0);
    tc_summary_add(&s, 5);
    assert_near(s.mean, 5, 0);
    assert_near(tc_summary_deviation(&s), 0, 0);
    tc_summary_add(&s, 7);
    assert_near(tc_summary_variance(&s), 2, 1e-15);
    assert_near(tc_summary_standard_error(&s), 1, 1e-15);
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void percentiles(void **state)
{
    (void)state;
    /* NIST/SEMATECH e-Handbook 7.2.6.2: 90th percentile of twelve gauge readings. */
    double readings[] = {95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.0610,
                         95.1591, 95.1195, 95.1772, 95.0925, 95.1990, 95.1682};
    size_t n = sizeof readings / sizeof readings[0];
    qsort(readings, n, sizeof readings[0], ascending);
    assert_near(tc_percentile(readings, n, 0.9), 95.1981, 5e-5);
    assert_near(tc_percentile(readings, n, 0.9), 95.19807, 1e-9);
    assert_near(tc_percentile(readings, n, 1.0), 95.1990, 0);
    assert_near(tc_percentile(readings, n, 0.0), 95.0610, 0);
    /* 12 readings: the median lies halfway between the sixth and the seventh. */
    assert_near(tc_percentile(readings, n, 0.5), (readings[5] + readings[6]) / 2, 1e-12);
    double one = 3;
    assert_near(tc_percentile(&one, 1, 0.5), 3, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(certified_means_and_deviations),
        cmocka_unit_test(merging_is_adding),
        cmocka_unit_test(few_figures),
        cmocka_unit_test(percentiles),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
