/* SPDX-License-Identifier: MIT */
#include "print/table.h"

#include <stdlib.h>
#include <string.h>

#include "print/cell.h"
#include "print/layout.h"
#include "print/pen.h"
#include "print/width.h"

enum { UNIT_SIZE = 48 };

struct table {
    const struct tc_sheet *sheet;
    const struct tc_print_options *options;
    struct tc_layout layout;
    struct tc_pen pen;
    struct tc_wrap *wraps; /* what is left to write of each cell of the row */
    size_t first, count;   /* the columns of this block */
};

/* Where the field of a column starts. */
static int field_start(const struct table *table, size_t column)
{
    return tc_layout_width(&table->layout, table->first, column - table->first) + TC_LAYOUT_GAP;
}

/* Writes a text into the field of a column, at the edge its column is aligned to. */
static void put_in_field(struct table *table, size_t column, enum tc_tone tone, const char *text,
                         size_t length)
{
    const struct tc_layout_column *layout = &table->layout.columns[column];
    int blanks = layout->words ? 0 : layout->width - tc_width_bytes(text, length);
    tc_pen_to(&table->pen, field_start(table, column) + (blanks > 0 ? blanks : 0));
    tc_pen_put(&table->pen, tone, text, length);
}

/* Writes a rule under the label column and each field, with gaps between them as in the table. */
static void put_rule(struct table *table, const char *sign, bool label)
{
    struct tc_pen *pen = &table->pen;
    if (label)
        tc_pen_rule(pen, TC_TONE_SOFT, sign, table->layout.label);
    for (size_t c = table->first; c < table->first + table->count; c++) {
        const struct tc_layout_column *column = &table->layout.columns[c];
        tc_pen_to(pen, field_start(table, c));
        tc_pen_rule(pen, TC_TONE_SOFT, sign, column->width);
    }
    tc_pen_line(pen);
}

/* How many lines one storey of the heads takes in this block. */
static int head_lines(const struct table *table, enum tc_storey which)
{
    int most = 0;
    for (size_t c = table->first; c < table->first + table->count; c++) {
        struct tc_wrap wrap = {tc_layout_head(&table->layout, which, c), table->layout.columns[c].width};
        const char *line;
        size_t length;
        int lines = 0;
        while (tc_wrap_next(&wrap, &line, &length))
            lines++;
        most = lines > most ? lines : most;
    }
    return most;
}

/* The corner over the labels: what the rows are, and the currency of the sheet in the units' place. */
static void put_corner(struct table *table)
{
    const char *code = table->layout.codes.whole;
    const char *head = table->sheet->row_head;
    if (strcmp(head, code) != 0) /* else it would be said twice */
        tc_pen_write(&table->pen, TC_TONE_STRONG, head);
    tc_pen_to(&table->pen, table->layout.label - tc_width(code));
    tc_pen_write(&table->pen, TC_TONE_SOFT, code);
}

/* Writes one storey of the heads; the corner beside the first line of the heads proper. */
static void put_heads(struct table *table, enum tc_storey which)
{
    int lines = head_lines(table, which);
    enum tc_tone tone = which == TC_STOREY_HEAD ? TC_TONE_STRONG : TC_TONE_SOFT;
    for (size_t c = table->first; c < table->first + table->count; c++)
        table->wraps[c] =
            (struct tc_wrap){tc_layout_head(&table->layout, which, c), table->layout.columns[c].width};
    for (int i = 0; i < lines || (i == 0 && which == TC_STOREY_HEAD); i++) {
        if (i == 0 && which == TC_STOREY_HEAD)
            put_corner(table);
        for (size_t c = table->first; c < table->first + table->count; c++) {
            const char *line;
            size_t length;
            if (tc_wrap_next(&table->wraps[c], &line, &length))
                put_in_field(table, c, tone, line, length);
        }
        tc_pen_line(&table->pen);
    }
}

/* What holds for all columns alike, said once in a line of its own. */
static void put_shared_subhead(struct table *table)
{
    if (!*table->layout.shared_subhead)
        return;
    tc_pen_write(&table->pen, TC_TONE_SOFT, "each: ");
    tc_pen_paragraph(&table->pen, TC_TONE_SOFT, table->layout.shared_subhead, table->pen.column,
                     table->options->width);
}

static enum tc_tone label_tone(const struct tc_row *row)
{
    return row->kind == TC_ROW_GROUP || row->kind == TC_ROW_TOTAL ? TC_TONE_STRONG : TC_TONE_PLAIN;
}

static enum tc_tone cell_tone(const struct tc_row *row, const struct tc_cell *cell)
{
    if (cell->kind == TC_CELL_MISSING || cell->marks & (TC_MARK_SHORT | TC_MARK_OVER | TC_MARK_INCOMPLETE))
        return TC_TONE_WARN;
    if (cell->marks & TC_MARK_BEST)
        return TC_TONE_BEST;
    if (cell->marks & TC_MARK_TYPED)
        return TC_TONE_TYPED;
    return label_tone(row);
}

