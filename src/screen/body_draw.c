/* SPDX-License-Identifier: MIT */
#include "screen/body_draw.h"

#include <string.h>

#include "core/base/name.h"
#include "print/cell.h"
#include "print/width.h"
#include "screen/style_role.h"

/* ------------------------------------------------------------------- texts */

/* True if a word of `length` bytes occurs in text. */
static bool word_occurs(const char *text, const char *word, size_t length)
{
    for (; *text; text++) {
        size_t i = 0;
        while (i < length && text[i] && tc_name_lower(text[i]) == tc_name_lower(word[i]))
            i++;
        if (i == length)
            return true;
    }
    return false;
}

bool tc_text_holds(const char *text, const char *find)
{
    for (;;) {
        find += strspn(find, " ");
        size_t length = strcspn(find, " ");
        if (length == 0)
            return true;
        if (!word_occurs(text, find, length))
            return false;
        find += length;
    }
}

bool tc_body_holds(const struct tc_body *body, size_t line, const char *find)
{
    const struct tc_line *l = &body->lines[line];
    if (find[strspn(find, " ")] == '\0')
        return false;
    if (l->kind == TC_LINE_NOTE)
        return tc_text_holds(body->sheet->notes[l->index].text, find);
    if (l->kind != TC_LINE_ROW && l->kind != TC_LINE_SENTENCE && l->kind != TC_LINE_GROUP)
        return false;
    const struct tc_row *row = &body->sheet->rows[l->index];
    if (tc_text_holds(row->label, find))
        return true;
    for (size_t c = 0; row->cells && c < body->sheet->column_count; c++) {
        char buffer[TC_NUMBER_SIZE];
        if (tc_text_holds(tc_cell_text(buffer, &row->cells[c], true), find))
            return true;
    }
    return false;
}

bool tc_body_holds_beside(const struct tc_body *body, const char *find)
{
    bool holds = false;
    for (size_t i = 0; i < body->aside_count; i++)
        holds = holds || tc_text_holds(body->sheet->notes[body->aside_notes[i]].text, find);
    return holds;
}

/* ------------------------------------------------------------------- lines */

/* Copies a line of a strip that has all columns: the labels, and the columns in sight. */
static void copy_columns(const struct tc_body *body, size_t left, const struct tc_canvas *strip, int part,
                         struct tc_canvas *canvas, int start, int row)
{
    const struct tc_layout *layout = &body->layout;
    int passed = tc_layout_width(layout, 0, left);
    int shown = tc_layout_width(layout, left, tc_body_columns(body, left)) - layout->label;
    tc_canvas_copy(canvas, start, row, strip, 0, layout->label, part);
    tc_canvas_copy(canvas, start + layout->label, row, strip, passed, shown, part);
}

/* Marks the text that stands in some columns of a row, but for units and lead words, as found. */
static void mark_found(struct tc_canvas *canvas, int start, int row, int count)
{
    int first = count, last = -1;
    for (int i = 0; i < count; i++) {
        const struct tc_glyph *glyph = tc_canvas_at(canvas, start + i, row);
        if (!glyph || strcmp(glyph->text, " ") == 0 ||
            (glyph->tone != TC_TONE_PLAIN && glyph->tone != TC_TONE_STRONG))
            continue;
        first = i < first ? i : first;
        last = i;
    }
    for (int i = first; i <= last; i++)
        tc_canvas_at(canvas, start + i, row)->tone = TC_ROLE_FOUND;
}

/* Marks the label of a row or the text of a note if it holds what is looked for. */
static void mark_line(const struct tc_body *body, const struct tc_line *line, const char *find,
                      struct tc_canvas *canvas, int start, int row)
{
    const struct tc_row *r = body->sheet->rows ? &body->sheet->rows[line->index] : NULL;
    switch (line->kind) {
    case TC_LINE_GROUP:
    case TC_LINE_ROW:
    case TC_LINE_SENTENCE:
        if (r && tc_text_holds(r->label, find))
            mark_found(canvas, start, row, tc_layout_indent(&body->layout, r) + tc_width(r->label));
        break;
    case TC_LINE_NOTE:
        if (tc_text_holds(body->sheet->notes[line->index].text, find))
            mark_found(canvas, start, row, body->width);
        break;
    case TC_LINE_BLANK:
    case TC_LINE_RULE:
    case TC_LINE_LEGEND:
    case TC_LINE_PICTURE: break;
    }
}

/* The selected cell is marked over its whole field, so that an empty one is seen as well. */
static void mark_selected(const struct tc_body *body, const struct tc_look_at *at, struct tc_canvas *canvas,
                          int start, int row)
{
    if (at->column < at->left || at->column >= at->left + tc_body_columns(body, at->left))
        return;
    const struct tc_layout_column *column = &body->layout.columns[at->column];
    int field = start + tc_body_field(body, at->left, at->column);
    for (int i = -1; i < column->width + column->signs; i++) {
        struct tc_glyph *glyph = tc_canvas_at(canvas, field + i, row);
        if (glyph)
            glyph->tone = (unsigned char)(glyph->tone | TC_ROLE_SELECTED);
    }
}

