/* SPDX-License-Identifier: MIT */
/* chart_bars.h - stacked bars, lying; see chart.h. */
#ifndef TC_PRINT_CHART_BARS_H
#define TC_PRINT_CHART_BARS_H

#include "core/base/status.h"
#include "print/canvas.h"
#include "sheet/sheet.h"

enum tc_status tc_bars_draw(struct tc_canvas *canvas, const struct tc_chart *chart, int width, int height,
                            bool ascii);

#endif