static void put_figure(struct table *table, size_t r, size_t c, const char *text)
{
    const struct tc_row *row = &table->sheet->rows[r];
    const struct tc_layout_column *column = &table->layout.columns[c];
    enum tc_tone tone = cell_tone(row, &row->cells[c]);
    const char *code = tc_codes_of_cell(&table->layout.codes, r, c);
    int blanks = column->width - column->tail - (int)strcspn(text, ".");
    tc_pen_to(&table->pen, field_start(table, c) + (blanks > 0 ? blanks : 0));
    tc_pen_write(&table->pen, tone, text);
    if (*code) {
        tc_pen_to(&table->pen, table->pen.column + 1);
        tc_pen_write(&table->pen, TC_TONE_SOFT, code);
    }
}

static void put_mark_signs(struct table *table, const struct tc_row *row, const struct tc_cell *cell)
{
    for (size_t i = 0; tc_mark_at(i); i++)
        if (cell->marks & tc_mark_at(i))
            tc_pen_write(&table->pen, cell_tone(row, cell),
                         tc_mark_sign(tc_mark_at(i), table->options->ascii));
}

static void put_signs(struct table *table, const struct tc_row *row, size_t c)
{
    if (!row->cells[c].marks)
        return;
    tc_pen_to(&table->pen, field_start(table, c) + table->layout.columns[c].width + 1);
    put_mark_signs(table, row, &row->cells[c]);
}

/* Writes the first line of a row's cells: figures, signs, and of words as much as fits. */
static void put_first_cells(struct table *table, size_t r)
{
    const struct tc_row *row = &table->sheet->rows[r];
    for (size_t c = table->first; c < table->first + table->count; c++) {
        char buffer[TC_NUMBER_SIZE];
        const struct tc_cell *cell = &row->cells[c];
        const char *text = tc_cell_text(buffer, cell, true);
        size_t length = strlen(text);
        bool figure = tc_cell_is_figure(cell);
        table->wraps[c] = (struct tc_wrap){figure ? "" : text, table->layout.columns[c].width};
        if (figure && !table->layout.columns[c].words)
            put_figure(table, r, c, text);
        else if (figure || tc_wrap_next(&table->wraps[c], &text, &length))
            put_in_field(table, c, cell_tone(row, cell), text, length);
        put_signs(table, row, c);
    }
}

static void put_more_cells(struct table *table, const struct tc_row *row)
{
    const char *text;
    size_t length;
    for (size_t c = table->first; c < table->first + table->count; c++)
        if (tc_wrap_next(&table->wraps[c], &text, &length))
            put_in_field(table, c, cell_tone(row, &row->cells[c]), text, length);
}

static bool more_cells(const struct table *table)
{
    for (size_t c = table->first; c < table->first + table->count; c++)
        if (tc_wrap_more(&table->wraps[c]))
            return true;
    return false;
}

/* Writes a row's label, as much of it as fits on a line, its unit at the right edge of the label column. */
static struct tc_wrap put_label(struct table *table, size_t r)
{
    char unit[UNIT_SIZE];
    const char *line;
    size_t length;
    const struct tc_row *row = &table->sheet->rows[r];
    int indent = tc_layout_indent(&table->layout, row);
    tc_layout_unit(&table->layout, r, unit, sizeof unit);
    int taken = *unit ? TC_LAYOUT_GAP + tc_width(unit) : 0;
    int room = table->layout.label - indent - taken;
    struct tc_wrap wrap = {row->label, room > 0 ? room : 1};
    tc_pen_to(&table->pen, indent);
    if (tc_wrap_next(&wrap, &line, &length))
        tc_pen_put(&table->pen, label_tone(row), line, length);
    if (*unit) {
        tc_pen_to(&table->pen, table->layout.label - tc_width(unit));
        tc_pen_write(&table->pen, TC_TONE_SOFT, unit);
    }
    wrap.width -= TC_LAYOUT_INDENT; /* further lines hang */
    if (wrap.width < 1)
        wrap.width = 1;
    return wrap;
}

static void put_more_label(struct table *table, const struct tc_row *row, struct tc_wrap *wrap)
{
    const char *line;
    size_t length;
    if (!tc_wrap_next(wrap, &line, &length))
        return;
    tc_pen_to(&table->pen, tc_layout_indent(&table->layout, row) + TC_LAYOUT_INDENT);
    tc_pen_put(&table->pen, label_tone(row), line, length);
}

static void put_row(struct table *table, size_t r)
{
    const struct tc_row *row = &table->sheet->rows[r];
    struct tc_wrap label = put_label(table, r);
    put_first_cells(table, r);
    tc_pen_line(&table->pen);
    while (tc_wrap_more(&label) || more_cells(table)) {
        put_more_label(table, row, &label);
        put_more_cells(table, row);
        tc_pen_line(&table->pen);
    }
}

