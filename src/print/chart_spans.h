/* SPDX-License-Identifier: MIT */
/* chart_spans.h - spans between two ends; see chart.h. */
#ifndef TC_PRINT_CHART_SPANS_H
#define TC_PRINT_CHART_SPANS_H

#include "core/base/status.h"
#include "print/canvas.h"
#include "sheet/sheet.h"

enum tc_status tc_spans_draw(struct tc_canvas *canvas, const struct tc_chart *chart, int width, bool ascii);

#endif
