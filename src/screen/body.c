/* SPDX-License-Identifier: MIT */
#include "screen/body.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "print/cell.h"
#include "print/chart.h"
#include "print/drawing.h"
#include "print/text_sheet.h"
#include "print/width.h"

enum {
    CHART_LEAST = 12,    /* on a small screen one rather scrolls than looks at a flat chart */
    LEAST_FIELD = 6,     /* a column of words is not made narrower than this */
    PICTURE_WIDTH = 100, /* a wider picture says no more */
    CHART_HEIGHT = 18,
    BESIDE_GAP = 4,
    BESIDE_FLOW = 32, /* the least width of what stands beside pictures: notes have to be read */
    BESIDE_LEAST = 44 /* room that a picture beside the table must have */
};

static int larger(int a, int b)
{
    return a > b ? a : b;
}

static int smaller(int a, int b)
{
    return a < b ? a : b;
}

/* ---------------------------------------------------------------- columns */

/* Sets every column to its natural width, but none wider than cap where words can be wrapped. */
static void cap_columns(struct tc_layout *layout, int cap)
{
    for (size_t c = 0; c < layout->sheet->column_count; c++) {
        struct tc_layout_column *column = &layout->columns[c];
        column->width = larger(column->least, smaller(column->natural, cap));
    }
}

size_t tc_body_columns(const struct tc_body *body, size_t left)
{
    size_t columns = body->sheet->column_count;
    if (left >= columns)
        return 0;
    for (size_t count = columns - left; count > 1; count--)
        if (tc_layout_width(&body->layout, left, count) <= body->width)
            return count;
    return 1;
}

/* Columns that do not all fit: the widest at which as many are shown as at the least widths. */
static void set_scrolling_columns(struct tc_body *body)
{
    struct tc_layout *layout = &body->layout;
    int cap = LEAST_FIELD;
    for (size_t c = 0; c < layout->sheet->column_count; c++)
        cap = larger(cap, layout->columns[c].natural);
    cap_columns(layout, LEAST_FIELD);
    size_t most = tc_body_columns(body, 0);
    do
        cap_columns(layout, cap);
    while (--cap >= LEAST_FIELD && tc_body_columns(body, 0) < most);
}

static void set_columns(struct tc_body *body)
{
    size_t columns = body->sheet->column_count;
    if (columns > 0 && tc_layout_block(&body->layout, 0, body->width) < columns)
        set_scrolling_columns(body);
}

int tc_body_field(const struct tc_body *body, size_t left, size_t column)
{
    return tc_layout_width(&body->layout, left, column - left) + TC_LAYOUT_GAP;
}

/* ------------------------------------------------------------------ heads */

const char *tc_body_head(const struct tc_body *body, int storey, size_t column)
{
    switch (storey) {
    case 0: return body->sheet->columns[column].head;
    case 1: return body->sheet->columns[column].subhead;
    default: return body->layout.codes.columns[column];
    }
}

static int lines_of(const char *text, int width)
{
    struct tc_wrap wrap = {text, width > 0 ? width : 1};
    const char *line;
    size_t length;
    int lines = 0;
    while (tc_wrap_next(&wrap, &line, &length))
        lines++;
    return lines;
}

static void measure_heads(struct tc_body *body, int most)
{
    body->head_height = 0;
    for (int storey = 0; storey < TC_HEAD_STOREYS; storey++) {
        body->storey[storey] = storey == 0; /* the corner is always there */
        for (size_t c = 0; c < body->sheet->column_count; c++) {
            int lines = lines_of(tc_body_head(body, storey, c), body->layout.columns[c].width);
            body->storey[storey] = larger(body->storey[storey], lines);
        }
        body->storey[storey] = smaller(body->storey[storey], most);
        body->head_height += body->storey[storey];
    }
}

/* ------------------------------------------------------------------ lines */

static bool add_line(struct tc_body *body, enum tc_line_kind kind, size_t index, int part)
{
    if (body->count == body->room) {
        size_t room = body->room ? body->room * 2 : 128;
        struct tc_line *lines = realloc(body->lines, room * sizeof *lines);
        if (!lines)
            return false;
        body->lines = lines;
        body->room = room;
    }
    body->lines[body->count++] = (struct tc_line){kind, index, part};
    return true;
}

static bool add_lines(struct tc_body *body, enum tc_line_kind kind, size_t index, int count)
{
    for (int part = 0; part < count; part++)
        if (!add_line(body, kind, index, part))
            return false;
    return true;
}

static int label_height(const struct tc_body *body, size_t row)
{
    const struct tc_row *r = &body->sheet->rows[row];
    char unit[48];
    tc_layout_unit(&body->layout, row, unit, sizeof unit);
    int taken = *unit ? TC_LAYOUT_GAP + tc_width(unit) : 0;
    int room = body->layout.label - tc_layout_indent(&body->layout, r) - taken;
    struct tc_wrap wrap = {r->label, larger(room, 1)};
    const char *line;
    size_t length;
    int lines = 0;
    while (tc_wrap_next(&wrap, &line, &length)) {
        lines++;
        wrap.width = larger(room - TC_LAYOUT_INDENT, 1); /* further lines hang */
    }
    return larger(lines, 1);
}

