/* SPDX-License-Identifier: MIT */
/*
 * row.h - the pieces of a sheet drawn onto canvases: heads, rows, rules, legend and notes.
 *
 * Text output writes such a strip out, the screen copies its lines; so both wrap and align alike. Each
 * function makes the canvas anew, as high as the piece turns out to be; TC_NO_MEMORY leaves it empty, and so
 * does a piece that has no line at all.
 */
#ifndef TC_PRINT_ROW_H
#define TC_PRINT_ROW_H

#include <stdbool.h>
#include <stddef.h>

#include "core/base/status.h"
#include "print/canvas.h"
#include "print/layout.h"
#include "sheet/sheet.h"

/* The columns that stand side by side, with the label column before them. */
struct tc_row_block {
    const struct tc_layout *layout; /* its widths set for these columns */
    size_t first, count;
    int width; /* where headings and sentences wrap; 0: nowhere */
    bool ascii;
};

/* One storey of the heads, `most` lines at most (0: any), cut with an ellipsis where it has more. */
enum tc_status tc_row_heads(struct tc_canvas *strip, const struct tc_row_block *block, enum tc_storey storey,
                            int most);

/* A row of any kind. A heading may run on over all columns, and so does the text of a sentence. */
enum tc_status tc_row_draw(struct tc_canvas *strip, const struct tc_row_block *block, size_t row);

/* A rule under each field and, if label is set, under the label column too. */
enum tc_status tc_row_rule(struct tc_canvas *strip, const struct tc_row_block *block, const char *sign,
                           bool label);

/* The signs that occur in a sheet, each with its meaning; none is broken. */
enum tc_status tc_row_legend(struct tc_canvas *strip, const struct tc_sheet *sheet, int width, bool ascii);

/* The word that leads a note ("Caution"); "" for a finding, which speaks for itself. */
const char *tc_note_word(enum tc_note_kind kind);

/* A note, led by its word; its further lines hang. Width 0: on one line. */
enum tc_status tc_row_note(struct tc_canvas *strip, const struct tc_note *note, int width);

#endif
