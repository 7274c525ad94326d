/* SPDX-License-Identifier: MIT */
/* legend.h - the legend of a chart: which sign is which series. */
#ifndef TC_PRINT_LEGEND_H
#define TC_PRINT_LEGEND_H

#include <stdbool.h>
#include <stddef.h>

#include "print/canvas.h"
#include "sheet/sheet.h"

/*
 * Writes "sign name" for each series from a row on, as many on a row as fit;
 * returns how many rows it took. Without a canvas it only counts them.
 */
int tc_legend_put(struct tc_canvas *canvas, int row, int width, const struct tc_chart *chart,
                  const char *(*sign)(size_t i, bool ascii), bool ascii);

#endif
