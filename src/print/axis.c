/* SPDX-License-Identifier: MIT */
#include "print/axis.h"

#include <math.h>

#include "core/base/number.h"

enum { ENOUGH_INTERVALS = 4 };

/* The next step above: 1, 2, 5, 10, 20, ... */
static double next_step(double step)
{
    double power = pow(10, floor(log10(step) + 1e-9));
    double digit = step / power;
    return power * (digit < 1.5 ? 2 : digit < 3.5 ? 5 : 10);
}

/* The least such step that is not below size. */
static double step_from(double size)
{
    double step = pow(10, floor(log10(size)));
    while (step < size * (1 - 1e-9))
        step = next_step(step);
    return step;
}

static int decimals_of(double step)
{
    int decimals = (int)-floor(log10(step) + 1e-9);
    return decimals < 0 ? 0 : decimals > 9 ? 9 : decimals;
}

static struct tc_axis axis_with_step(double low, double high, double step)
{
    struct tc_axis axis = {.step = step, .decimals = decimals_of(step)};
    double first = floor(low / step + 1e-9), last = ceil(high / step - 1e-9);
    axis.low = first * step;
    axis.high = last * step;
    axis.intervals = (int)(last - first);
    return axis;
}

/* Gives a range that can be divided: finite, and wide enough for its figures to differ. */
static void widen(double *low, double *high)
{
    if (!isfinite(*low) || !isfinite(*high) || *low > *high) {
        *low = 0;
        *high = 1;
    }
    double size = fmax(fabs(*low), fabs(*high));
    if (*high - *low <= size * 1e-9) {
        double middle = *low;
        *low = middle - (size > 0 ? size / 10 : 0);
        *high = middle + (size > 0 ? size / 10 : 1);
    }
}

struct tc_axis tc_axis_fit(double low, double high, int most_intervals)
{
    widen(&low, &high);
    if (most_intervals < 2)
        most_intervals = 2;
    double step = step_from((high - low) / most_intervals);
    struct tc_axis axis = axis_with_step(low, high, step);
    while (axis.intervals > most_intervals) { /* the range starts between two figures */
        step = next_step(step);
        axis = axis_with_step(low, high, step);
    }
    return axis;
}

struct tc_axis tc_axis_fit_cells(double low, double high, int cells, int least, int *cells_each)
{
    struct tc_axis best = {0};
    double best_cells = 0;
    widen(&low, &high);
    for (int each = least; each == least || each <= cells / 2; each++) {
        struct tc_axis axis = tc_axis_fit(low, high, cells / each);
        double taken = (high - low) / axis.step * each;
        if (axis.intervals < ENOUGH_INTERVALS) /* an axis of few figures must be worth it */
            taken *= 1 - 0.1 * (ENOUGH_INTERVALS - axis.intervals);
        if (taken > best_cells * (1 + 1e-9)) {
            best = axis;
            best_cells = taken;
            *cells_each = each;
        }
    }
    return best;
}

double tc_axis_figure(const struct tc_axis *axis, int i)
{
    return axis->low + i * axis->step;
}

const char *tc_axis_label(char *buffer, const struct tc_axis *axis, int i)
{
    double figure = tc_axis_figure(axis, i);
    if (fabs(figure) < axis->step / 1e6)
        figure = 0; /* not "-0" */
    return tc_number_write(buffer, figure, axis->decimals, true);
}
