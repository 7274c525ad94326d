/* SPDX-License-Identifier: MIT */
/* chart_points.h - points between two axes, each with a name; see chart.h. */
#ifndef TC_PRINT_CHART_POINTS_H
#define TC_PRINT_CHART_POINTS_H

#include "core/base/status.h"
#include "print/canvas.h"
#include "sheet/sheet.h"

enum tc_status tc_points_draw(struct tc_canvas *canvas, const struct tc_chart *chart, int width, int height,
                              bool ascii);

#endif
