/* SPDX-License-Identifier: MIT */
#include "print/layout.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "print/width.h"
#include "core/base/order.h"

enum {
    LEAST_FIELD = 6,
    WIDEST_WORDS = 24, /* words among figures, and heads, are rather wrapped than given more than this */
    WIDEST_WORD = 16,  /* a longer word may be broken */
    LEAST_LABEL = 20,
    UNIT_SIZE = 48
};

int tc_layout_indent(const struct tc_layout *layout, const struct tc_row *row)
{
    int own = (int)strspn(row->label, " "); /* a label may be indented further by its sheet */
    return row->kind == TC_ROW_GROUP ? 0 : layout->indents + own;
}

void tc_layout_unit(const struct tc_layout *layout, size_t row, char *buffer, size_t size)
{
    const char *unit = layout->sheet->rows[row].unit;
    const char *code = layout->codes.rows[row];
    size_t length = (size_t)snprintf(buffer, size, "%s%s%s", code, *code && *unit ? " " : "", unit);
    if (length >= size)
        buffer[tc_width_cut(buffer, tc_width(buffer) - 1)] = '\0'; /* drops a character cut in two */
}

const char *tc_layout_head(const struct tc_layout *layout, enum tc_storey storey, size_t column)
{
    switch (storey) {
    case TC_STOREY_HEAD: return layout->sheet->columns[column].head;
    case TC_STOREY_SUBHEAD: return *layout->shared_subhead ? "" : layout->sheet->columns[column].subhead;
    case TC_STOREY_CODE: return layout->codes.columns[column];
    }
    return "";
}

/* Lets a column hold one more text, at least at its longest word and at best on one line. */
static void hold_words(struct tc_layout_column *column, const char *text, int widest)
{
    int width = tc_width(text);
    column->least = tc_larger(column->least, tc_smaller(tc_wrap_least(text), WIDEST_WORD));
    column->natural = tc_larger(column->natural, widest > 0 ? tc_smaller(width, widest) : width);
}

static void hold_cell(struct tc_layout *layout, size_t r, size_t c, int widest)
{
    char buffer[TC_NUMBER_SIZE];
    const struct tc_cell *cell = &layout->sheet->rows[r].cells[c];
    struct tc_layout_column *column = &layout->columns[c];
    const char *text = tc_cell_text(buffer, cell, true);
    if (cell->marks)
        column->own_signs = tc_larger(column->own_signs, 1 + tc_marks_count(cell->marks));
    if (!tc_cell_is_figure(cell) || column->words) {
        hold_words(column, text, widest);
        return;
    }
    int whole = tc_figure_whole(text);
    const char *code = tc_codes_of_cell(&layout->codes, r, c);
    column->whole = tc_larger(column->whole, whole);
    column->tail = tc_larger(column->tail, tc_width(text) - whole + (*code ? 1 + (int)strlen(code) : 0));
}

static void measure_column(struct tc_layout *layout, size_t c, int device)
{
    const struct tc_sheet *sheet = layout->sheet;
    struct tc_layout_column *column = &layout->columns[c];
    column->words = sheet->columns[c].words;
    column->least = column->natural = LEAST_FIELD;
    int widest = device > 0 && !column->words ? WIDEST_WORDS : 0;
    hold_words(column, tc_layout_head(layout, TC_STOREY_HEAD, c), widest);
    hold_words(column, tc_layout_head(layout, TC_STOREY_SUBHEAD, c), widest);
    hold_words(column, tc_layout_head(layout, TC_STOREY_CODE, c), widest);
    for (size_t r = 0; r < sheet->row_count; r++)
        if (sheet->rows[r].cells && sheet->rows[r].kind != TC_ROW_SENTENCE)
            hold_cell(layout, r, c, widest);
    column->least = tc_larger(column->least, column->whole + column->tail);
    column->natural = tc_larger(column->natural, column->least);
}

/* The subhead of every column if all have the same, else "". */
static const char *shared_subhead(const struct tc_sheet *sheet)
{
    if (sheet->column_count < 2)
        return "";
    for (size_t c = 1; c < sheet->column_count; c++)
        if (strcmp(sheet->columns[c].subhead, sheet->columns[0].subhead) != 0)
            return "";
    return sheet->columns[0].subhead;
}

static int label_width(const struct tc_layout *layout)
{
    const struct tc_sheet *sheet = layout->sheet;
    int code = tc_width(layout->codes.whole);
    int widest = tc_width(sheet->row_head) + (code > 0 ? TC_LAYOUT_GAP + code : 0);
    for (size_t r = 0; r < sheet->row_count; r++) {
        const struct tc_row *row = &sheet->rows[r];
        if (row->kind == TC_ROW_GROUP)
            continue; /* a heading may run on over the columns */
        char unit[UNIT_SIZE];
        tc_layout_unit(layout, r, unit, sizeof unit);
        int width = layout->indents + tc_width(row->label);
        widest = tc_larger(widest, width + (*unit ? TC_LAYOUT_GAP + tc_width(unit) : 0));
    }
    return widest;
}