static int row_height(const struct tc_body *body, size_t row)
{
    const struct tc_row *r = &body->sheet->rows[row];
    int height = label_height(body, row);
    for (size_t c = 0; c < body->sheet->column_count; c++) {
        char buffer[TC_NUMBER_SIZE];
        if (!tc_cell_is_figure(&r->cells[c]))
            height = larger(
                height, lines_of(tc_cell_text(buffer, &r->cells[c], true), body->layout.columns[c].width));
    }
    return height;
}

static int sentence_height(const struct tc_body *body, size_t row)
{
    const struct tc_row *r = &body->sheet->rows[row];
    const char *text = body->sheet->column_count > 0 && r->cells[0].text ? r->cells[0].text : "";
    int room = body->width - body->layout.label - TC_LAYOUT_GAP;
    return larger(label_height(body, row), lines_of(text, room));
}

static bool add_row(struct tc_body *body, size_t row, bool roomy)
{
    const struct tc_row *rows = body->sheet->rows;
    enum tc_row_kind kind = rows[row].kind;
    switch (kind) {
    case TC_ROW_GROUP:
        if (roomy && row > 0 && !add_line(body, TC_LINE_BLANK, row, 0))
            return false;
        return add_lines(body, TC_LINE_GROUP, row, larger(1, lines_of(rows[row].label, body->width)));
    case TC_ROW_SENTENCE: return add_lines(body, TC_LINE_SENTENCE, row, sentence_height(body, row));
    case TC_ROW_SUBTOTAL:
        if (roomy && row > 0 && rows[row - 1].kind != TC_ROW_SUBTOTAL &&
            !add_line(body, TC_LINE_RULE, row, 0))
            return false;
        break;
    case TC_ROW_LINE:
    case TC_ROW_TOTAL: break;
    }
    return add_lines(body, TC_LINE_ROW, row, row_height(body, row));
}

const char *tc_body_note_lead(const struct tc_body *body, size_t note)
{
    return tc_note_word(body->sheet->notes[note].kind);
}

static int note_height(const struct tc_body *body, size_t note)
{
    const char *lead = tc_body_note_lead(body, note);
    int taken = *lead ? tc_width(lead) + 2 : 0;
    struct tc_wrap wrap = {body->sheet->notes[note].text, larger(body->width - taken, 1)};
    const char *line;
    size_t length;
    int lines = 0;
    while (tc_wrap_next(&wrap, &line, &length)) {
        lines++;
        wrap.width = larger(body->width - TC_LAYOUT_INDENT, 1);
    }
    return larger(lines, 1);
}

bool tc_body_legend(const struct tc_body *body, size_t i, char *buffer, size_t size)
{
    unsigned marks = tc_marks_of_sheet(body->sheet);
    for (size_t m = 0; tc_mark_at(m); m++) {
        if (!(marks & tc_mark_at(m)) || i-- > 0)
            continue;
        snprintf(buffer, size, "%s %s", tc_mark_sign(tc_mark_at(m), body->ascii),
                 tc_mark_meaning(tc_mark_at(m)));
        return true;
    }
    return false;
}

/* Each item of the legend takes a line where they do not all fit on one: part is then the item. */
static bool add_legend(struct tc_body *body)
{
    char item[96];
    int items = 0, width = 0;
    while (tc_body_legend(body, (size_t)items, item, sizeof item)) {
        width += tc_width(item) + (items > 0 ? 3 : 0);
        items++;
    }
    if (items == 0)
        return true;
    if (!add_line(body, TC_LINE_BLANK, 0, 0))
        return false;
    if (width <= body->width)
        return add_line(body, TC_LINE_LEGEND, 0, -1);
    return add_lines(body, TC_LINE_LEGEND, 0, items);
}

/* --------------------------------------------------------------- pictures */

static enum tc_status draw_pictures(struct tc_body *body, int width, int height)
{
    const struct tc_sheet *sheet = body->sheet;
    size_t drawings = sheet->drawing ? 1 : 0;
    body->pictures = calloc(drawings + sheet->chart_count + 1, sizeof *body->pictures);
    if (!body->pictures)
        return TC_NO_MEMORY;
    width = smaller(width, PICTURE_WIDTH);
    if (sheet->drawing) {
        /* A drawing without extent is no picture. */
        enum tc_status status =
            tc_drawing_draw(&body->pictures[0], sheet->drawing, width, height, body->ascii);
        if (status == TC_NO_MEMORY)
            return status;
        body->picture_count = status == TC_OK;
    }
    for (size_t i = 0; i < sheet->chart_count; i++) {
        struct tc_canvas *canvas = &body->pictures[body->picture_count];
        if (tc_chart_draw(canvas, &sheet->charts[i], width,
                          smaller(CHART_HEIGHT, larger(CHART_LEAST, height)), body->ascii) != TC_OK)
            return TC_NO_MEMORY;
        body->picture_count++;
    }
    return TC_OK;
}

