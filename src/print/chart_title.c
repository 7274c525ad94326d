/* SPDX-License-Identifier: MIT */
#include "print/chart_title.h"

#include "core/base/text.h"
#include "print/width.h"

enum { ROWS_MOST = 3 };

int tc_chart_title(struct tc_canvas *canvas, const struct tc_chart *chart, int width, bool ascii)
{
    struct tc_wrap wrap = {chart->title, width};
    const char *line;
    size_t length;
    int row = 0;
    while (row < ROWS_MOST && tc_wrap_next(&wrap, &line, &length)) {
        row++;
        if (!canvas)
            continue;
        struct tc_text text = TC_TEXT_EMPTY;
        tc_text_add_bytes(&text, line, length);
        if (row == ROWS_MOST)
            tc_text_add(&text, line + length);
        tc_canvas_field(canvas, 0, row - 1, width, TC_ALIGN_LEFT, TC_TONE_STRONG, tc_text_string(&text),
                        ascii);
        canvas->failed = canvas->failed || text.failed;
        tc_text_free(&text);
    }
    return row > 0 ? row : 1;
}
