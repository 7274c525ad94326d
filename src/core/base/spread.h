/* SPDX-License-Identifier: MIT */
/*
 * spread.h - a figure that is known as a range.
 *
 * "45 to 50" is uniform, "45 to 50 likely 47" triangular with its peak at the
 * likely value. Draws go through the quantile function, one uniform number
 * each, and rise with it: with the same uniform numbers two spreads are drawn
 * in step, and the mirrored number 1 - u gives the mirrored draw.
 *
 * Quantiles: uniform, NIST/SEMATECH e-Handbook 1.3.6.6.2; triangular, the
 * manual of the R package DescTools (A. Signorell), which states the formula
 * used here.
 */
#ifndef TC_CORE_BASE_SPREAD_H
#define TC_CORE_BASE_SPREAD_H

#include "core/base/status.h"

enum tc_spread_shape { TC_SPREAD_FIXED, TC_SPREAD_UNIFORM, TC_SPREAD_TRIANGULAR };

struct tc_spread {
    enum tc_spread_shape shape;
    double low, likely, high; /* all alike if fixed; likely is the midpoint if uniform */
};

struct tc_spread tc_spread_fixed(double value);
struct tc_spread tc_spread_uniform(double low, double high);
struct tc_spread tc_spread_triangular(double low, double likely, double high);

/* TC_RANGE unless low <= likely <= high and all are finite. */
enum tc_status tc_spread_check(const struct tc_spread *spread);

/*
 * The one value that stands for the range where a single one is asked for:
 * the likely one, which is the midpoint of a uniform range.
 */
double tc_spread_middle(const struct tc_spread *spread);

/* The value that a share p (0 to 1) of all draws stays below; rises with p. */
double tc_spread_quantile(const struct tc_spread *spread, double p);

#endif
