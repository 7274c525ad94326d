/* SPDX-License-Identifier: MIT */
#include "print/row.h"

#include <string.h>

#include "print/cell.h"
#include "print/width.h"
#include "core/base/order.h"

enum { UNIT_SIZE = 48, LEGEND_GAP = 3 };

/* A strip being drawn. A failure is kept, and nothing is drawn after it. */
struct drawer {
    struct tc_canvas *strip;
    const struct tc_row_block *block;
    enum tc_status status;
};

static bool start(struct drawer *drawer, int width)
{
    drawer->status = tc_canvas_start(drawer->strip, width, 1);
    return drawer->status == TC_OK;
}

static enum tc_status done(struct drawer *drawer)
{
    if (drawer->status != TC_OK)
        tc_canvas_free(drawer->strip);
    return drawer->status;
}

static void put(struct drawer *drawer, int column, int row, enum tc_tone tone, const char *text,
                size_t length)
{
    if (drawer->status == TC_OK)
        drawer->status = tc_canvas_grow(drawer->strip, row + 1);
    if (drawer->status == TC_OK)
        tc_canvas_bytes(drawer->strip, column, row, tone, text, length);
}

/* Draws a text wrapped from a place on, its further lines hung; those of a right column end at its edge. */
static void put_wrapped(struct drawer *drawer, int column, int width, int hang, enum tc_align align,
                        enum tc_tone tone, const char *text)
{
    struct tc_wrap wrap = {text, tc_larger(width, 1)};
    const char *line;
    size_t length;
    for (int row = 0; tc_wrap_next(&wrap, &line, &length); row++) {
        int indent = row > 0 ? hang : 0;
        int blanks = align == TC_ALIGN_RIGHT ? wrap.width - tc_width_bytes(line, length) : 0;
        put(drawer, column + indent + tc_larger(blanks, 0), row, tone, line, length);
        wrap.width = tc_larger(width - hang, 1);
    }
}

/* ------------------------------------------------------------------- heads */

static int field_start(const struct tc_row_block *block, size_t column)
{
    return tc_layout_width(block->layout, block->first, column - block->first) + TC_LAYOUT_GAP;
}

static int block_width(const struct tc_row_block *block)
{
    return tc_layout_width(block->layout, block->first, block->count);
}

/* The corner over the labels: what the rows are, and the currency of the sheet in the units' place. */
static void put_corner(struct drawer *drawer)
{
    const struct tc_layout *layout = drawer->block->layout;
    const char *code = layout->codes.whole;
    const char *head = layout->sheet->row_head;
    if (strcmp(head, code) != 0) /* else it would be said twice */
        put(drawer, 0, 0, TC_TONE_STRONG, head, strlen(head));
    put(drawer, layout->label - tc_width(code), 0, TC_TONE_SOFT, code, strlen(code));
}

static enum tc_align align_of(const struct tc_layout_column *column)
{
    return column->words ? TC_ALIGN_LEFT : TC_ALIGN_RIGHT;
}

/* Draws a head; the last line it may have takes all that is left of it. */
static void put_head(struct drawer *drawer, size_t c, const char *head, enum tc_tone tone, int most)
{
    const struct tc_layout_column *column = &drawer->block->layout->columns[c];
    int field = field_start(drawer->block, c);
    struct tc_wrap wrap = {head, column->width};
    const char *line;
    size_t length;
    for (int row = 0; tc_wrap_next(&wrap, &line, &length); row++) {
        bool last = row + 1 == most;
        int width = last ? tc_width(line) : tc_width_bytes(line, length);
        int blanks = column->words ? 0 : tc_larger(column->width - width, 0);
        if (!last) {
            put(drawer, field + blanks, row, tone, line, length);
            continue;
        }
        put(drawer, 0, row, tone, "", 0); /* the line has to be there */
        if (drawer->status == TC_OK)
            tc_canvas_field(drawer->strip, field + blanks, row, column->width - blanks, TC_ALIGN_LEFT, tone,
                            line, drawer->block->ascii);
        return;
    }
}

enum tc_status tc_row_heads(struct tc_canvas *strip, const struct tc_row_block *block, enum tc_storey storey,
                            int most)
{
    struct drawer drawer = {.strip = strip, .block = block};
    enum tc_tone tone = storey == TC_STOREY_HEAD ? TC_TONE_STRONG : TC_TONE_SOFT;
    bool any = storey == TC_STOREY_HEAD; /* the corner is always there */
    for (size_t c = block->first; c < block->first + block->count; c++)
        any = any || *tc_layout_head(block->layout, storey, c);
    tc_canvas_free(strip);
    if (!any || !start(&drawer, block_width(block)))
        return drawer.status;
    if (storey == TC_STOREY_HEAD)
        put_corner(&drawer);
    for (size_t c = block->first; c < block->first + block->count; c++)
        put_head(&drawer, c, tc_layout_head(block->layout, storey, c), tone, most);
    return done(&drawer);
}

