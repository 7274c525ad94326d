/* SPDX-License-Identifier: MIT */
#include "print/chart.h"

#include "print/chart_bars.h"
#include "print/chart_lines.h"
#include "print/chart_points.h"
#include "print/chart_spans.h"

enum tc_status tc_chart_draw(struct tc_canvas *canvas, const struct tc_chart *chart, int width, int height,
                             bool ascii)
{
    if (width < TC_CHART_LEAST_WIDTH)
        width = TC_CHART_LEAST_WIDTH;
    if (height < TC_CHART_LEAST_HEIGHT)
        height = TC_CHART_LEAST_HEIGHT;
    enum tc_status status = TC_RANGE;
    switch (chart->kind) {
    case TC_CHART_BARS: status = tc_bars_draw(canvas, chart, width, height, ascii); break;
    case TC_CHART_LINES: status = tc_lines_draw(canvas, chart, width, height, ascii); break;
    case TC_CHART_POINTS: status = tc_points_draw(canvas, chart, width, height, ascii); break;
    case TC_CHART_SPANS: status = tc_spans_draw(canvas, chart, width, ascii); break;
    }
    return status == TC_OK ? tc_canvas_status(canvas) : status;
}
