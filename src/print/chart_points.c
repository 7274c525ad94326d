/* SPDX-License-Identifier: MIT */
#include "print/chart_points.h"

#include <math.h>

#include "print/plot.h"
#include "print/chart_title.h"
#include "print/legend.h"
#include "print/series.h"
#include "print/stroke.h"
#include "print/width.h"

enum { LONGEST_NAME = 24 };

static void measure_x(struct tc_plot *plot, const struct tc_chart *chart)
{
    bool any = false;
    for (size_t i = 0; i < chart->point_count; i++) {
        double x = chart->x[i];
        bool there = false;
        for (size_t s = 0; s < chart->series_count; s++)
            there = there || isfinite(chart->series[s].values[i]);
        if (!isfinite(x) || !there)
            continue;
        plot->x_low = any ? fmin(plot->x_low, x) : x;
        plot->x_high = any ? fmax(plot->x_high, x) : x;
        any = true;
    }
    /* Round ends, so that no point lies on the edge. */
    struct tc_axis axis = tc_axis_fit(plot->x_low, plot->x_high, 6);
    plot->x_low = axis.low;
    plot->x_high = tc_axis_figure(&axis, axis.intervals);
}

static bool point_at(const struct tc_plot *plot, const struct tc_chart *chart, size_t series, size_t i,
                     int *column, int *row)
{
    double x = chart->x[i], y = chart->series[series].values[i];
    if (!isfinite(x) || !isfinite(y))
        return false;
    *column = tc_plot_column(plot, x);
    *row = tc_plot_row(plot, y);
    return true;
}

/* The later series first, so that the first one's signs are seen where several meet. */
static void draw_signs(const struct tc_plot *plot, const struct tc_chart *chart)
{
    int column, row;
    for (size_t s = chart->series_count; s-- > 0;) {
        for (size_t i = 0; i < chart->point_count; i++) {
            struct tc_text said = TC_TEXT_EMPTY;
            if (!point_at(plot, chart, s, i, &column, &row))
                continue;
            tc_series_say(&said, plot->canvas, chart, s, i);
            tc_stroke_point(plot->canvas, tc_plot_x(plot, chart->x[i]),
                            tc_plot_y(plot, chart->series[s].values[i]), s, tc_series_point(s, plot->ascii),
                            tc_text_string(&said));
            tc_text_free(&said);
        }
    }
}

/* Names beside the points of the first series, right or left, wherever there is room for the whole name. */
static void draw_names(const struct tc_plot *plot, const struct tc_chart *chart)
{
    int column, row;
    for (size_t i = 0; chart->series_count > 0 && i < chart->point_count; i++) {
        const char *name = chart->x_labels[i];
        int width = tc_width(name);
        if (!*name || width > LONGEST_NAME || !point_at(plot, chart, 0, i, &column, &row))
            continue;
        int right = column + 2, left = column - 1 - width;
        if (right + width <= plot->canvas->width && tc_canvas_blank(plot->canvas, right - 1, row, width + 2))
            tc_canvas_text(plot->canvas, right, row, TC_TONE_PLAIN, name);
        else if (left > plot->start && tc_canvas_blank(plot->canvas, left - 1, row, width + 2))
            tc_canvas_text(plot->canvas, left, row, TC_TONE_PLAIN, name);
    }
}

enum tc_status tc_points_draw(struct tc_canvas *canvas, const struct tc_chart *chart, int width, int height,
                              bool ascii)
{
    struct tc_plot plot = {.canvas = canvas, .ascii = ascii};
    double low = 0, high = 0;
    int legend = tc_legend_put(NULL, 0, width, chart, tc_series_point, ascii);
    plot.top = tc_chart_title(NULL, chart, width, ascii) + (*chart->y_title != '\0');
    measure_x(&plot, chart);
    if (tc_series_range(chart, &low, &high) && low > 0 && low < high / 2)
        low = 0;
    tc_plot_lay_out(&plot, low, high, height - plot.top - TC_PLOT_BELOW - legend, width, 1);
    int end = plot.top + plot.rows + TC_PLOT_BELOW;
    enum tc_status status = tc_canvas_start(canvas, width, end + legend);
    if (status != TC_OK)
        return status;
    tc_chart_title(canvas, chart, width, ascii);
    if (*chart->y_title)
        tc_canvas_field(canvas, 0, plot.top - 1, width, TC_ALIGN_LEFT, TC_TONE_SOFT, chart->y_title, ascii);
    tc_plot_draw_y(&plot);
    tc_plot_draw_x(&plot);
    tc_plot_x_figures(&plot);
    draw_signs(&plot, chart);
    draw_names(&plot, chart);
    tc_canvas_field(canvas, plot.start, end - 1, plot.columns, TC_ALIGN_RIGHT, TC_TONE_SOFT, chart->x_title,
                    ascii);
    tc_legend_put(canvas, end, width, chart, tc_series_point, ascii);
    return TC_OK;
}
