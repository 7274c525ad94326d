/* SPDX-License-Identifier: MIT */
#include "print/chart_bars.h"

#include <math.h>

#include "core/base/number.h"
#include "core/base/order.h"
#include "print/chart_title.h"
#include "print/legend.h"
#include "print/series.h"
#include "print/stroke.h"
#include "print/width.h"

/* From so many rows on bars may be thicker, up to so many rows each. */
enum { ROOMY = 30, THICK_MOST = 3 };

struct bars {
    struct tc_canvas *canvas;
    const struct tc_chart *chart;
    bool ascii;
    int label, figure;  /* columns of the labels and of the sums */
    int start, columns; /* where the bars lie */
    int thick;          /* rows of each bar */
    double low, high;   /* of the sums; zero is within */
};

static double or_zero(double value)
{
    return isfinite(value) ? value : 0;
}

/* The sum of a bar's series; NaN if none has a value. */
static double bar_sum(const struct tc_chart *chart, size_t i)
{
    double sum = 0;
    bool any = false;
    for (size_t s = 0; s < tc_series_parts(chart); s++) {
        any = any || isfinite(chart->series[s].values[i]);
        sum += or_zero(chart->series[s].values[i]);
    }
    return any ? sum : NAN;
}

static const char *sum_text(char *buffer, const struct tc_chart *chart, size_t i)
{
    double sum = bar_sum(chart, i);
    return isfinite(sum) ? tc_number_write(buffer, sum, chart->decimals, true) : "-";
}

static void measure(struct bars *bars, int width)
{
    const struct tc_chart *chart = bars->chart;
    bars->label = tc_width(chart->x_title);
    bars->figure = tc_width(chart->y_title);
    for (size_t i = 0; i < chart->point_count; i++) {
        char buffer[TC_NUMBER_SIZE];
        double up = 0, down = 0;
        for (size_t s = 0; s < tc_series_parts(chart); s++) {
            double value = or_zero(chart->series[s].values[i]);
            up += value > 0 ? value : 0;
            down += value < 0 ? value : 0;
        }
        for (size_t s = tc_series_parts(chart); s < chart->series_count; s++)
            up = fmax(up, or_zero(chart->series[s].values[i]));
        bars->high = fmax(bars->high, up);
        bars->low = fmin(bars->low, down);
        bars->label = tc_larger(bars->label, tc_width(chart->x_labels[i]));
        bars->figure = tc_larger(bars->figure, tc_width(sum_text(buffer, chart, i)));
    }
    if (bars->label > width / 3)
        bars->label = width / 3;
    if (bars->figure > width / 3)
        bars->figure = width / 3;
    bars->start = bars->label + 1;
    bars->columns = width - bars->start - 1 - bars->figure;
}

/* Where a value lies, in columns from the left end of the bars. */
static double position(const struct bars *bars, double value)
{
    if (bars->high <= bars->low)
        return 0;
    return (value - bars->low) / (bars->high - bars->low) * bars->columns;
}

static void draw_bar(struct bars *bars, size_t i, int row)
{
    double up = 0, down = 0;
    for (size_t s = 0; s < tc_series_parts(bars->chart); s++) {
        double value = or_zero(bars->chart->series[s].values[i]);
        double from = value < 0 ? down + value : up;
        double to = value < 0 ? down : up + value;
        struct tc_text said = TC_TEXT_EMPTY;
        tc_series_say(&said, bars->canvas, bars->chart, s, i);
        tc_stroke_bar(bars->canvas, bars->start + position(bars, from), bars->start + position(bars, to), row,
                      s, tc_text_string(&said), bars->ascii);
        tc_text_free(&said);
        if (value < 0)
            down += value;
        else
            up += value;
    }
}

/* A range about a place, with a sign at each. */
static void draw_range(struct bars *bars, int row, double from, double middle, double to, const char *label)
{
    bool ascii = bars->ascii;
    tc_stroke_level(bars->canvas, from, to, row, TC_TONE_PLAIN, ascii ? "-" : "─");
    tc_stroke_end(bars->canvas, from, row, TC_TONE_PLAIN, ascii ? "|" : "├", label);
    tc_stroke_end(bars->canvas, to, row, TC_TONE_PLAIN, ascii ? "|" : "┤", label);
    tc_stroke_end(bars->canvas, middle, row, TC_TONE_STRONG, ascii ? "+" : "┼", label);
}

