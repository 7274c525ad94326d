/* SPDX-License-Identifier: MIT */
#include "screen/view_panel.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "print/cell.h"
#include "print/width.h"
#include "screen/hints.h"
#include "screen/pager.h"
#include "screen/paint.h"
#include "screen/panel.h"
#include "screen/picture.h"
#include "sheet/caution.h"

enum {
    PADDING = 2,    /* the frame and a blank */
    LEAST_FIELD = 8 /* less of a column says nothing */
};

/* ---------------------------------------------------------------------------- lists */

struct list {
    const struct tc_picker *picker;
    struct tc_canvas *canvas;
    struct tc_panel panel;
    int inside;     /* columns within the padding */
    size_t columns; /* how many of the sheet's fit, the last one perhaps in part */
    bool ascii;
};

static int field_of(const struct list *list, size_t column)
{
    return tc_layout_width(&list->picker->layout, 0, column) + TC_LAYOUT_GAP;
}

/* The columns left for a field, cut at the frame. */
static int room_of(const struct list *list, size_t column)
{
    int width = list->picker->layout.columns[column].width + list->picker->layout.columns[column].signs;
    int room = list->inside - field_of(list, column);
    return width <= room ? width : room >= LEAST_FIELD ? room : 0;
}

static void draw_in_field(const struct list *list, size_t column, int row, unsigned role, const char *text)
{
    const struct tc_layout_column *layout = &list->picker->layout.columns[column];
    int room = room_of(list, column);
    int blanks = layout->words ? 0 : layout->width - tc_width(text);
    if (room < 1)
        return;
    if (blanks < 0 || blanks + tc_width(text) > room)
        blanks = 0;
    tc_paint_text(list->canvas, list->panel.column + PADDING + field_of(list, column) + blanks, row,
                  room - blanks, role, text, list->ascii);
}

static void draw_heads(const struct list *list, int row)
{
    const struct tc_picker *picker = list->picker;
    tc_paint_text(list->canvas, list->panel.column + PADDING, row, picker->layout.label, TC_TONE_SOFT,
                  picker->sheet.row_head, list->ascii);
    for (size_t c = 0; c < picker->sheet.column_count; c++)
        draw_in_field(list, c, row, TC_TONE_SOFT, picker->sheet.columns[c].head);
}

static void draw_cell(const struct list *list, const struct tc_row *row, size_t c, int y)
{
    char buffer[TC_NUMBER_SIZE], text[256], signs[32] = "";
    const struct tc_cell *cell = &row->cells[c];
    for (size_t i = 0; tc_mark_at(i); i++)
        if (cell->marks & tc_mark_at(i))
            snprintf(signs + strlen(signs), sizeof signs - strlen(signs), "%s",
                     tc_mark_sign(tc_mark_at(i), list->ascii));
    snprintf(text, sizeof text, "%s%s%s", tc_cell_text(buffer, cell, true), *signs ? " " : "", signs);
    unsigned role = cell->kind == TC_CELL_MISSING ? TC_TONE_SOFT
                    : cell->marks & TC_MARK_TYPED ? TC_TONE_TYPED
                                                  : TC_TONE_PLAIN;
    draw_in_field(list, c, y, role, text);
}

static void draw_choice(const struct list *list, size_t shown, int y)
{
    const struct tc_picker *picker = list->picker;
    const struct tc_row *row = &picker->sheet.rows[picker->shown[shown]];
    int x = list->panel.column + PADDING;
    bool heading = row->kind == TC_ROW_GROUP || row->kind == TC_ROW_SENTENCE;
    tc_paint_text(list->canvas, x + tc_layout_indent(&picker->layout, row), y, list->inside,
                  heading ? TC_TONE_STRONG : TC_TONE_PLAIN, row->label, list->ascii);
    for (size_t c = 0; c < picker->sheet.column_count && row->cells && !heading; c++)
        draw_cell(list, row, c, y);
    for (int i = 0; i < list->inside && shown == picker->at; i++) {
        struct tc_glyph *glyph = tc_canvas_at(list->canvas, x + i, y);
        if (glyph)
            glyph->tone = (unsigned char)(glyph->tone | TC_ROLE_SELECTED);
    }
}

