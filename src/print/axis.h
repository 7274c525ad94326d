/* SPDX-License-Identifier: MIT */
/* axis.h - scales with round figures: steps of 1, 2 or 5 times a power of ten. */
#ifndef TC_PRINT_AXIS_H
#define TC_PRINT_AXIS_H

struct tc_axis {
    double low, high; /* multiples of step */
    double step;
    int intervals; /* steps between low and high */
    int decimals;  /* the digits after the point that a multiple of step needs */
};

/*
 * The axis with the least step that holds low to high in at most that many
 * intervals; two are always allowed, since a range about zero needs them. A
 * range of no width, or one that is not finite, is widened.
 */
struct tc_axis tc_axis_fit(double low, double high, int most_intervals);

/* The i-th figure from low on. */
double tc_axis_figure(const struct tc_axis *axis, int i);

/*
 * The same for an axis whose figures stand at whole cells, *cells_each (at
 * least `least`) apart: of all such axes the one on which low to high takes
 * most of the cells.
 */
struct tc_axis tc_axis_fit_cells(double low, double high, int cells, int least, int *cells_each);

/* Writes the i-th figure into buffer (at least TC_NUMBER_SIZE) and returns it. */
const char *tc_axis_label(char *buffer, const struct tc_axis *axis, int i);

#endif