enum tc_status tc_row_rule(struct tc_canvas *strip, const struct tc_row_block *block, const char *sign,
                           bool label)
{
    struct drawer drawer = {.strip = strip, .block = block};
    if (!start(&drawer, block_width(block)))
        return done(&drawer);
    if (label)
        tc_canvas_across(strip, 0, 0, block->layout->label, TC_TONE_SOFT, sign);
    for (size_t c = block->first; c < block->first + block->count; c++)
        tc_canvas_across(strip, field_start(block, c), 0, block->layout->columns[c].width, TC_TONE_SOFT,
                         sign);
    return TC_OK;
}

/* -------------------------------------------------------------------- rows */

static enum tc_tone label_tone(const struct tc_row *row)
{
    return row->kind == TC_ROW_LINE || row->kind == TC_ROW_SENTENCE ? TC_TONE_PLAIN : TC_TONE_STRONG;
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

static void put_label(struct drawer *drawer, size_t r)
{
    char unit[UNIT_SIZE];
    const struct tc_layout *layout = drawer->block->layout;
    const struct tc_row *row = &layout->sheet->rows[r];
    int indent = tc_layout_indent(layout, row);
    tc_layout_unit(layout, r, unit, sizeof unit);
    int taken = *unit ? TC_LAYOUT_GAP + tc_width(unit) : 0;
    put_wrapped(drawer, indent, layout->label - indent - taken, TC_LAYOUT_INDENT, TC_ALIGN_LEFT,
                label_tone(row), row->label);
    put(drawer, layout->label - tc_width(unit), 0, TC_TONE_SOFT, unit, strlen(unit));
}

static int put_signs(struct drawer *drawer, int column, const struct tc_row *row, const struct tc_cell *cell)
{
    for (size_t i = 0; tc_mark_at(i); i++) {
        const char *sign = tc_mark_sign(tc_mark_at(i), drawer->block->ascii);
        if (cell->marks & tc_mark_at(i))
            put(drawer, column++, 0, cell_tone(row, cell), sign, strlen(sign));
    }
    return column;
}

/* A figure stands with its point under the others'; in a column of words it is one of them. */
static void put_figure(struct drawer *drawer, size_t r, size_t c, const char *text)
{
    const struct tc_layout *layout = drawer->block->layout;
    const struct tc_row *row = &layout->sheet->rows[r];
    const struct tc_layout_column *column = &layout->columns[c];
    const char *code = tc_codes_of_cell(&layout->codes, r, c);
    int blanks = column->words ? 0 : column->width - column->tail - tc_figure_whole(text);
    int field = field_start(drawer->block, c) + tc_larger(blanks, 0);
    put(drawer, field, 0, cell_tone(row, &row->cells[c]), text, strlen(text));
    if (!column->words)
        put(drawer, field + tc_width(text) + 1, 0, TC_TONE_SOFT, code, strlen(code));
}

static void put_cell(struct drawer *drawer, size_t r, size_t c)
{
    char buffer[TC_NUMBER_SIZE];
    const struct tc_row *row = &drawer->block->layout->sheet->rows[r];
    const struct tc_cell *cell = &row->cells[c];
    const struct tc_layout_column *column = &drawer->block->layout->columns[c];
    const char *text = tc_cell_text(buffer, cell, true);
    int field = field_start(drawer->block, c);
    if (tc_cell_is_figure(cell))
        put_figure(drawer, r, c, text);
    else
        put_wrapped(drawer, field, column->width, 0, align_of(column), cell_tone(row, cell), text);
    put_signs(drawer, field + column->width + 1, row, cell);
}

/* Where the texts of a run of sentences start: beside the widest of its labels. */
static int sentence_start(const struct tc_layout *layout, size_t r)
{
    const struct tc_sheet *sheet = layout->sheet;
    int widest = 0;
    while (r > 0 && sheet->rows[r - 1].kind == TC_ROW_SENTENCE)
        r--;
    for (; r < sheet->row_count && sheet->rows[r].kind == TC_ROW_SENTENCE; r++)
        widest = tc_larger(widest, layout->indents + tc_width(sheet->rows[r].label));
    return (widest < layout->label ? widest : layout->label) + TC_LAYOUT_GAP;
}

/* As wide as what may run on over the columns needs. */
static int line_width(const struct tc_row_block *block, int least, const char *text)
{
    return tc_larger(block_width(block), block->width > 0 ? block->width : least + tc_width(text));
}

static void draw_sentence(struct drawer *drawer, size_t r)
{
    const struct tc_layout *layout = drawer->block->layout;
    const struct tc_row *row = &layout->sheet->rows[r];
    const struct tc_cell *cell = layout->sheet->column_count > 0 ? &row->cells[0] : NULL;
    const char *text = cell && cell->text ? cell->text : "";
    int column = sentence_start(layout, r);
    int width = line_width(drawer->block, column + 2 * UNIT_SIZE, text);
    if (!start(drawer, width))
        return;
    put_label(drawer, r);
    if (!cell)
        return;
    if (cell->marks)
        column = put_signs(drawer, column, row, cell) + 1;
    width = drawer->block->width > 0 ? drawer->block->width : width;
    put_wrapped(drawer, column, width - column, 0, TC_ALIGN_LEFT, cell_tone(row, cell), text);
}

static void draw_heading(struct drawer *drawer, const struct tc_row *row)
{
    int width = line_width(drawer->block, 1, row->label);
    if (start(drawer, width))
        put_wrapped(drawer, 0, drawer->block->width > 0 ? drawer->block->width : width, TC_LAYOUT_INDENT,
                    TC_ALIGN_LEFT, TC_TONE_STRONG, row->label);
}

enum tc_status tc_row_draw(struct tc_canvas *strip, const struct tc_row_block *block, size_t r)
{
    struct drawer drawer = {.strip = strip, .block = block};
    const struct tc_row *row = &block->layout->sheet->rows[r];
    if (row->kind == TC_ROW_GROUP) {
        draw_heading(&drawer, row);
    } else if (row->kind == TC_ROW_SENTENCE) {
        draw_sentence(&drawer, r);
    } else if (start(&drawer, block_width(block))) {
        put_label(&drawer, r);
        for (size_t c = block->first; c < block->first + block->count; c++)
            put_cell(&drawer, r, c);
    }
    return done(&drawer);
}

/* ------------------------------------------------------- below the table */

enum tc_status tc_row_legend(struct tc_canvas *strip, const struct tc_sheet *sheet, int width, bool ascii)
{
    struct drawer drawer = {.strip = strip};
    unsigned marks = tc_marks_of_sheet(sheet);
    int column = 0, row = 0;
    tc_canvas_free(strip);
    if (!marks || !start(&drawer, width > 0 ? width : TC_CANVAS_MOST))
        return drawer.status;
    for (size_t i = 0; tc_mark_at(i); i++) {
        const char *sign = tc_mark_sign(tc_mark_at(i), ascii), *meaning = tc_mark_meaning(tc_mark_at(i));
        if (!(marks & tc_mark_at(i)))
            continue;
        if (column > 0 && column + 2 + tc_width(meaning) > strip->width) {
            column = 0;
            row++;
        }
        put(&drawer, column, row, TC_TONE_SOFT, sign, strlen(sign));
        put(&drawer, column + 2, row, TC_TONE_SOFT, meaning, strlen(meaning));
        column += 2 + tc_width(meaning) + LEGEND_GAP;
    }
    return done(&drawer);
}

const char *tc_note_word(enum tc_note_kind kind)
{
    switch (kind) {
    case TC_NOTE_FINDING: return "";
    case TC_NOTE_REMARK: return "Note";
    case TC_NOTE_CAUTION: return "Caution";
    case TC_NOTE_FAULT: return "Missing";
    }
    return "";
}

enum tc_status tc_row_note(struct tc_canvas *strip, const struct tc_note *note, int width)
{
    struct drawer drawer = {.strip = strip};
    const char *word = tc_note_word(note->kind);
    bool urgent = note->kind == TC_NOTE_CAUTION || note->kind == TC_NOTE_FAULT;
    enum tc_tone lead = urgent ? TC_TONE_WARN : TC_TONE_SOFT;
    int taken = *word ? tc_width(word) + 2 : 0;
    if (!start(&drawer, width > 0 ? width : taken + tc_width(note->text)))
        return done(&drawer);
    put(&drawer, 0, 0, lead, word, strlen(word));
    if (*word)
        put(&drawer, taken - 2, 0, lead, ":", 1);
    put_wrapped(&drawer, taken, strip->width - taken, TC_LAYOUT_INDENT - taken, TC_ALIGN_LEFT,
                note->kind == TC_NOTE_FINDING ? TC_TONE_STRONG : TC_TONE_PLAIN, note->text);
    return done(&drawer);
}