/* A caution in the lower frame of a panel. */
static void draw_caution(struct tc_canvas *canvas, const struct tc_panel *panel, const char *hint, bool ascii)
{
    int x = panel->column + PADDING, y = panel->row + panel->height - 1;
    if (!*hint)
        return;
    int width = tc_paint_caution(canvas, x + 1, y, panel->width - 2 * PADDING - 2, hint, ascii);
    tc_canvas_put(canvas, x, y, TC_TONE_PLAIN, " ");
    tc_canvas_put(canvas, x + 1 + width, y, TC_TONE_PLAIN, " ");
}

/* Below the list: what the last column says of the selected one, in full, and how far down one is. */
static void draw_foot(const struct list *list, int y, size_t room)
{
    const struct tc_picker *picker = list->picker;
    const struct tc_row *row = tc_picker_row(picker);
    char place[64] = "";
    int x = list->panel.column + PADDING;
    if (picker->shown_count > room)
        snprintf(place, sizeof place, "%zu to %zu of %zu", picker->top + 1, picker->top + room,
                 picker->shown_count);
    int taken = *place ? tc_width(place) + 2 : 0;
    if (*place)
        tc_paint_text(list->canvas, x + list->inside - tc_width(place), y, list->inside, TC_TONE_SOFT, place,
                      list->ascii);
    size_t last = picker->sheet.column_count - 1;
    if (row && picker->sheet.column_count > 0 && row->cells[last].text)
        tc_paint_text(list->canvas, x, y, list->inside - taken, TC_TONE_SOFT, row->cells[last].text,
                      list->ascii);
    else if (!row)
        tc_paint_text(list->canvas, x, y, list->inside - taken, TC_TONE_WARN, "nothing matches; Backspace",
                      list->ascii);
}

void tc_view_list(const struct tc_state *state, int which, struct tc_canvas *canvas, struct tc_cursor *cursor)
{
    struct list list = {.picker = &state->lists[which].picker,
                        .canvas = canvas,
                        .panel = tc_panel_list(state, which),
                        .ascii = state->options->ascii};
    int start = tc_panel_list_start(&list.panel);
    list.inside = list.panel.width - 2 * PADDING;
    tc_paint_panel(canvas, &list.panel, list.picker->sheet.title, list.ascii);
    int x = list.panel.column + PADDING;
    int typed = tc_paint_text(canvas, x, list.panel.row + 1, list.inside, TC_TONE_SOFT,
                              "type to narrow: ", list.ascii);
    int at = tc_paint_input(canvas, x + typed, list.panel.row + 1, 24, &list.picker->filter, list.ascii);
    draw_heads(&list, list.panel.row + 2);
    size_t room = (size_t)(list.panel.height - 5 > 0 ? list.panel.height - 5 : 0);
    for (size_t i = 0; i < room && list.picker->top + i < list.picker->shown_count; i++)
        draw_choice(&list, list.picker->top + i, start + (int)i);
    draw_foot(&list, list.panel.row + list.panel.height - 2, room);
    const struct tc_row *selected = tc_picker_row(list.picker);
    if (selected)
        draw_caution(canvas, &list.panel, tc_caution_hint(tc_caution_of(selected, NULL)), list.ascii);
    if (list.picker->at < list.picker->shown_count)
        *cursor = (struct tc_cursor){x, start + (int)(list.picker->at - list.picker->top)};
    else
        *cursor = (struct tc_cursor){at, list.panel.row + 1};
}

/* ---------------------------------------------------------------------------- slips */

void tc_view_prompt(const struct tc_state *state, struct tc_canvas *canvas, struct tc_cursor *cursor)
{
    const struct tc_prompt *prompt = &state->prompt;
    struct tc_panel panel = tc_panel_prompt(state);
    int x = panel.column + PADDING, y = panel.row + 1, width = panel.width - 2 * PADDING;
    bool ascii = state->options->ascii;
    tc_paint_panel(canvas, &panel, prompt->title, ascii);
    cursor->column = tc_paint_input(canvas, x, y, width, &prompt->input, ascii);
    cursor->row = y++;
    y += tc_paint_paragraph(canvas, x, y, width, panel.height, TC_TONE_WARN, prompt->problem, ascii);
    tc_paint_paragraph(canvas, x, y, width, panel.row + panel.height - 1 - y, TC_TONE_SOFT, prompt->hint,
                       ascii);
    draw_caution(canvas, &panel, tc_caution_hint(prompt->caution), ascii);
}