/* The range about a bar's sum, in the row below it. */
static void draw_band(struct bars *bars, size_t i, int row)
{
    const struct tc_chart *chart = bars->chart;
    size_t low = tc_series_parts(chart);
    double from = chart->series[low].values[i], to = chart->series[low + 1].values[i];
    char low_text[TC_NUMBER_SIZE], high_text[TC_NUMBER_SIZE];
    struct tc_text said = TC_TEXT_EMPTY;
    if (!isfinite(from) || !isfinite(to) || !isfinite(bar_sum(chart, i)))
        return;
    if (bars->canvas->vector)
        tc_text_addf(&said, "%s, %s: %s to %s %s", chart->x_labels[i], chart->band,
                     tc_number_write(low_text, from, chart->decimals, true),
                     tc_number_write(high_text, to, chart->decimals, true), chart->y_title);
    bars->canvas->failed = bars->canvas->failed || said.failed;
    draw_range(bars, row, bars->start + position(bars, from), bars->start + position(bars, bar_sum(chart, i)),
               bars->start + position(bars, to), tc_text_string(&said));
    tc_text_free(&said);
}

/* Rows of a bar: more than one where there is much room, as on a large screen. */
static int thickness(const struct tc_chart *chart, int height)
{
    if (height < ROOMY || chart->point_count == 0)
        return 1;
    return tc_larger(1, tc_smaller(THICK_MOST, height / (4 * (int)chart->point_count)));
}

static void draw_bars(struct bars *bars, int row, int rows_each)
{
    const struct tc_chart *chart = bars->chart;
    int width = bars->canvas->width;
    for (size_t i = 0; i < chart->point_count; i++, row += rows_each) {
        char buffer[TC_NUMBER_SIZE];
        tc_canvas_field(bars->canvas, 0, row, bars->label, TC_ALIGN_LEFT, TC_TONE_PLAIN, chart->x_labels[i],
                        bars->ascii);
        for (int k = 0; k < bars->thick; k++)
            draw_bar(bars, i, row + k);
        tc_canvas_field(bars->canvas, width - bars->figure, row, bars->figure, TC_ALIGN_RIGHT, TC_TONE_PLAIN,
                        sum_text(buffer, chart, i), bars->ascii);
        if (bars->chart->series_count > tc_series_parts(bars->chart))
            draw_band(bars, i, row + bars->thick);
    }
}

/* The row of the legend that says what the ranges are. */
static void draw_band_legend(struct bars *bars, int row)
{
    draw_range(bars, row, 0.5, 2.5, 4.5, "");
    tc_canvas_field(bars->canvas, 6, row, bars->canvas->width - 6, TC_ALIGN_LEFT, TC_TONE_PLAIN,
                    bars->chart->band, bars->ascii);
}

enum tc_status tc_bars_draw(struct tc_canvas *canvas, const struct tc_chart *chart, int width, int height,
                            bool ascii)
{
    struct bars bars = {.canvas = canvas, .chart = chart, .ascii = ascii, .thick = thickness(chart, height)};
    bool banded = tc_series_parts(chart) < chart->series_count;
    bool heads = *chart->x_title || *chart->y_title;
    int legend = tc_series_parts(chart) > 1 ? tc_legend_put(NULL, 0, width, chart, tc_series_fill, ascii) : 0;
    /* The title of the sums goes beside a legend that leaves room for it. */
    bool beside =
        legend == 1 && !banded && !*chart->x_title &&
        tc_legend_put(NULL, 0, width - 3 - tc_width(chart->y_title), chart, tc_series_fill, ascii) == 1;
    int title = tc_chart_title(NULL, chart, width, ascii);
    int row = title + legend + banded + (heads && !beside),
        rows_each = bars.thick + banded + (bars.thick > 1);
    measure(&bars, width);
    enum tc_status status = tc_canvas_start(canvas, width, row + rows_each * (int)chart->point_count);
    if (status != TC_OK)
        return status;
    tc_chart_title(canvas, chart, width, ascii);
    if (legend > 0)
        tc_legend_put(canvas, title, width, chart, tc_series_fill, ascii);
    if (banded)
        draw_band_legend(&bars, title + legend);
    tc_canvas_field(canvas, 0, row - 1, heads ? bars.label : 0, TC_ALIGN_LEFT, TC_TONE_SOFT, chart->x_title,
                    ascii);
    tc_canvas_field(canvas, width - bars.figure, row - 1, heads ? bars.figure : 0, TC_ALIGN_RIGHT,
                    TC_TONE_SOFT, chart->y_title, ascii);
    draw_bars(&bars, row, rows_each);
    return TC_OK;
}