/* The first pictures move beside the table, as far as the height reaches. */
static void place_beside(struct tc_body *body, int height)
{
    int used = 0;
    while (body->beside < body->picture_count) {
        used += body->pictures[body->beside].height + (body->beside > 0);
        if (used > height)
            break;
        body->beside++;
    }
}

/* Draws the pictures, and decides where they stand. */
static enum tc_status place_pictures(struct tc_body *body, const struct tc_body_room *room)
{
    const struct tc_sheet *sheet = body->sheet;
    if (!sheet->drawing && sheet->chart_count == 0)
        return TC_OK;
    int table = larger(tc_layout_width(&body->layout, 0, sheet->column_count), BESIDE_FLOW);
    int beside = room->width - table - BESIDE_GAP;
    if (sheet->column_count > 0 && beside >= BESIDE_LEAST) {
        enum tc_status status = draw_pictures(body, beside, room->height);
        if (status != TC_OK)
            return status;
        place_beside(body, room->height);
        body->beside_start = table + BESIDE_GAP;
        if (body->beside > 0)
            body->width = table;
        return TC_OK;
    }
    return draw_pictures(body, body->width, larger(room->height, TC_DRAWING_LEAST_HEIGHT));
}

/* ------------------------------------------------------------------- whole */

static bool add_all(struct tc_body *body, bool roomy)
{
    const struct tc_sheet *sheet = body->sheet;
    for (size_t r = 0; r < sheet->row_count; r++)
        if (!add_row(body, r, roomy))
            return false;
    if (!add_legend(body))
        return false;
    for (size_t p = body->beside; p < body->picture_count; p++)
        if (!add_line(body, TC_LINE_BLANK, 0, 0) ||
            !add_lines(body, TC_LINE_PICTURE, p, body->pictures[p].height))
            return false;
    if (sheet->note_count > 0 && body->count > 0 && !add_line(body, TC_LINE_BLANK, 0, 0))
        return false;
    for (size_t n = 0; n < sheet->note_count; n++)
        if (!add_lines(body, TC_LINE_NOTE, n, note_height(body, n)))
            return false;
    return true;
}

enum tc_status tc_body_make(struct tc_body *body, const struct tc_sheet *sheet,
                            const struct tc_body_room *room)
{
    tc_body_free(body);
    body->sheet = sheet;
    body->ascii = room->ascii;
    body->width = larger(room->width, 1);
    enum tc_status status = tc_layout_measure(&body->layout, sheet, body->width);
    if (status == TC_OK) {
        set_columns(body);
        status = place_pictures(body, room);
    }
    if (status == TC_OK) {
        measure_heads(body, room->storey);
        if (!add_all(body, room->roomy))
            status = TC_NO_MEMORY;
    }
    if (status != TC_OK)
        tc_body_free(body);
    return status;
}

void tc_body_free(struct tc_body *body)
{
    if (body->sheet)
        tc_layout_free(&body->layout);
    for (size_t i = 0; body->pictures && i < body->picture_count; i++)
        tc_canvas_free(&body->pictures[i]);
    free(body->pictures);
    free(body->lines);
    *body = (struct tc_body)TC_BODY_EMPTY;
}

/* ------------------------------------------------------------------- stops */

bool tc_body_stop(const struct tc_body *body, size_t line)
{
    const struct tc_line *l = &body->lines[line];
    switch (l->kind) {
    case TC_LINE_ROW:
    case TC_LINE_SENTENCE:
    case TC_LINE_NOTE: return l->part == 0;
    case TC_LINE_PICTURE: return true;
    case TC_LINE_BLANK:
    case TC_LINE_RULE:
    case TC_LINE_GROUP:
    case TC_LINE_LEGEND: return false;
    }
    return false;
}

size_t tc_body_next_stop(const struct tc_body *body, size_t line, int direction)
{
    while (line < body->count && !tc_body_stop(body, line)) {
        if (direction < 0 && line == 0)
            return body->count;
        line = direction < 0 ? line - 1 : line + 1;
    }
    return line < body->count ? line : body->count;
}

static bool heading(const struct tc_body *body, size_t line)
{
    enum tc_line_kind kind = body->lines[line].kind;
    return kind == TC_LINE_BLANK || kind == TC_LINE_RULE || kind == TC_LINE_GROUP || kind == TC_LINE_LEGEND;
}

void tc_body_extent(const struct tc_body *body, size_t line, size_t *first, size_t *last)
{
    *first = *last = line;
    while (*first > 0 && heading(body, *first - 1))
        --*first;
    while (*last + 1 < body->count && body->lines[*last + 1].kind == body->lines[line].kind &&
           body->lines[*last + 1].part > 0 && body->lines[line].kind != TC_LINE_PICTURE)
        ++*last;
}
