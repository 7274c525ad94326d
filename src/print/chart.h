/* SPDX-License-Identifier: MIT */
/*
 * chart.h - charts drawn with characters.
 *
 * Bars lie: a row for each label, its series stacked with a fill of their own,
 * the sum at the right. Lines have a point sign for each series, at the points
 * or a few columns apart, and its name at the right end. Spans are rows of
 * two ends, with upright lines at zero and at the middle. Points stand between two
 * axes, those of the first series with their names where there is room.
 */
#ifndef TC_PRINT_CHART_H
#define TC_PRINT_CHART_H

#include <stdbool.h>

#include "core/base/status.h"
#include "print/canvas.h"
#include "sheet/sheet.h"

enum { TC_CHART_LEAST_WIDTH = 24, TC_CHART_LEAST_HEIGHT = 8 };

/*
 * Draws a chart on a canvas that it makes `width` wide. Lines and points are made about
 * `height` high, title and axes included; bars and spans take a row for each
 * label and may be higher or lower. Sizes below the least ones above are
 * raised to them. TC_NO_MEMORY leaves the canvas empty.
 */
enum tc_status tc_chart_draw(struct tc_canvas *canvas, const struct tc_chart *chart, int width, int height,
                             bool ascii);

#endif
