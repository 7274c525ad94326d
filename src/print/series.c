/* SPDX-License-Identifier: MIT */
#include "print/series.h"

#include <math.h>

#include "core/base/number.h"

/* Neighbours differ much, since they touch in a stacked bar. */
static const char *const fills[][2] = {
    {"█", "#"}, {"░", "."}, {"▓", "X"}, {"═", "="}, {"▒", ":"}, {"·", "-"}, {"≡", "%"}, {"│", "|"},
};
static const char *const points[][2] = {
    {"●", "o"}, {"○", "x"}, {"■", "#"}, {"□", "%"}, {"▲", "^"}, {"△", "v"}, {"◆", "@"}, {"◇", "&"},
};
static const char *const meeting[2] = {"×", "*"};

/* For the series after these. */
static const char letters[][2] = {"a", "b", "c", "d", "e", "f", "g", "h", "i", "j", "k", "l",
                                  "m", "n", "p", "q", "r", "s", "t", "u", "w", "y", "z"};

enum { SIGN_COUNT = sizeof points / sizeof *points, LETTER_COUNT = sizeof letters / sizeof *letters };
_Static_assert(sizeof fills == sizeof points, "as many fills as points");

size_t tc_series_parts(const struct tc_chart *chart)
{
    bool banded = chart->kind == TC_CHART_BARS && *chart->band && chart->series_count >= 2;
    return chart->series_count - (banded ? 2 : 0);
}

const char *tc_series_fill(size_t i, bool ascii)
{
    return i < SIGN_COUNT ? fills[i][ascii] : letters[(i - SIGN_COUNT) % LETTER_COUNT];
}

const char *tc_series_point(size_t i, bool ascii)
{
    return i < SIGN_COUNT ? points[i][ascii] : letters[(i - SIGN_COUNT) % LETTER_COUNT];
}

const char *tc_series_meeting(bool ascii)
{
    return meeting[ascii];
}

enum tc_tone tc_series_tone(size_t i)
{
    return (enum tc_tone)(TC_TONE_SERIES + i % TC_TONE_SERIES_COUNT);
}

void tc_series_say(struct tc_text *out, struct tc_canvas *canvas, const struct tc_chart *chart, size_t series,
                   size_t i)
{
    char buffer[TC_NUMBER_SIZE];
    if (!canvas->vector)
        return;
    if (*chart->x_labels[i]) {
        tc_text_add(out, chart->x_labels[i]);
    } else {
        tc_number_write(buffer, chart->x[i], chart->x[i] == floor(chart->x[i]) ? 0 : 2, true);
        tc_text_addf(out, "%s%s%s", chart->x_title, *chart->x_title ? " " : "", buffer);
    }
    tc_text_addf(out, "%s%s: %s%s%s", *chart->series[series].name ? ", " : "", chart->series[series].name,
                 tc_number_write(buffer, chart->series[series].values[i], chart->decimals, true),
                 *chart->y_title ? " " : "", chart->y_title);
    canvas->failed = canvas->failed || out->failed;
}

bool tc_series_range(const struct tc_chart *chart, double *low, double *high)
{
    bool any = false;
    for (size_t s = 0; s < chart->series_count; s++) {
        for (size_t i = 0; i < chart->point_count; i++) {
            double value = chart->series[s].values[i];
            if (!isfinite(value))
                continue;
            *low = any ? fmin(*low, value) : value;
            *high = any ? fmax(*high, value) : value;
            any = true;
        }
    }
    return any;
}
