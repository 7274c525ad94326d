/* SPDX-License-Identifier: MIT */
/* chart_title.h - the title of a chart, in as many rows as its words take. */
#ifndef TC_PRINT_CHART_TITLE_H
#define TC_PRINT_CHART_TITLE_H

#include "print/canvas.h"
#include "sheet/sheet.h"

/* Writes it from row 0 on; NULL: nothing is written. Returns its rows, at least 1, at most 3: then it is cut.
 */
int tc_chart_title(struct tc_canvas *canvas, const struct tc_chart *chart, int width, bool ascii);

#endif
