/* SPDX-License-Identifier: MIT */
#include "print/series.h"

#include <math.h>

#include "print/width.h"

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

int tc_series_legend(struct tc_canvas *canvas, int row, int width, const struct tc_chart *chart,
                     const char *(*sign)(size_t i, bool ascii), bool ascii)
{
    enum { BETWEEN = 3 };
    int rows = 1, column = 0;
    for (size_t s = 0; s < chart->series_count; s++) {
        const char *name = chart->series[s].name;
        int columns = 2 + tc_width(name);
        if (column > 0 && column + columns > width) {
            column = 0;
            rows++;
        }
        if (canvas) {
            tc_canvas_put(canvas, column, row + rows - 1, tc_series_tone(s), sign(s, ascii));
            tc_canvas_field(canvas, column + 2, row + rows - 1, width - column - 2, TC_ALIGN_LEFT,
                            TC_TONE_PLAIN, name, ascii);
        }
        column += columns + BETWEEN;
    }
    return rows;
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
