/* SPDX-License-Identifier: MIT */
/*
 * summary.h - mean, spread and percentiles of many figures.
 *
 * The mean and variance are updated figure by figure without the cancellation
 * of a sum of squares: B. P. Welford, "Note on a method for calculating
 * corrected sums of squares and products", Technometrics 4 (1962) 419-420;
 * summaries are merged as in Chan, Golub and LeVeque, "Updating formulae and
 * a pairwise algorithm for computing sample variances" (1979).
 */
#ifndef TC_CORE_BASE_SUMMARY_H
#define TC_CORE_BASE_SUMMARY_H

#include <stddef.h>

struct tc_summary {
    double count; /* whole; kept as a double, it is only ever divided by */
    double mean;
    double squares; /* sum of squared distances from the mean */
    double least, most;
};

/* An empty summary: mean 0, least +infinity, most -infinity. */
struct tc_summary tc_summary_empty(void);

void tc_summary_add(struct tc_summary *summary, double value);

/* Adds all that other has seen. The order of merging decides the last bits: keep to one order. */
void tc_summary_merge(struct tc_summary *summary, const struct tc_summary *other);

/* Of the sample (divisor count - 1), its root, and that of the mean; 0 for fewer than two figures. */
double tc_summary_variance(const struct tc_summary *summary);
double tc_summary_deviation(const struct tc_summary *summary);
double tc_summary_standard_error(const struct tc_summary *summary);

/*
 * The share-th quantile (0.9 for the 90th percentile) of count > 0 figures in
 * ascending order, by the p (N + 1) rule: NIST/SEMATECH e-Handbook of
 * Statistical Methods, 7.2.6.2. Beyond the first or last figure it is that
 * figure.
 */
double tc_percentile(const double sorted[], size_t count, double share);

#endif
