/* SPDX-License-Identifier: MIT */
/*
 * layout.h - how wide the columns of a sheet's table are, in columns of a
 * terminal, so that figures stand point under point.
 *
 * A table is a label column (label to the left, unit to the right) and the
 * sheet's columns, each TC_LAYOUT_GAP blanks after the one before. Each column
 * is a field for heads, words and figures, followed by room for the signs of
 * its marks. In the field figures are aligned on their point and end at its
 * right edge; heads and words end there too, or start at its left edge in a
 * column of words.
 *
 * The widths here hold for one block: as many columns side by side as fit.
 */
#ifndef TC_PRINT_LAYOUT_H
#define TC_PRINT_LAYOUT_H

#include <stdbool.h>
#include <stddef.h>

#include "core/base/status.h"
#include "print/cell.h"
#include "sheet/sheet.h"

enum { TC_LAYOUT_GAP = 2, TC_LAYOUT_INDENT = 2 };

#define TC_LAYOUT_SHARED_LEAD "each: "

struct tc_layout_column {
    bool words;         /* aligned left */
    int whole, tail;    /* the widest figure before its point, and from it on (with a currency code) */
    int signs;          /* room for signs, with the blank before them, as tc_layout_block sets it */
    int own_signs;      /* the least of that: 0 where no cell has a mark */
    int least, natural; /* the field: without broken words, without any wrapping */
    int width;          /* the field, as tc_layout_block sets it */
};

struct tc_layout {
    const struct tc_sheet *sheet;
    struct tc_codes codes;
    int label; /* the label column */
    /* What is said under the heads of all columns alike, once for all of them in the label column, led by
     * TC_LAYOUT_SHARED_LEAD: else "". */
    const char *shared_subhead;
    int indents; /* what ordinary lines are indented by: 0 in a sheet without groups */
    struct tc_layout_column *columns;
};

/*
 * Measures a sheet for a device of that many columns (0: any). Where that is
 * too narrow for all on one line, labels are to be wrapped at two fifths of it. Free with tc_layout_free.
 */
enum tc_status tc_layout_measure(struct tc_layout *layout, const struct tc_sheet *sheet, int width);
void tc_layout_free(struct tc_layout *layout);

/*
 * Sets the widths of the block that starts with column `first`, and returns
 * how many columns it has: at least one, and spread evenly over the blocks
 * still needed. 0 only if `first` is past the last column.
 */
size_t tc_layout_block(struct tc_layout *layout, size_t first, int width);

/* The columns a block takes: the label column and count columns from `first` on. */
int tc_layout_width(const struct tc_layout *layout, size_t first, size_t count);

/* The text over a column in one storey of the heads; "" also for a subhead that is said once for all. */
enum tc_storey { TC_STOREY_HEAD, TC_STOREY_SUBHEAD, TC_STOREY_CODE };
const char *tc_layout_head(const struct tc_layout *layout, enum tc_storey storey, size_t column);

/* How far a row's label is indented. */
int tc_layout_indent(const struct tc_layout *layout, const struct tc_row *row);

/* What stands in the unit's place: the unit, the currency the row must say itself, or both; cut to size. */
void tc_layout_unit(const struct tc_layout *layout, size_t row, char *buffer, size_t size);

#endif
