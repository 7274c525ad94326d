/* SPDX-License-Identifier: MIT */
/* chart_lines.h - lines over an axis; see chart.h. */
#ifndef TC_PRINT_CHART_LINES_H
#define TC_PRINT_CHART_LINES_H

#include "core/base/status.h"
#include "print/canvas.h"
#include "sheet/sheet.h"

enum tc_status tc_lines_draw(struct tc_canvas *canvas, const struct tc_chart *chart, int width, int height,
                             bool ascii);

#endif
