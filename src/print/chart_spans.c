/* SPDX-License-Identifier: MIT */
#include "print/chart_spans.h"

#include <math.h>

#include "core/base/number.h"
#include "core/base/order.h"
#include "print/axis.h"
#include "print/chart_title.h"
#include "print/legend.h"
#include "print/series.h"
#include "print/stroke.h"
#include "print/width.h"

struct spans {
    struct tc_canvas *canvas;
    const struct tc_chart *chart;
    bool ascii;
    int start, columns; /* where the spans lie */
    struct tc_axis axis;
    int top, bottom; /* the first row of the spans, and the axis below the last */
};

/* Spans always have two series; a chart without them is shown without spans. False where both ends lack. */
static bool span_of(const struct tc_chart *chart, size_t i, double *from, double *to)
{
    if (chart->series_count < 2)
        return false;
    *from = chart->series[0].values[i];
    *to = chart->series[1].values[i];
    return isfinite(*from) || isfinite(*to);
}

/* Where a value lies, exactly (shape.h), and its column. */
static double place(const struct spans *spans, double value)
{
    double share = (value - spans->axis.low) / (spans->axis.high - spans->axis.low);
    return spans->start + share * (spans->columns - 1) + 0.5;
}

static int position(const struct spans *spans, double value)
{
    return (int)floor(place(spans, value));
}

static void measure(struct spans *spans, int width)
{
    const struct tc_chart *chart = spans->chart;
    int label = tc_width(chart->x_title);
    for (size_t i = 0; i < chart->point_count; i++)
        label = tc_larger(label, tc_width(chart->x_labels[i]));
    if (label > width * 2 / 5)
        label = width * 2 / 5;
    spans->start = label + 2;
    spans->columns = width - spans->start;

    double low = chart->middle, high = chart->middle; /* of which fmin and fmax pass over a NAN */
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
    double ends[2];
    if (!span_of(spans->chart, i, &ends[0], &ends[1]))
        return;
    double a = place(spans, ends[0]), b = place(spans, ends[1]);
    if (isfinite(ends[0]) && isfinite(ends[1]))
        tc_stroke_level(spans->canvas, fmin(a, b), fmax(a, b), row, TC_TONE_PLAIN, spans->ascii ? "-" : "─");
    for (size_t end = 0; end < 2; end++) {
        struct tc_text said = TC_TEXT_EMPTY;
        if (!isfinite(ends[end]))
            continue;
        tc_series_say(&said, spans->canvas, spans->chart, end, i);
        tc_stroke_point(spans->canvas, end == 0 ? a : b, row + 0.5, end, tc_series_point(end, spans->ascii),
                        tc_text_string(&said));
        tc_text_free(&said);
    }
}

static void draw_axis(struct spans *spans)
{
    struct tc_canvas *canvas = spans->canvas;
    bool ascii = spans->ascii;
    int row = spans->bottom;
    tc_stroke_level(canvas, spans->start, spans->start + spans->columns, row, TC_TONE_SOFT,
                    ascii ? "-" : "─");
    for (int i = 0; i <= spans->axis.intervals; i++) {
        char buffer[TC_NUMBER_SIZE];
        const char *text = tc_axis_label(buffer, &spans->axis, i);
        int column = position(spans, tc_axis_figure(&spans->axis, i));
        int at = column - tc_width(text) / 2;
        if (at + tc_width(text) > canvas->width)
            at = canvas->width - tc_width(text);
        tc_stroke_tick(canvas, column, row, 0, -1, ascii ? "+" : "┴");
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
    row += tc_legend_put(spans->canvas, row, width, spans->chart, tc_series_point, spans->ascii);
    if (!isfinite(spans->chart->middle))
        return;
    tc_stroke_upright(spans->canvas, TC_SHAPE_LINE, 0.5, row, 1, spans->ascii ? "|" : "│");
    int column = tc_canvas_text(spans->canvas, 2, row, TC_TONE_PLAIN, "middle ");
    tc_canvas_text(spans->canvas, column, row, TC_TONE_PLAIN, figure);
}

enum tc_status tc_spans_draw(struct tc_canvas *canvas, const struct tc_chart *chart, int width, bool ascii)
{
    struct spans spans = {.canvas = canvas, .chart = chart, .ascii = ascii};
    int legend = isfinite(chart->middle) + tc_legend_put(NULL, 0, width, chart, tc_series_point, ascii);
    measure(&spans, width);
    int sides = side_rows(&spans);
    spans.top = tc_chart_title(NULL, chart, width, ascii) + legend + sides;
    spans.bottom = spans.top + (int)chart->point_count;
    enum tc_status status = tc_canvas_start(canvas, width, spans.bottom + 2);
    if (status != TC_OK)
        return status;
    draw_legend(&spans, tc_chart_title(canvas, chart, width, ascii));
    draw_sides(&spans, spans.top - sides);
    int rows = spans.bottom - spans.top;
    bool border = *chart->below || *chart->above || spans.axis.low < 0;
    if (border && spans.axis.low <= 0 && spans.axis.high >= 0)
        tc_stroke_upright(canvas, TC_SHAPE_DASH, place(&spans, 0), spans.top, rows, ascii ? ":" : "┊");
    if (isfinite(chart->middle))
        tc_stroke_upright(canvas, TC_SHAPE_LINE, place(&spans, chart->middle), spans.top, rows,
                          ascii ? "|" : "│");
    for (size_t i = 0; i < chart->point_count; i++) {
        int row = spans.top + (int)i;
        tc_canvas_field(canvas, 0, row, spans.start - 2, TC_ALIGN_LEFT, TC_TONE_PLAIN, chart->x_labels[i],
                        ascii);
        draw_span(&spans, i, row);
    }
    draw_axis(&spans);
    return TC_OK;
}
