/* SPDX-License-Identifier: MIT */
#include "print/legend.h"

#include "print/series.h"
#include "print/stroke.h"
#include "print/width.h"

static void put_legend_sign(struct tc_canvas *canvas, int column, int row, size_t series,
                            const char *(*sign)(size_t i, bool ascii), bool ascii)
{
    if (sign == tc_series_fill)
        tc_stroke_bar(canvas, column, column + 1, row, series, NULL, ascii);
    else
        tc_stroke_point(canvas, column + 0.5, row + 0.5, series, sign(series, ascii), NULL);
}

int tc_legend_put(struct tc_canvas *canvas, int row, int width, const struct tc_chart *chart,
                  const char *(*sign)(size_t i, bool ascii), bool ascii)
{
    enum { BETWEEN = 3 };
    int rows = 1, column = 0;
    for (size_t s = 0; s < tc_series_parts(chart); s++) {
        const char *name = chart->series[s].name;
        int columns = 2 + tc_width(name);
        if (column > 0 && column + columns > width) {
            column = 0;
            rows++;
        }
        if (canvas) {
            put_legend_sign(canvas, column, row + rows - 1, s, sign, ascii);
            tc_canvas_field(canvas, column + 2, row + rows - 1, width - column - 2, TC_ALIGN_LEFT,
                            TC_TONE_PLAIN, name, ascii);
        }
        column += columns + BETWEEN;
    }
    return rows;
}