/* ---------------------------------------------------------------------------- pages */

/* A line of a page: "key<tab>text", "<vertical tab>heading" or plain. */
static void draw_page_line(const struct tc_state *state, struct tc_canvas *canvas, int x, int y,
                           const char *line, size_t length)
{
    char buffer[2048];
    bool ascii = state->options->ascii;
    int width = tc_pager_width(state);
    if (length >= sizeof buffer)
        length = sizeof buffer - 1;
    memcpy(buffer, line, length);
    buffer[length] = '\0';
    char *tab = strchr(buffer, '\t');
    if (buffer[0] == '\v') {
        tc_paint_text(canvas, x, y, width, TC_TONE_STRONG, buffer + 1, ascii);
    } else if (tab) {
        *tab = '\0';
        tc_paint_text(canvas, x, y, TC_PAGER_KEYS - 1, TC_ROLE_KEY, buffer, ascii);
        tc_paint_text(canvas, x + TC_PAGER_KEYS, y, width - TC_PAGER_KEYS, TC_TONE_PLAIN, tab + 1, ascii);
    } else {
        tc_paint_text(canvas, x, y, width, TC_TONE_PLAIN, buffer, ascii);
    }
}

void tc_view_pager(const struct tc_state *state, struct tc_canvas *canvas, struct tc_cursor *cursor)
{
    const struct tc_pager *page = &state->pager;
    struct tc_panel panel = tc_panel_pager(state);
    char title[128];
    int room = panel.height - 2;
    if (page->line_count > (size_t)room)
        snprintf(title, sizeof title, "%s, %zu to %zu of %zu", page->title, page->top + 1,
                 page->top + (size_t)room, page->line_count);
    else
        tc_clean(title, sizeof title, page->title);
    tc_paint_panel(canvas, &panel, title, state->options->ascii);
    const char *line = tc_text_string(&page->text);
    for (size_t i = 0; *line && i < page->top + (size_t)room; i++) {
        size_t length = strcspn(line, "\n");
        if (i >= page->top)
            draw_page_line(state, canvas, panel.column + PADDING, panel.row + 1 + (int)(i - page->top), line,
                           length);
        line += length + (line[length] == '\n');
    }
    *cursor = (struct tc_cursor){panel.column + PADDING, panel.row + 1};
}

/* -------------------------------------------------------------------------- pictures */

void tc_view_picture(const struct tc_state *state, struct tc_canvas *canvas, struct tc_cursor *cursor)
{
    const struct tc_frame *frame = &state->frame;
    struct tc_panel panel = {0, 1, frame->width, frame->height - 2};
    struct tc_canvas picture = TC_CANVAS_EMPTY;
    char title[48] = "";
    size_t count = tc_picture_count(state);
    if (count > 1)
        snprintf(title, sizeof title, "%zu of %zu", state->picture + 1, count);
    tc_paint_panel(canvas, &panel, title, state->options->ascii);
    *cursor = (struct tc_cursor){PADDING, panel.row + 1};
    if (tc_picture_draw(state, &picture, panel.width - 2 * PADDING, panel.height - 2) != TC_OK)
        return;
    for (int row = 0; row < picture.height && row < panel.height - 2; row++)
        tc_canvas_copy(canvas, panel.column + PADDING, panel.row + 1 + row, &picture, 0, picture.width, row);
    tc_canvas_free(&picture);
    if (tc_picture_is_drawing(state)) /* of the wall: glass stands above glass there */
        draw_caution(canvas, &panel, tc_caution_hint(TC_CAUTION_RACK), state->options->ascii);
}

/* ------------------------------------------------------------------------- questions */

void tc_view_confirm(const struct tc_state *state, struct tc_canvas *canvas, struct tc_cursor *cursor)
{
    struct tc_panel panel = tc_panel_confirm(state);
    int x = panel.column + PADDING, width = panel.width - 2 * PADDING;
    tc_paint_panel(canvas, &panel, "", state->options->ascii);
    tc_paint_paragraph(canvas, x, panel.row + 1, width, panel.height - 4, TC_TONE_STRONG, state->confirm.text,
                       state->options->ascii);
    tc_hints_draw(state, canvas, x, panel.row + panel.height - 2, width);
    *cursor = (struct tc_cursor){x, panel.row + panel.height - 2};
}
