/* SPDX-License-Identifier: MIT */
#include "print/plot.h"

#include <math.h>

#include "core/base/number.h"
#include "print/stroke.h"
#include "print/width.h"

void tc_plot_lay_out(struct tc_plot *plot, double low, double high, int rows, int width, int right)
{
    char buffer[TC_NUMBER_SIZE];
    int figures = 0;
    if (rows < TC_PLOT_LEAST_ROWS)
        rows = TC_PLOT_LEAST_ROWS;
    plot->y = tc_axis_fit_cells(low, high, rows - 1, TC_PLOT_ROWS_EACH, &plot->rows_each);
    plot->rows = plot->y.intervals * plot->rows_each + 1;
    for (int i = 0; i <= plot->y.intervals; i++) {
        int columns = tc_width(tc_axis_label(buffer, &plot->y, i));
        figures = columns > figures ? columns : figures;
    }
    plot->start = figures + 2;
    plot->columns = width - plot->start - right;
    if (plot->columns < TC_PLOT_LEAST_COLUMNS)
        plot->columns = TC_PLOT_LEAST_COLUMNS;
}

double tc_plot_x(const struct tc_plot *plot, double x)
{
    double range = plot->x_high - plot->x_low;
    double share = range > 0 ? (x - plot->x_low) / range : 0.5;
    return plot->start + share * (plot->columns - 1) + 0.5;
}

double tc_plot_y(const struct tc_plot *plot, double y)
{
    double intervals = (y - plot->y.low) / plot->y.step;
    return plot->top + plot->rows - 1 - intervals * plot->rows_each + 0.5;
}

int tc_plot_column(const struct tc_plot *plot, double x)
{
    return (int)floor(tc_plot_x(plot, x));
}

int tc_plot_row(const struct tc_plot *plot, double y)
{
    return (int)floor(tc_plot_y(plot, y));
}

void tc_plot_draw_y(const struct tc_plot *plot)
{
    for (int i = 0; i <= plot->y.intervals; i++) {
        char buffer[TC_NUMBER_SIZE];
        int row = tc_plot_row(plot, tc_axis_figure(&plot->y, i));
        tc_canvas_field(plot->canvas, 0, row, plot->start - 2, TC_ALIGN_RIGHT, TC_TONE_SOFT,
                        tc_axis_label(buffer, &plot->y, i), plot->ascii);
    }
    int column = plot->start - 1;
    tc_stroke_upright(plot->canvas, TC_SHAPE_LINE, column + 0.5, plot->top, plot->rows,
                      plot->ascii ? "|" : "│");
    for (int i = 0; i <= plot->y.intervals; i++)
        tc_stroke_tick(plot->canvas, column, tc_plot_row(plot, tc_axis_figure(&plot->y, i)), -1, 0,
                       plot->ascii ? "+" : "┤");
}

void tc_plot_draw_x(const struct tc_plot *plot)
{
    int row = plot->top + plot->rows;
    tc_stroke_level(plot->canvas, plot->start, plot->start + plot->columns, row, TC_TONE_SOFT,
                    plot->ascii ? "-" : "─");
    tc_stroke_corner(plot->canvas, plot->start - 1, row, plot->ascii ? "+" : "└");
}

void tc_plot_x_label(const struct tc_plot *plot, double x, const char *text)
{
    int axis = plot->top + plot->rows;
    int column = tc_plot_column(plot, x), width = tc_width(text);
    int at = column - width / 2;
    if (at + width > plot->canvas->width)
        at = plot->canvas->width - width;
    if (at < 0 || !*text || !tc_canvas_blank(plot->canvas, at - 1, axis + 1, width + 2))
        return;
    tc_canvas_text(plot->canvas, at, axis + 1, TC_TONE_SOFT, text);
    tc_stroke_tick(plot->canvas, column, axis, 0, 1, plot->ascii ? "+" : "┬");
}

void tc_plot_x_figures(const struct tc_plot *plot)
{
    struct tc_axis axis = tc_axis_fit(plot->x_low, plot->x_high, plot->columns / 8);
    for (int i = 0; i <= axis.intervals; i++) {
        char buffer[TC_NUMBER_SIZE];
        double x = tc_axis_figure(&axis, i);
        if (x >= plot->x_low && x <= plot->x_high)
            tc_plot_x_label(plot, x, tc_axis_label(buffer, &axis, i));
    }
}
