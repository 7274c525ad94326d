/* SPDX-License-Identifier: MIT */
#include "print/chart_lines.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/number.h"
#include "print/axis.h"
#include "print/series.h"
#include "print/width.h"

enum {
    LEAST_PLOT = 5, /* rows */
    LEAST_PLOT_COLUMNS = 10,
    LEAST_ROWS_EACH = 2, /* rows from one figure of the y axis to the next */
    LEAST_APART = 4      /* columns from one point sign of a line to the next */
};

struct lines {
    struct tc_canvas *canvas;
    const struct tc_chart *chart;
    bool ascii;
    struct tc_axis y;
    int rows_each;      /* rows of an interval of y */
    int top, rows;      /* the plot: first row, count; the x axis lies below */
    int start, columns; /* first column, count; the y axis lies left of it */
    int names;          /* columns of the names right of the plot; 0 if there is no room */
    double x_low, x_high;
};

static int column_of(const struct lines *lines, double x)
{
    double range = lines->x_high - lines->x_low;
    double share = range > 0 ? (x - lines->x_low) / range : 0.5;
    return lines->start + (int)lround(share * (lines->columns - 1));
}

static int row_of(const struct lines *lines, double y)
{
    double intervals = (y - lines->y.low) / lines->y.step;
    return lines->top + lines->rows - 1 - (int)lround(intervals * lines->rows_each);
}

static bool point_at(const struct lines *lines, size_t series, size_t i, int *column, int *row)
{
    double x = lines->chart->x[i], y = lines->chart->series[series].values[i];
    if (!isfinite(x) || !isfinite(y))
        return false;
    *column = column_of(lines, x);
    *row = row_of(lines, y);
    return true;
}

/* Dots from one point to the next, where nothing stands yet. */
static void draw_dots(struct lines *lines, size_t series, int column, int row, int to_column, int to_row)
{
    int across = to_column - column, down = to_row - row;
    int steps = abs(across) > abs(down) ? abs(across) : abs(down);
    for (int i = 1; i < steps; i++) {
        int c = column + (int)lround((double)across * i / steps);
        int r = row + (int)lround((double)down * i / steps);
        if (tc_canvas_blank(lines->canvas, c, r, 1))
            tc_canvas_put(lines->canvas, c, r, tc_series_tone(series), lines->ascii ? "." : "·");
    }
}

static void draw_line(struct lines *lines, size_t series)
{
    int column = 0, row = 0, last_column, last_row;
    bool joined = false;
    for (size_t i = 0; i < lines->chart->point_count; i++) {
        last_column = column;
        last_row = row;
        bool here = point_at(lines, series, i, &column, &row);
        if (here && joined)
            draw_dots(lines, series, last_column, last_row, column, row);
        joined = here;
    }
}

/* Where two lines meet in a cell, a sign of its own says so. */
static void put_point(struct lines *lines, size_t series, int column, int row)
{
    const char *sign = tc_series_point(series, lines->ascii);
    const struct tc_glyph *glyph = tc_canvas_at(lines->canvas, column, row);
    for (size_t s = 0; s < series && glyph; s++)
        if (strcmp(glyph->text, tc_series_point(s, lines->ascii)) == 0)
            sign = tc_series_meeting(lines->ascii);
    if (glyph && strcmp(glyph->text, tc_series_meeting(lines->ascii)) == 0)
        return;
    tc_canvas_put(lines->canvas, column, row, tc_series_tone(series), sign);
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
        put_point(lines, series, column, row);
        last = column;
    }
}

/* The row of the last point of a series; the lowest of the plot if it has none. */
static int end_row(const struct lines *lines, size_t series)
{
    int column, row, end = lines->top + lines->rows - 1;
    for (size_t i = 0; i < lines->chart->point_count; i++)
        if (point_at(lines, series, i, &column, &row))
            end = row;
    return end;
}

