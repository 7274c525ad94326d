/* SPDX-License-Identifier: MIT */
#include "print/chart_title.h"
#include "print/chart_lines.h"

#include <math.h>
#include <string.h>

#include "print/plot.h"
#include "print/series.h"
#include "print/stroke.h"
#include "print/width.h"

enum { LEAST_APART = 4 }; /* columns from one point sign of a line to the next */

struct lines {
    struct tc_plot plot;
    const struct tc_chart *chart;
    int names; /* columns of the names right of the plot; 0 if there is no room */
};

static bool place_at(const struct lines *lines, size_t series, size_t i, double *x, double *y)
{
    *x = lines->chart->x[i];
    *y = lines->chart->series[series].values[i];
    if (!isfinite(*x) || !isfinite(*y))
        return false;
    *x = tc_plot_x(&lines->plot, *x);
    *y = tc_plot_y(&lines->plot, *y);
    return true;
}

static bool point_at(const struct lines *lines, size_t series, size_t i, int *column, int *row)
{
    double x, y;
    if (!place_at(lines, series, i, &x, &y))
        return false;
    *column = (int)floor(x);
    *row = (int)floor(y);
    return true;
}

static void draw_line(struct lines *lines, size_t series)
{
    double x = 0, y = 0, last_x, last_y;
    bool joined = false;
    for (size_t i = 0; i < lines->chart->point_count; i++) {
        last_x = x;
        last_y = y;
        bool here = place_at(lines, series, i, &x, &y);
        if (here && joined)
            tc_stroke_line(lines->plot.canvas, last_x, last_y, x, y, series, lines->plot.ascii);
        joined = here;
    }
}

/* Where two lines meet in a cell, a sign of its own says so. */
static void put_point(struct lines *lines, size_t series, size_t i)
{
    double x, y;
    if (!place_at(lines, series, i, &x, &y))
        return;
    int column = (int)floor(x), row = (int)floor(y);
    const char *sign = tc_series_point(series, lines->plot.ascii);
    const struct tc_glyph *glyph = tc_canvas_at(lines->plot.canvas, column, row);
    for (size_t s = 0; s < series && glyph; s++)
        if (strcmp(glyph->text, tc_series_point(s, lines->plot.ascii)) == 0)
            sign = tc_series_meeting(lines->plot.ascii);
    if (glyph && strcmp(glyph->text, tc_series_meeting(lines->plot.ascii)) == 0)
        sign = glyph->text;
    struct tc_text said = TC_TEXT_EMPTY;
    tc_series_say(&said, lines->plot.canvas, lines->chart, series, i);
    tc_stroke_point(lines->plot.canvas, x, y, series, sign, tc_text_string(&said));
    tc_text_free(&said);
}

/* Point signs at the first and last point and on the way wherever they do not crowd. */
static void draw_points(struct lines *lines, size_t series)
{
    int column, row, last = -LEAST_APART;
    for (size_t i = 0; i < lines->chart->point_count; i++) {
        if (!point_at(lines, series, i, &column, &row))
            continue;
        if (column - last < LEAST_APART && i + 1 < lines->chart->point_count)
            continue;
        put_point(lines, series, i);
        last = column;
    }
}

/* How far down the last point of a series lies; the lowest of the plot if it has none. */
static double end_of(const struct lines *lines, size_t series)
{
    double x, y, end = lines->plot.top + lines->plot.rows - 1;
    for (size_t i = 0; i < lines->chart->point_count; i++)
        if (place_at(lines, series, i, &x, &y))
            end = y;
    return end;
}

/* The series whose line ends highest of those that come after (place, series) in that order. */
static size_t next_ending(const struct lines *lines, double place, size_t series)
{
    size_t next = lines->chart->series_count;
    double next_place = 0;
    for (size_t s = 0; s < lines->chart->series_count; s++) {
        double end = end_of(lines, s);
        bool later = end > place || (end >= place && s > series);
        if (later && (next == lines->chart->series_count || end < next_place)) {
            next = s;
            next_place = end;
        }
    }
    return next;
}