/* What the table takes if nothing is wrapped. */
static int natural_width(const struct tc_layout *layout)
{
    int width = layout->label;
    for (size_t c = 0; c < layout->sheet->column_count; c++)
        width += TC_LAYOUT_GAP + layout->columns[c].natural + layout->columns[c].own_signs;
    return width;
}

enum tc_status tc_layout_measure(struct tc_layout *layout, const struct tc_sheet *sheet, int width)
{
    *layout = (struct tc_layout){.sheet = sheet};
    if (tc_codes_find(&layout->codes, sheet) != TC_OK)
        return TC_NO_MEMORY;
    layout->columns = calloc(sheet->column_count + 1, sizeof *layout->columns);
    if (!layout->columns) {
        tc_layout_free(layout);
        return TC_NO_MEMORY;
    }
    for (size_t r = 0; r < sheet->row_count; r++)
        if (sheet->rows[r].kind == TC_ROW_GROUP)
            layout->indents = TC_LAYOUT_INDENT;
    layout->shared_subhead = shared_subhead(sheet);
    for (size_t c = 0; c < sheet->column_count; c++)
        measure_column(layout, c, width);
    layout->label = label_width(layout);
    if (width > 0 && natural_width(layout) > width)
        layout->label = tc_smaller(layout->label, tc_larger(LEAST_LABEL, width * 2 / 5));
    return TC_OK;
}

void tc_layout_free(struct tc_layout *layout)
{
    tc_codes_free(&layout->codes);
    free(layout->columns);
    layout->columns = NULL;
}

/* Gives each column of the block its natural width, but none more than `cap` unless it needs it. */
static void cap_widths(struct tc_layout *layout, size_t first, size_t count, int cap)
{
    for (size_t c = first; c < first + count; c++) {
        struct tc_layout_column *column = &layout->columns[c];
        column->width = tc_larger(column->least, tc_smaller(column->natural, cap));
    }
}

/* Gives the columns of figures of a block equal room for signs, or each its own. */
static void set_signs(struct tc_layout *layout, size_t first, size_t count, bool equal)
{
    int most = 0;
    for (size_t c = first; c < first + count; c++)
        if (!layout->columns[c].words)
            most = tc_larger(most, layout->columns[c].own_signs);
    for (size_t c = first; c < first + count; c++) {
        struct tc_layout_column *column = &layout->columns[c];
        column->signs = equal && !column->words ? most : column->own_signs;
    }
}

/* Columns of figures look best equally wide: widens them if all that fits. */
static void even_out(struct tc_layout *layout, size_t first, size_t count, int width)
{
    int field = 0, more = 0;
    for (size_t c = first; c < first + count; c++)
        field = tc_larger(field, layout->columns[c].words ? 0 : layout->columns[c].width);
    for (size_t c = first; c < first + count; c++)
        more += layout->columns[c].words ? 0 : field - layout->columns[c].width;
    if (width > 0 && tc_layout_width(layout, first, count) + more > width)
        return;
    for (size_t c = first; c < first + count; c++)
        if (!layout->columns[c].words)
            layout->columns[c].width = field;
}

int tc_layout_width(const struct tc_layout *layout, size_t first, size_t count)
{
    int width = layout->label;
    for (size_t c = first; c < first + count; c++)
        width += TC_LAYOUT_GAP + layout->columns[c].width + layout->columns[c].signs;
    return width;
}

/* How many columns from `first` on fit at their least width; at least one. */
static size_t fitting(struct tc_layout *layout, size_t first, int width)
{
    size_t left = layout->sheet->column_count - first;
    cap_widths(layout, first, left, 0);
    set_signs(layout, first, left, false);
    for (size_t count = left; count > 1; count--)
        if (width <= 0 || tc_layout_width(layout, first, count) <= width)
            return count;
    return 1;
}

size_t tc_layout_block(struct tc_layout *layout, size_t first, int width)
{
    if (first >= layout->sheet->column_count)
        return 0;
    size_t left = layout->sheet->column_count - first;
    size_t count = fitting(layout, first, width);
    size_t blocks = (left + count - 1) / count;
    count = (left + blocks - 1) / blocks;

    set_signs(layout, first, count, false);
    int cap = 1;
    for (size_t c = first; c < first + count; c++)
        cap = tc_larger(cap, layout->columns[c].natural);
    cap_widths(layout, first, count, cap);
    while (width > 0 && cap > LEAST_FIELD && tc_layout_width(layout, first, count) > width)
        cap_widths(layout, first, count, --cap);
    set_signs(layout, first, count, true);
    if (width > 0 && tc_layout_width(layout, first, count) > width)
        set_signs(layout, first, count, false);
    even_out(layout, first, count, width);
    return count;
}