/* The series whose line ends highest of those that come after (row, series) in that order. */
static size_t next_ending(const struct lines *lines, int row, size_t series)
{
    size_t next = lines->chart->series_count;
    int next_row = 0;
    for (size_t s = 0; s < lines->chart->series_count; s++) {
        int end = end_row(lines, s);
        bool later = end > row || (end == row && s > series);
        if (later && (next == lines->chart->series_count || end < next_row)) {
            next = s;
            next_row = end;
        }
    }
    return next;
}

/* The names at the right, each as near to the end of its line as its neighbours allow. */
static void draw_names(struct lines *lines)
{
    const struct tc_chart *chart = lines->chart;
    int left = (int)chart->series_count; /* names still to be placed */
    int column = lines->start + lines->columns + 2;
    int free_row = lines->top;
    int bottom = lines->top + lines->rows;
    int row = -1;
    for (size_t s = SIZE_MAX; left > 0; left--) {
        s = next_ending(lines, row, s);
        row = end_row(lines, s);
        int at = row > free_row ? row : free_row;
        if (at > bottom - left)
            at = bottom - left;
        tc_canvas_put(lines->canvas, column, at, tc_series_tone(s), tc_series_point(s, lines->ascii));
        tc_canvas_field(lines->canvas, column + 2, at, lines->names - 4, TC_ALIGN_LEFT, TC_TONE_PLAIN,
                        chart->series[s].name, lines->ascii);
        free_row = at + 1;
    }
}

static void draw_y_axis(struct lines *lines)
{
    for (int i = 0; i <= lines->y.intervals; i++) {
        char buffer[TC_NUMBER_SIZE];
        int row = row_of(lines, tc_axis_figure(&lines->y, i));
        tc_canvas_field(lines->canvas, 0, row, lines->start - 2, TC_ALIGN_RIGHT, TC_TONE_SOFT,
                        tc_axis_label(buffer, &lines->y, i), lines->ascii);
    }
    tc_canvas_down(lines->canvas, lines->start - 1, lines->top, lines->rows, TC_TONE_SOFT,
                   lines->ascii ? "|" : "│");
    for (int i = 0; i <= lines->y.intervals; i++)
        tc_canvas_put(lines->canvas, lines->start - 1, row_of(lines, tc_axis_figure(&lines->y, i)),
                      TC_TONE_SOFT, lines->ascii ? "+" : "┤");
}

/* A label below the x axis with its tick, unless it would touch another. */
static void put_x_label(struct lines *lines, double x, const char *text)
{
    int axis = lines->top + lines->rows;
    int column = column_of(lines, x), width = tc_width(text);
    int at = column - width / 2;
    if (at + width > lines->canvas->width)
        at = lines->canvas->width - width;
    if (at < 0 || !*text || !tc_canvas_blank(lines->canvas, at - 1, axis + 1, width + 2))
        return;
    tc_canvas_text(lines->canvas, at, axis + 1, TC_TONE_SOFT, text);
    tc_canvas_put(lines->canvas, column, axis, TC_TONE_SOFT, lines->ascii ? "+" : "┬");
}

static void draw_x_axis(struct lines *lines)
{
    const struct tc_chart *chart = lines->chart;
    size_t count = chart->point_count;
    bool named = false;
    int row = lines->top + lines->rows;
    tc_canvas_put(lines->canvas, lines->start - 1, row, TC_TONE_SOFT, lines->ascii ? "+" : "└");
    tc_canvas_across(lines->canvas, lines->start, row, lines->columns, TC_TONE_SOFT,
                     lines->ascii ? "-" : "─");
    for (size_t i = 0; i < count; i++)
        named = named || *chart->x_labels[i];
    if (named) { /* the ends first: they say how far the axis reaches */
        put_x_label(lines, chart->x[0], chart->x_labels[0]);
        put_x_label(lines, chart->x[count - 1], chart->x_labels[count - 1]);
        for (size_t i = 1; i + 1 < count; i++)
            put_x_label(lines, chart->x[i], chart->x_labels[i]);
        return;
    }
    struct tc_axis axis = tc_axis_fit(lines->x_low, lines->x_high, lines->columns / 8);
    for (int i = 0; i <= axis.intervals; i++) {
        char buffer[TC_NUMBER_SIZE];
        double x = tc_axis_figure(&axis, i);
        if (x >= lines->x_low && x <= lines->x_high)
            put_x_label(lines, x, tc_axis_label(buffer, &axis, i));
    }
}

