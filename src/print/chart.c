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
    switch (chart->kind) {
    case TC_CHART_BARS: return tc_bars_draw(canvas, chart, width, ascii);
    case TC_CHART_LINES: return tc_lines_draw(canvas, chart, width, height, ascii);
    case TC_CHART_POINTS: return tc_points_draw(canvas, chart, width, height, ascii);
    case TC_CHART_SPANS: return tc_spans_draw(canvas, chart, width, ascii);
    }
    return TC_RANGE;
}