/* The names at the right, each as near to the end of its line as its neighbours allow. */
static void draw_names(struct lines *lines)
{
    const struct tc_chart *chart = lines->chart;
    int left = (int)chart->series_count; /* names still to be placed */
    int column = lines->plot.start + lines->plot.columns + 2;
    int free_row = lines->plot.top;
    int bottom = lines->plot.top + lines->plot.rows;
    double place = -1;
    for (size_t s = SIZE_MAX; left > 0; left--) {
        s = next_ending(lines, place, s);
        place = end_of(lines, s);
        int row = (int)floor(place);
        int at = row > free_row ? row : free_row;
        if (at > bottom - left)
            at = bottom - left;
        tc_stroke_point(lines->plot.canvas, column + 0.5, at + 0.5, s, tc_series_point(s, lines->plot.ascii),
                        NULL);
        tc_canvas_field(lines->plot.canvas, column + 2, at, lines->names - 4, TC_ALIGN_LEFT, TC_TONE_PLAIN,
                        chart->series[s].name, lines->plot.ascii);
        free_row = at + 1;
    }
}

static void draw_x_axis(struct lines *lines)
{
    const struct tc_chart *chart = lines->chart;
    size_t count = chart->point_count;
    bool named = false;
    tc_plot_draw_x(&lines->plot);
    for (size_t i = 0; i < count; i++)
        named = named || *chart->x_labels[i];
    if (!named) {
        tc_plot_x_figures(&lines->plot);
        return;
    }
    /* The ends first: they say how far the axis reaches. */
    tc_plot_x_label(&lines->plot, chart->x[0], chart->x_labels[0]);
    tc_plot_x_label(&lines->plot, chart->x[count - 1], chart->x_labels[count - 1]);
    for (size_t i = 1; i + 1 < count; i++)
        tc_plot_x_label(&lines->plot, chart->x[i], chart->x_labels[i]);
}

static void measure_x(struct lines *lines)
{
    const struct tc_chart *chart = lines->chart;
    bool any = false;
    for (size_t i = 0; i < chart->point_count; i++) {
        double x = chart->x[i];
        if (!isfinite(x))
            continue;
        lines->plot.x_low = any ? fmin(lines->plot.x_low, x) : x;
        lines->plot.x_high = any ? fmax(lines->plot.x_high, x) : x;
        any = true;
    }
}

/* Lays out the plot in a canvas of that width and about that height; returns the height it takes. */
static int measure(struct lines *lines, int width, int height)
{
    const struct tc_chart *chart = lines->chart;
    int series = (int)chart->series_count;
    double low = 0, high = 0;

    measure_x(lines);
    if (tc_series_range(chart, &low, &high) && low > 0 && low < high / 2)
        low = 0;
    for (size_t s = 0; s < chart->series_count; s++) {
        int columns = 4 + tc_width(chart->series[s].name);
        lines->names = columns > lines->names ? columns : lines->names;
    }
    if (lines->names > width / 4)
        lines->names = width / 4;
    lines->plot.top = tc_chart_title(NULL, chart, width, false) + (*chart->y_title != '\0');
    int rows = height - lines->plot.top - TC_PLOT_BELOW;
    tc_plot_lay_out(&lines->plot, low, high, rows < series ? series : rows, width, lines->names);
    return lines->plot.top + (lines->plot.rows > series ? lines->plot.rows : series) + TC_PLOT_BELOW;
}

enum tc_status tc_lines_draw(struct tc_canvas *canvas, const struct tc_chart *chart, int width, int height,
                             bool ascii)
{
    struct lines lines = {.plot = {.canvas = canvas, .ascii = ascii}, .chart = chart};
    enum tc_status status = tc_canvas_start(canvas, width, measure(&lines, width, height));
    if (status != TC_OK)
        return status;
    tc_chart_title(canvas, chart, width, ascii);
    if (*chart->y_title)
        tc_canvas_field(canvas, 0, lines.plot.top - 1, width, TC_ALIGN_LEFT, TC_TONE_SOFT, chart->y_title,
                        ascii);
    for (size_t s = 0; s < chart->series_count; s++)
        draw_line(&lines, s);
    for (size_t s = 0; s < chart->series_count; s++)
        draw_points(&lines, s);
    draw_names(&lines);
    tc_plot_draw_y(&lines.plot);
    if (chart->point_count > 0)
        draw_x_axis(&lines);
    tc_canvas_field(canvas, lines.plot.start, lines.plot.top + lines.plot.rows + 2, lines.plot.columns,
                    TC_ALIGN_RIGHT, TC_TONE_SOFT, chart->x_title, ascii);
    return TC_OK;
}