static void measure_x(struct lines *lines)
{
    const struct tc_chart *chart = lines->chart;
    bool any = false;
    for (size_t i = 0; i < chart->point_count; i++) {
        double x = chart->x[i];
        if (!isfinite(x))
            continue;
        lines->x_low = any ? fmin(lines->x_low, x) : x;
        lines->x_high = any ? fmax(lines->x_high, x) : x;
        any = true;
    }
}

/* Lays out the plot in a canvas of that width and about that height; returns the height it takes. */
static int measure(struct lines *lines, int width, int height)
{
    const struct tc_chart *chart = lines->chart;
    double low = 0, high = 0;
    char buffer[TC_NUMBER_SIZE];
    int figures = 0, below = 3; /* the axis, its labels, its title */

    measure_x(lines);
    if (tc_series_range(chart, &low, &high) && low > 0 && low < high / 2)
        low = 0;
    lines->top = 1 + (*chart->y_title != '\0');
    int rows = height - lines->top - below;
    if (rows < (int)chart->series_count)
        rows = (int)chart->series_count; /* for their names */
    if (rows < LEAST_PLOT)
        rows = LEAST_PLOT;
    lines->y = tc_axis_fit_cells(low, high, rows - 1, LEAST_ROWS_EACH, &lines->rows_each);
    lines->rows = lines->y.intervals * lines->rows_each + 1;
    for (int i = 0; i <= lines->y.intervals; i++) {
        int columns = tc_width(tc_axis_label(buffer, &lines->y, i));
        figures = columns > figures ? columns : figures;
    }
    for (size_t s = 0; s < chart->series_count; s++) {
        int columns = 4 + tc_width(chart->series[s].name);
        lines->names = columns > lines->names ? columns : lines->names;
    }
    if (lines->names > width / 4)
        lines->names = width / 4;
    lines->start = figures + 2;
    lines->columns = width - lines->start - lines->names;
    if (lines->columns < LEAST_PLOT_COLUMNS)
        lines->columns = LEAST_PLOT_COLUMNS;
    return lines->top + (lines->rows > (int)chart->series_count ? lines->rows : (int)chart->series_count) +
           below;
}

enum tc_status tc_lines_draw(struct tc_canvas *canvas, const struct tc_chart *chart, int width, int height,
                             bool ascii)
{
    struct lines lines = {.canvas = canvas, .chart = chart, .ascii = ascii};
    enum tc_status status = tc_canvas_start(canvas, width, measure(&lines, width, height));
    if (status != TC_OK)
        return status;
    tc_canvas_field(canvas, 0, 0, width, TC_ALIGN_LEFT, TC_TONE_STRONG, chart->title, ascii);
    if (*chart->y_title)
        tc_canvas_field(canvas, 0, 1, width, TC_ALIGN_LEFT, TC_TONE_SOFT, chart->y_title, ascii);
    for (size_t s = 0; s < chart->series_count; s++)
        draw_line(&lines, s);
    for (size_t s = 0; s < chart->series_count; s++)
        draw_points(&lines, s);
    draw_names(&lines);
    draw_y_axis(&lines);
    if (chart->point_count > 0)
        draw_x_axis(&lines);
    tc_canvas_field(canvas, lines.start, lines.top + lines.rows + 2, lines.columns, TC_ALIGN_RIGHT,
                    TC_TONE_SOFT, chart->x_title, ascii);
    return TC_OK;
}
