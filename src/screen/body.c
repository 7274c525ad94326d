/* SPDX-License-Identifier: MIT */
#include "screen/body.h"

#include <stdlib.h>
#include <string.h>

#include "core/base/grow.h"
#include "print/chart.h"
#include "print/drawing.h"
#include "print/row.h"
#include "print/width.h"
#include "core/base/order.h"

enum {
    CHART_LEAST = 12,    /* on a small screen one rather scrolls than looks at a flat chart */
    LEAST_FIELD = 6,     /* a column of words is not made narrower than this */
    PICTURE_WIDTH = 100, /* a wider picture says no more */
    NOTE_WIDTH = 80,     /* longer lines are hard to read */
    CHART_HEIGHT = 18,
    BESIDE_GAP = 4,
    BESIDE_FLOW = 32,  /* the least width of what stands beside pictures: notes have to be read */
    BESIDE_LEAST = 44, /* room that a picture beside the table must have */
    BESIDE_FROM = 112  /* so wide a screen has charts beside the table even if its words have to be wrapped */
};

/* ---------------------------------------------------------------- columns */

/* Sets every column to its natural width, but none wider than cap where words can be wrapped. */
static void cap_columns(struct tc_layout *layout, int cap)
{
    for (size_t c = 0; c < layout->sheet->column_count; c++) {
        struct tc_layout_column *column = &layout->columns[c];
        column->width = tc_larger(column->least, tc_smaller(column->natural, cap));
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
        cap = tc_larger(cap, layout->columns[c].natural);
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

/* ------------------------------------------------------------------ lines */

/* All columns side by side; what of them is in sight is cut out when a line is drawn. */
static struct tc_row_block all_columns(const struct tc_body *body)
{
    return (struct tc_row_block){&body->layout, 0, body->sheet->column_count, body->width, body->ascii};
}

static int shared_width(const struct tc_layout *layout)
{
    return *layout->shared_subhead ? tc_width(TC_LAYOUT_SHARED_LEAD) + tc_width(layout->shared_subhead) : 0;
}

/*
 * What is said once for all columns stands in the corner where that has room,
 * else on a line of its own; neither scrolls sideways.
 */
static enum tc_status put_shared(struct tc_body *body, int width)
{
    const struct tc_layout *layout = &body->layout;
    const char *code = layout->codes.whole, *row_head = layout->sheet->row_head;
    struct tc_canvas *strip = &body->heads[TC_STOREY_HEAD];
    bool corner = (!*row_head || strcmp(row_head, code) == 0) &&
                  width + (*code ? TC_LAYOUT_GAP + tc_width(code) : 0) <= layout->label;
    if (!corner) {
        strip = &body->heads[TC_STOREY_SUBHEAD];
        if (tc_canvas_start(strip, tc_smaller(width, body->width), 1) != TC_OK)
            return TC_NO_MEMORY;
    }
    int column = tc_canvas_text(strip, 0, 0, TC_TONE_SOFT, TC_LAYOUT_SHARED_LEAD);
    tc_canvas_field(strip, column, 0, strip->width - column, TC_ALIGN_LEFT, TC_TONE_SOFT,
                    layout->shared_subhead, body->ascii);
    return TC_OK;
}

static enum tc_status make_heads(struct tc_body *body, int most)
{
    struct tc_row_block block = all_columns(body);
    int shared = shared_width(&body->layout);
    for (int storey = 0; storey < TC_HEAD_STOREYS; storey++)
        if (tc_row_heads(&body->heads[storey], &block, (enum tc_storey)storey, most) != TC_OK)
            return TC_NO_MEMORY;
    if (shared > 0 && put_shared(body, shared) != TC_OK)
        return TC_NO_MEMORY;
    body->head_height = 0;
    for (int storey = 0; storey < TC_HEAD_STOREYS; storey++)
        body->head_height += body->heads[storey].height;
    return TC_OK;
}

static bool add_line(struct tc_body *body, enum tc_line_kind kind, size_t index, int part)
{
    struct tc_line *lines = tc_grow(body->lines, body->count, &body->capacity, sizeof *lines);
    if (!lines)
        return false;
    body->lines = lines;
    body->lines[body->count++] = (struct tc_line){kind, index, part, body->strip_count};
    return true;
}

static bool add_lines(struct tc_body *body, enum tc_line_kind kind, size_t index, int count)
{
    for (int part = 0; part < count; part++)
        if (!add_line(body, kind, index, part))
            return false;
    return true;
}

/* Takes over a strip that was drawn, as lines of a kind. */
static bool add_strip(struct tc_body *body, enum tc_line_kind kind, size_t index, struct tc_canvas strip,
                      enum tc_status drawn)
{
    struct tc_canvas *strips =
        drawn == TC_OK ? tc_grow(body->strips, body->strip_count, &body->strip_capacity, sizeof *strips)
                       : NULL;
    if (strips)
        body->strips = strips;
    if (!strips || !add_lines(body, kind, index, strip.height)) {
        tc_canvas_free(&strip);
        return false;
    }
    body->strips[body->strip_count++] = strip;
    return true;
}

static enum tc_line_kind line_kind(enum tc_row_kind kind)
{
    return kind == TC_ROW_GROUP ? TC_LINE_GROUP : kind == TC_ROW_SENTENCE ? TC_LINE_SENTENCE : TC_LINE_ROW;
}

static bool add_row(struct tc_body *body, size_t row, bool roomy)
{
    const struct tc_row *rows = body->sheet->rows;
    enum tc_row_kind kind = rows[row].kind;
    struct tc_row_block block = all_columns(body);
    struct tc_canvas strip = TC_CANVAS_EMPTY;
    enum tc_status status;
    if (roomy && row > 0 && kind == TC_ROW_GROUP && !add_line(body, TC_LINE_BLANK, row, 0))
        return false;
    if (roomy && row > 0 && kind == TC_ROW_SUBTOTAL && rows[row - 1].kind != TC_ROW_SUBTOTAL) {
        status = tc_row_rule(&strip, &block, body->ascii ? "-" : "─", false);
        if (!add_strip(body, TC_LINE_RULE, row, strip, status))
            return false;
        strip = (struct tc_canvas)TC_CANVAS_EMPTY;
    }
    status = tc_row_draw(&strip, &block, row);
    return add_strip(body, line_kind(kind), row, strip, status);
}

static bool add_legend(struct tc_body *body)
{
    struct tc_canvas strip = TC_CANVAS_EMPTY;
    enum tc_status status = tc_row_legend(&strip, body->sheet, body->width, body->ascii);
    if (strip.height > 0 && !add_line(body, TC_LINE_BLANK, 0, 0)) {
        tc_canvas_free(&strip);
        return false;
    }
    return add_strip(body, TC_LINE_LEGEND, 0, strip, status);
}

static bool add_note(struct tc_body *body, size_t note)
{
    struct tc_canvas strip = TC_CANVAS_EMPTY;
    enum tc_status status = tc_row_note(&strip, &body->sheet->notes[note], body->width);
    return add_strip(body, TC_LINE_NOTE, note, strip, status);
}

/* Findings stand above the sheet, and here only where they have no room there. */
static bool add_notes(struct tc_body *body, bool findings)
{
    bool any = false;
    size_t from = body->aside_count > 0 ? body->aside_notes[body->aside_count - 1] + 1 : 0;
    for (size_t n = from; n < body->sheet->note_count; n++) {
        if (body->sheet->notes[n].kind == TC_NOTE_FINDING && !findings)
            continue;
        if (!any && body->count > 0 && !add_line(body, TC_LINE_BLANK, 0, 0))
            return false;
        any = true;
        if (!add_note(body, n))
            return false;
    }
    return true;
}

/* --------------------------------------------------------------- pictures */

/* How high a chart over two axes is made: so that as many as can be fit the height one below the other. */
static int chart_height(size_t charts, int height)
{
    int fitting = tc_smaller((int)charts, (height + 1) / (CHART_LEAST + 1));
    if (fitting > 1)
        height = (height + 1) / fitting - 1;
    return tc_smaller(CHART_HEIGHT, tc_larger(CHART_LEAST, height));
}

static enum tc_status draw_pictures(struct tc_body *body, int width, int height)
{
    const struct tc_sheet *sheet = body->sheet;
    size_t drawings = sheet->drawing ? 1 : 0;
    body->pictures = calloc(drawings + sheet->chart_count + 1, sizeof *body->pictures);
    if (!body->pictures)
        return TC_NO_MEMORY;
    for (size_t i = 0; i < drawings + sheet->chart_count; i++)
        body->pictures[i].fine = body->fine;
    width = tc_smaller(width, PICTURE_WIDTH);
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
        bool bars = sheet->charts[i].kind == TC_CHART_BARS;
        int high = bars ? height / (int)sheet->chart_count : chart_height(sheet->chart_count, height);
        if (tc_chart_draw(canvas, &sheet->charts[i], width, high, body->ascii) != TC_OK)
            return TC_NO_MEMORY;
        body->picture_count++;
    }
    return TC_OK;
}

/*
 * Measures the table: on a wide screen narrow enough for charts beside it, if it can be so narrow. A drawing
 * is worth more the larger it is.
 */
static enum tc_status measure(struct tc_body *body, const struct tc_body_room *room)
{
    const struct tc_sheet *sheet = body->sheet;
    int narrow = room->width - BESIDE_GAP - BESIDE_LEAST;
    if (room->width >= BESIDE_FROM && sheet->chart_count > 0 && !sheet->drawing && sheet->column_count > 0) {
        if (tc_layout_measure(&body->layout, sheet, narrow) != TC_OK)
            return TC_NO_MEMORY;
        if (tc_layout_block(&body->layout, 0, narrow) == sheet->column_count &&
            tc_layout_width(&body->layout, 0, sheet->column_count) <= narrow)
            return TC_OK;
        tc_layout_free(&body->layout);
    }
    if (tc_layout_measure(&body->layout, sheet, body->width) != TC_OK)
        return TC_NO_MEMORY;
    set_columns(body);
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

/* The first notes move under these pictures, as far as the height reaches. */
static enum tc_status place_notes(struct tc_body *body, int width, int height)
{
    const struct tc_sheet *sheet = body->sheet;
    body->asides = calloc(sheet->note_count + 1, sizeof *body->asides);
    body->aside_notes = calloc(sheet->note_count + 1, sizeof *body->aside_notes);
    if (!body->asides || !body->aside_notes)
        return TC_NO_MEMORY;
    for (size_t i = 0; i < body->beside; i++)
        height -= body->pictures[i].height + 1;
    for (size_t n = 0; n < sheet->note_count; n++) {
        struct tc_canvas *aside = &body->asides[body->aside_count];
        if (sheet->notes[n].kind == TC_NOTE_FINDING)
            continue;
        if (tc_row_note(aside, &sheet->notes[n], tc_smaller(width, NOTE_WIDTH)) != TC_OK)
            return TC_NO_MEMORY;
        height -= aside->height;
        if (height < 0) {
            tc_canvas_free(aside);
            break;
        }
        body->aside_notes[body->aside_count++] = n;
    }
    return TC_OK;
}

/* Draws the pictures, and decides where they stand. */
static enum tc_status place_pictures(struct tc_body *body, const struct tc_body_room *room)
{
    const struct tc_sheet *sheet = body->sheet;
    if (!sheet->drawing && sheet->chart_count == 0)
        return TC_OK;
    int table = tc_larger(tc_layout_width(&body->layout, 0, sheet->column_count), BESIDE_FLOW);
    int beside = room->width - table - BESIDE_GAP;
    if (sheet->column_count > 0 && beside >= BESIDE_LEAST) {
        enum tc_status status = draw_pictures(body, beside, room->height);
        if (status != TC_OK)
            return status;
        place_beside(body, room->height);
        body->beside_start = table + BESIDE_GAP;
        if (body->beside == 0)
            return TC_OK;
        body->width = table;
        return TC_OK;
    }
    return draw_pictures(body, body->width, tc_larger(room->height, TC_DRAWING_LEAST_HEIGHT));
}

/* ------------------------------------------------------------------- whole */

static bool add_all(struct tc_body *body, const struct tc_body_room *room)
{
    const struct tc_sheet *sheet = body->sheet;
    for (size_t r = 0; r < sheet->row_count; r++)
        if (!add_row(body, r, room->roomy))
            return false;
    if (!add_legend(body))
        return false;
    for (size_t p = body->beside; p < body->picture_count; p++)
        if (!add_line(body, TC_LINE_BLANK, 0, 0) ||
            !add_lines(body, TC_LINE_PICTURE, p, body->pictures[p].height))
            return false;
    size_t lines = body->count, strips = body->strip_count;
    if (!add_notes(body, room->findings))
        return false;
    if (body->beside == 0 || room->findings || body->count <= (size_t)tc_larger(room->height, 0))
        return true;
    /* Those that would be out of sight under the table stand under the pictures beside it. */
    while (body->strip_count > strips)
        tc_canvas_free(&body->strips[--body->strip_count]);
    body->count = lines;
    return place_notes(body, room->width - body->beside_start, room->height) == TC_OK &&
           add_notes(body, false);
}

enum tc_status tc_body_make(struct tc_body *body, const struct tc_sheet *sheet,
                            const struct tc_body_room *room)
{
    tc_body_free(body);
    body->sheet = sheet;
    body->ascii = room->ascii;
    body->fine = room->fine;
    body->width = tc_larger(room->width, 1);
    enum tc_status status = measure(body, room);
    if (status == TC_OK)
        status = place_pictures(body, room);
    if (status == TC_OK)
        status = make_heads(body, room->storey);
    if (status == TC_OK && !add_all(body, room))
        status = TC_NO_MEMORY;
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
    for (size_t i = 0; i < body->strip_count; i++)
        tc_canvas_free(&body->strips[i]);
    for (int storey = 0; storey < TC_HEAD_STOREYS; storey++)
        tc_canvas_free(&body->heads[storey]);
    for (size_t i = 0; i < body->aside_count; i++)
        tc_canvas_free(&body->asides[i]);
    free(body->asides);
    free(body->aside_notes);
    free(body->pictures);
    free(body->strips);
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

size_t tc_body_start(const struct tc_body *body, int height)
{
    enum { NEAR = 10 };
    for (size_t i = 0; i < body->count && i < NEAR && (int)i < height; i++) {
        if (body->lines[i].kind != TC_LINE_ROW)
            continue;
        const struct tc_row *row = &body->sheet->rows[body->lines[i].index];
        for (size_t c = 0; c < body->sheet->column_count; c++)
            if (row->cells[c].edit)
                return i;
    }
    return tc_body_next_stop(body, 0, 1);
}

const char *tc_body_group(const struct tc_body *body, size_t line)
{
    if (line >= body->count)
        return NULL;
    enum tc_line_kind kind = body->lines[line].kind;
    if (kind != TC_LINE_ROW && kind != TC_LINE_SENTENCE && kind != TC_LINE_RULE)
        return NULL;
    for (size_t r = body->lines[line].index; r-- > 0;)
        if (body->sheet->rows[r].kind == TC_ROW_GROUP)
            return body->sheet->rows[r].label;
    return NULL;
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
