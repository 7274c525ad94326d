/* SPDX-License-Identifier: MIT */
#include "print/chart_bars.h"

#include <math.h>

#include "core/base/number.h"
#include "print/legend.h"
#include "print/series.h"
#include "print/stroke.h"
#include "print/width.h"

struct bars {
    struct tc_canvas *canvas;
    const struct tc_chart *chart;
    bool ascii;
    int label, figure;  /* columns of the labels and of the sums */
    int start, columns; /* where the bars lie */
    double low, high;   /* of the sums; zero is within */
};

static int larger(int a, int b)
{
    return a > b ? a : b;
}

static double or_zero(double value)
{
    return isfinite(value) ? value : 0;
}

/* The sum of a bar's series; NaN if none has a value. */
static double bar_sum(const struct tc_chart *chart, size_t i)
{
    double sum = 0;
    bool any = false;
    for (size_t s = 0; s < chart->series_count; s++) {
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
        for (size_t s = 0; s < chart->series_count; s++) {
            double value = or_zero(chart->series[s].values[i]);
            up += value > 0 ? value : 0;
            down += value < 0 ? value : 0;
        }
        bars->high = fmax(bars->high, up);
        bars->low = fmin(bars->low, down);
        bars->label = larger(bars->label, tc_width(chart->x_labels[i]));
        bars->figure = larger(bars->figure, tc_width(sum_text(buffer, chart, i)));
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
    for (size_t s = 0; s < bars->chart->series_count; s++) {
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

enum tc_status tc_bars_draw(struct tc_canvas *canvas, const struct tc_chart *chart, int width, bool ascii)
{
    struct bars bars = {.canvas = canvas, .chart = chart, .ascii = ascii};
    bool heads = *chart->x_title || *chart->y_title;
    int legend = chart->series_count > 1 ? tc_legend_put(NULL, 0, width, chart, tc_series_fill, ascii) : 0;
    /* The title of the sums goes beside a legend that leaves room for it. */
    bool beside =
        legend == 1 && !*chart->x_title &&
        tc_legend_put(NULL, 0, width - 3 - tc_width(chart->y_title), chart, tc_series_fill, ascii) == 1;
    int row = 1 + legend + (heads && !beside);
    measure(&bars, width);
    enum tc_status status = tc_canvas_start(canvas, width, row + (int)chart->point_count);
    if (status != TC_OK)
        return status;
    tc_canvas_field(canvas, 0, 0, width, TC_ALIGN_LEFT, TC_TONE_STRONG, chart->title, ascii);
    if (legend > 0)
        tc_legend_put(canvas, 1, width, chart, tc_series_fill, ascii);
    tc_canvas_field(canvas, 0, row - 1, heads ? bars.label : 0, TC_ALIGN_LEFT, TC_TONE_SOFT, chart->x_title,
                    ascii);
    tc_canvas_field(canvas, width - bars.figure, row - 1, heads ? bars.figure : 0, TC_ALIGN_RIGHT,
                    TC_TONE_SOFT, chart->y_title, ascii);
    for (size_t i = 0; i < chart->point_count; i++, row++) {
        char buffer[TC_NUMBER_SIZE];
        tc_canvas_field(canvas, 0, row, bars.label, TC_ALIGN_LEFT, TC_TONE_PLAIN, chart->x_labels[i], ascii);
        draw_bar(&bars, i, row);
        tc_canvas_field(canvas, width - bars.figure, row, bars.figure, TC_ALIGN_RIGHT, TC_TONE_PLAIN,
                        sum_text(buffer, chart, i), ascii);
    }
    return TC_OK;
}