/* A line of the heads; what is said once for all columns stays where it is. */
static void copy_head(const struct tc_body *body, size_t left, int storey, int part, struct tc_canvas *canvas,
                      int start, int row)
{
    const struct tc_canvas *strip = &body->heads[storey];
    if (storey == TC_STOREY_SUBHEAD && *body->layout.shared_subhead)
        tc_canvas_copy(canvas, start, row, strip, 0, strip->width, part);
    else
        copy_columns(body, left, strip, part, canvas, start, row);
}

/* Of a sentence that can be typed the label is marked. */
static void mark_label(const struct tc_body *body, const struct tc_line *line, struct tc_canvas *canvas,
                       int start, int row)
{
    const struct tc_row *r = &body->sheet->rows[line->index];
    if (!r->cells || !r->cells[0].edit)
        return;
    int first = start + tc_layout_indent(&body->layout, r);
    for (int i = 0; i < tc_width(r->label); i++) {
        struct tc_glyph *glyph = tc_canvas_at(canvas, first + i, row);
        if (glyph)
            glyph->tone = (unsigned char)(glyph->tone | TC_ROLE_SELECTED);
    }
}

void tc_body_draw_heads(const struct tc_body *body, const struct tc_look_at *at, struct tc_canvas *canvas,
                        int start, int row)
{
    size_t end = at->left + tc_body_columns(body, at->left);
    for (int storey = 0; storey < TC_HEAD_STOREYS; storey++)
        for (int part = 0; part < body->heads[storey].height; part++, row++) {
            copy_head(body, at->left, storey, part, canvas, start, row);
            if (storey > 0 || at->column < at->left || at->column >= end)
                continue;
            int field = start + tc_body_field(body, at->left, at->column);
            for (int i = 0; i < body->layout.columns[at->column].width; i++) {
                struct tc_glyph *glyph = tc_canvas_at(canvas, field + i, row);
                if (glyph && strcmp(glyph->text, " ") != 0)
                    glyph->tone = TC_ROLE_HERE;
            }
        }
}

void tc_body_draw_beside(const struct tc_body *body, const struct tc_look_at *at, struct tc_canvas *canvas,
                         int start, int row)
{
    for (size_t i = 0; i < body->beside; i++) {
        const struct tc_canvas *picture = &body->pictures[i];
        for (int line = 0; line < picture->height; line++)
            tc_canvas_copy(canvas, start + body->beside_start, row++, picture, 0, picture->width, line);
        row++;
    }
    for (size_t i = 0; i < body->aside_count; i++) {
        const struct tc_canvas *aside = &body->asides[i];
        bool found = at->find[0] && tc_text_holds(body->sheet->notes[body->aside_notes[i]].text, at->find);
        for (int line = 0; line < aside->height; line++, row++) {
            tc_canvas_copy(canvas, start + body->beside_start, row, aside, 0, aside->width, line);
            if (found)
                mark_found(canvas, start + body->beside_start, row, aside->width);
        }
    }
}

void tc_body_draw_line(const struct tc_body *body, size_t line, const struct tc_look_at *at,
                       struct tc_canvas *canvas, int start, int row)
{
    const struct tc_line *l = &body->lines[line];
    bool selected = at->line < body->count && body->lines[at->line].kind == l->kind &&
                    body->lines[at->line].index == l->index;
    const struct tc_canvas *strip = l->kind == TC_LINE_BLANK     ? NULL
                                    : l->kind == TC_LINE_PICTURE ? &body->pictures[l->index]
                                                                 : &body->strips[l->strip];
    if (l->kind == TC_LINE_ROW || l->kind == TC_LINE_RULE)
        copy_columns(body, at->left, strip, l->part, canvas, start, row);
    else if (strip)
        tc_canvas_copy(canvas, start, row, strip, 0, strip->width, l->part);
    if (at->find[0])
        mark_line(body, l, at->find, canvas, start, row);
    if (selected && l->kind == TC_LINE_ROW)
        mark_selected(body, at, canvas, start, row);
    else if (selected && l->kind == TC_LINE_SENTENCE && l->part == 0)
        mark_label(body, l, canvas, start, row);
}

int tc_body_cursor(const struct tc_body *body, const struct tc_look_at *at)
{
    if (at->line >= body->count || body->lines[at->line].kind != TC_LINE_ROW || at->column < at->left ||
        at->column >= at->left + tc_body_columns(body, at->left))
        return 0;
    /* The last cell of the field: where the last digit of a figure stands. */
    const struct tc_layout_column *column = &body->layout.columns[at->column];
    return tc_body_field(body, at->left, at->column) + (column->words ? 0 : column->width - 1);
}
