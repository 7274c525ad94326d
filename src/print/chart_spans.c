/* SPDX-License-Identifier: MIT */
#include "print/chart_spans.h"

#include <math.h>
#include <stdlib.h>

#include "core/base/number.h"
#include "print/axis.h"
#include "print/series.h"
#include "print/width.h"

struct spans {
    struct tc_canvas *canvas;
    const struct tc_chart *chart;
    bool ascii;
    int start, columns; /* where the spans lie */
    struct tc_axis axis;
    int top, bottom; /* the first row of the spans, and the axis below the last */
};

/* Spans always have two series; a chart without them is shown without spans. */
static bool span_of(const struct tc_chart *chart, size_t i, double *from, double *to)
{
    if (chart->series_count < 2)
        return false;
    *from = chart->series[0].values[i];
    *to = chart->series[1].values[i];
    return isfinite(*from) && isfinite(*to);
}

static int larger(int a, int b)
{
    return a > b ? a : b;
}

static int position(const struct spans *spans, double value)
{
    double share = (value - spans->axis.low) / (spans->axis.high - spans->axis.low);
    return spans->start + (int)lround(share * (spans->columns - 1));
}

static void measure(struct spans *spans, int width)
{
    const struct tc_chart *chart = spans->chart;
    int label = tc_width(chart->x_title);
    for (size_t i = 0; i < chart->point_count; i++)
        label = larger(label, tc_width(chart->x_labels[i]));
    if (label > width * 2 / 5)
        label = width * 2 / 5;
    spans->start = label + 2;
    spans->columns = width - spans->start;

    double low = chart->middle, high = chart->middle;
    double least, most;
    if (tc_series_range(chart, &least, &most)) {
        low = fmin(low, least);
        high = fmax(high, most);
    }
    if (*chart->below || *chart->above) { /* then zero is a border worth seeing */
        low = fmin(low, 0);
        high = fmax(high, 0);
    }
    spans->axis = tc_axis_fit(low, high, spans->columns / 10);
}

/* The rows that what lies left and right of zero takes: one if both have room side by side. */
static int side_rows(const struct spans *spans)
{
    int below = tc_width(spans->chart->below), above = tc_width(spans->chart->above);
    int arrow = spans->ascii ? 3 : 2;
    int rows = (below > 0) + (above > 0);
    return rows == 2 && below + above + 2 * arrow + 2 <= spans->columns ? 1 : rows;
}

static void draw_sides(struct spans *spans, int row)
{
    const struct tc_chart *chart = spans->chart;
    bool ascii = spans->ascii;
    int width = spans->columns;
    int last = row + side_rows(spans) - 1;
    if (*chart->below) {
        int at = tc_canvas_text(spans->canvas, spans->start, row, TC_TONE_SOFT, ascii ? "<- " : "← ");
        tc_canvas_field(spans->canvas, at, row, spans->start + width - at, TC_ALIGN_LEFT, TC_TONE_PLAIN,
                        chart->below, ascii);
    }
    if (*chart->above) {
        const char *arrow = ascii ? " ->" : " →";
        int room = width - tc_width(arrow);
        int field = tc_width(chart->above) < room ? tc_width(chart->above) : room;
        tc_canvas_text(spans->canvas, spans->start + room, last, TC_TONE_SOFT, arrow);
        tc_canvas_field(spans->canvas, spans->start + room - field, last, field, TC_ALIGN_RIGHT,
                        TC_TONE_PLAIN, chart->above, ascii);
    }
}

static void draw_span(struct spans *spans, size_t i, int row)
{
    double from, to;
    if (!span_of(spans->chart, i, &from, &to))
        return;
    int a = position(spans, from), b = position(spans, to);
    int left = a < b ? a : b;
    tc_canvas_across(spans->canvas, left, row, abs(b - a), TC_TONE_PLAIN, spans->ascii ? "-" : "─");
    tc_canvas_put(spans->canvas, a, row, tc_series_tone(0), tc_series_point(0, spans->ascii));
    tc_canvas_put(spans->canvas, b, row, tc_series_tone(1), tc_series_point(1, spans->ascii));
}

static void draw_axis(struct spans *spans)
{
    struct tc_canvas *canvas = spans->canvas;
    bool ascii = spans->ascii;
    int row = spans->bottom;
    tc_canvas_across(canvas, spans->start, row, spans->columns, TC_TONE_SOFT, ascii ? "-" : "─");
    for (int i = 0; i <= spans->axis.intervals; i++) {
        char buffer[TC_NUMBER_SIZE];
        const char *text = tc_axis_label(buffer, &spans->axis, i);
        int column = position(spans, tc_axis_figure(&spans->axis, i));
        int at = column - tc_width(text) / 2;
        if (at + tc_width(text) > canvas->width)
            at = canvas->width - tc_width(text);
        tc_canvas_put(canvas, column, row, TC_TONE_SOFT, ascii ? "+" : "┴");
        if (tc_canvas_blank(canvas, at - 1, row + 1, tc_width(text) + 2))
            tc_canvas_text(canvas, at, row + 1, TC_TONE_SOFT, text);
    }
    tc_canvas_field(canvas, 0, row + 1, spans->start - 2, TC_ALIGN_RIGHT, TC_TONE_SOFT, spans->chart->y_title,
                    ascii);
}

/* The legend of the ends and, after it, of the upright line at the middle. */
static void draw_legend(struct spans *spans, int row)
{
    char buffer[TC_NUMBER_SIZE];
    const char *figure = tc_number_write(buffer, spans->chart->middle, spans->chart->decimals, true);
    int width = spans->canvas->width;
    row += tc_series_legend(spans->canvas, row, width, spans->chart, tc_series_point, spans->ascii);
    int column = tc_canvas_text(spans->canvas, 0, row, TC_TONE_SOFT, spans->ascii ? "|" : "│");
    column = tc_canvas_text(spans->canvas, column + 1, row, TC_TONE_PLAIN, "middle ");
    tc_canvas_text(spans->canvas, column, row, TC_TONE_PLAIN, figure);
}

enum tc_status tc_spans_draw(struct tc_canvas *canvas, const struct tc_chart *chart, int width, bool ascii)
{
    struct spans spans = {.canvas = canvas, .chart = chart, .ascii = ascii};
    int legend = 1 + tc_series_legend(NULL, 0, width, chart, tc_series_point, ascii);
    measure(&spans, width);
    int sides = side_rows(&spans);
    spans.top = 1 + legend + sides;
    spans.bottom = spans.top + (int)chart->point_count;
    enum tc_status status = tc_canvas_start(canvas, width, spans.bottom + 2);
    if (status != TC_OK)
        return status;
    tc_canvas_field(canvas, 0, 0, width, TC_ALIGN_LEFT, TC_TONE_STRONG, chart->title, ascii);
    draw_legend(&spans, 1);
    draw_sides(&spans, spans.top - sides);
    int rows = spans.bottom - spans.top;
    if (spans.axis.low <= 0 && spans.axis.high >= 0)
        tc_canvas_down(canvas, position(&spans, 0), spans.top, rows, TC_TONE_SOFT, ascii ? ":" : "┊");
    tc_canvas_down(canvas, position(&spans, chart->middle), spans.top, rows, TC_TONE_SOFT, ascii ? "|" : "│");
    for (size_t i = 0; i < chart->point_count; i++) {
        int row = spans.top + (int)i;
        tc_canvas_field(canvas, 0, row, spans.start - 2, TC_ALIGN_LEFT, TC_TONE_PLAIN, chart->x_labels[i],
                        ascii);
        draw_span(&spans, i, row);
    }
    draw_axis(&spans);
    return TC_OK;
}