/* Where the texts of a run of sentences start: beside the widest of its labels. */
static int sentence_start(const struct table *table, size_t r)
{
    const struct tc_sheet *sheet = table->sheet;
    int widest = 0;
    while (r > 0 && sheet->rows[r - 1].kind == TC_ROW_SENTENCE)
        r--;
    for (; r < sheet->row_count && sheet->rows[r].kind == TC_ROW_SENTENCE; r++) {
        int width = table->layout.indents + tc_width(sheet->rows[r].label);
        widest = width > widest ? width : widest;
    }
    return (widest < table->layout.label ? widest : table->layout.label) + TC_LAYOUT_GAP;
}

static void put_sentence(struct table *table, size_t r)
{
    const struct tc_row *row = &table->sheet->rows[r];
    const struct tc_cell *cell = table->sheet->column_count > 0 ? &row->cells[0] : NULL;
    int start = sentence_start(table, r);
    int width = table->options->width;
    struct tc_wrap label = put_label(table, r);
    struct tc_wrap wrap = {cell && cell->text ? cell->text : "", 0};
    if (cell && cell->marks) {
        tc_pen_to(&table->pen, start);
        put_mark_signs(table, row, cell);
        start = table->pen.column + 1;
    }
    if (width > 0)
        wrap.width = width > start ? width - start : 1;
    for (bool first = true; first || tc_wrap_more(&label) || tc_wrap_more(&wrap); first = false) {
        const char *line;
        size_t length;
        if (!first)
            put_more_label(table, row, &label);
        if (tc_wrap_next(&wrap, &line, &length)) {
            tc_pen_to(&table->pen, start);
            tc_pen_put(&table->pen, TC_TONE_PLAIN, line, length);
        }
        tc_pen_line(&table->pen);
    }
}

/* Whether the group headed by row r has a row that this block shows. */
static bool group_shows(const struct table *table, size_t r)
{
    const struct tc_sheet *sheet = table->sheet;
    if (table->first == 0)
        return true;
    for (size_t i = r + 1; i < sheet->row_count && sheet->rows[i].kind != TC_ROW_GROUP; i++)
        if (sheet->rows[i].kind != TC_ROW_SENTENCE)
            return true;
    return false;
}

static void put_group(struct table *table, size_t r, bool top)
{
    if (!top)
        tc_pen_line(&table->pen);
    tc_pen_paragraph(&table->pen, TC_TONE_STRONG, table->sheet->rows[r].label, TC_LAYOUT_INDENT,
                     table->options->width);
}

static void put_block(struct table *table)
{
    const struct tc_sheet *sheet = table->sheet;
    bool ascii = table->options->ascii;
    bool top = true;
    enum tc_row_kind before = TC_ROW_GROUP;
    put_heads(table, TC_STOREY_HEAD);
    put_heads(table, TC_STOREY_SUBHEAD);
    put_shared_subhead(table);
    put_heads(table, TC_STOREY_CODE);
    put_rule(table, ascii ? "=" : "━", true);
    for (size_t r = 0; r < sheet->row_count; r++) {
        enum tc_row_kind kind = sheet->rows[r].kind;
        if (kind == TC_ROW_GROUP ? !group_shows(table, r) : kind == TC_ROW_SENTENCE && table->first > 0)
            continue;
        if (kind == TC_ROW_SUBTOTAL && before != TC_ROW_SUBTOTAL && before != TC_ROW_GROUP)
            put_rule(table, ascii ? "-" : "─", false);
        if (kind == TC_ROW_TOTAL && before != TC_ROW_TOTAL && before != TC_ROW_GROUP)
            put_rule(table, ascii ? "-" : "─", true);
        if (kind == TC_ROW_GROUP)
            put_group(table, r, top);
        else if (kind == TC_ROW_SENTENCE)
            put_sentence(table, r);
        else
            put_row(table, r);
        before = kind;
        top = false;
    }
}

enum tc_status tc_table_add(struct tc_text *out, const struct tc_sheet *sheet,
                            const struct tc_print_options *options)
{
    struct table table = {.sheet = sheet, .options = options, .pen = {.out = out, .colour = options->colour}};
    enum tc_status status = tc_layout_measure(&table.layout, sheet, options->width);
    if (status != TC_OK)
        return status;
    table.wraps = calloc(sheet->column_count + 1, sizeof *table.wraps);
    if (!table.wraps) {
        tc_layout_free(&table.layout);
        return TC_NO_MEMORY;
    }
    do {
        if (table.first > 0)
            tc_pen_line(&table.pen);
        table.count = tc_layout_block(&table.layout, table.first, options->width);
        put_block(&table);
        table.first += table.count;
    } while (table.first < sheet->column_count);
    free(table.wraps);
    tc_layout_free(&table.layout);
    return out->failed ? TC_NO_MEMORY : TC_OK;
}
