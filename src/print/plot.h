/* SPDX-License-Identifier: MIT */
/*
 * plot.h - the frame of a chart over two axes: where a place of it lies on the
 * canvas, and the axes with their figures.
 */
#ifndef TC_PRINT_PLOT_H
#define TC_PRINT_PLOT_H

#include <stdbool.h>

#include "print/axis.h"
#include "print/canvas.h"

enum {
    TC_PLOT_LEAST_ROWS = 5,
    TC_PLOT_LEAST_COLUMNS = 10,
    TC_PLOT_ROWS_EACH = 2, /* rows from one figure of the y axis to the next, at least */
    TC_PLOT_BELOW = 3      /* rows below the plot: the axis, its labels, its title */
};

struct tc_plot {
    struct tc_canvas *canvas; /* borrowed */
    bool ascii;
    struct tc_axis y;
    int rows_each;      /* rows of an interval of y */
    int top, rows;      /* the plot: first row, count; the x axis lies below */
    int start, columns; /* first column, count; the y axis lies left of it */
    double x_low, x_high;
};

/*
 * Lays a plot of y from low to high out below row `top`, in about that many
 * rows, and in the columns of a canvas of that width that the figures of the y
 * axis leave, less `right`.
 */
void tc_plot_lay_out(struct tc_plot *plot, double low, double high, int rows, int width, int right);

/* Where a place lies on the canvas, exactly (shape.h), and its cell. */
double tc_plot_x(const struct tc_plot *plot, double x);
double tc_plot_y(const struct tc_plot *plot, double y);
int tc_plot_column(const struct tc_plot *plot, double x);
int tc_plot_row(const struct tc_plot *plot, double y);

/* Draws the y axis with its figures, and the line of the x axis with its corner. */
void tc_plot_draw_y(const struct tc_plot *plot);
void tc_plot_draw_x(const struct tc_plot *plot);

/* A label below the x axis with its tick, unless it would touch another. */
void tc_plot_x_label(const struct tc_plot *plot, double x, const char *text);

/* Round figures along the x axis. */
void tc_plot_x_figures(const struct tc_plot *plot);

#endif
