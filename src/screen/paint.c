/* SPDX-License-Identifier: MIT */
#include "screen/paint.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "print/ascii.h"
#include "print/row.h"
#include "print/width.h"

int tc_paint_text(struct tc_canvas *canvas, int column, int row, int columns, unsigned role, const char *text,
                  bool ascii)
{
    struct tc_text plain = TC_TEXT_EMPTY;
    if (columns < 1)
        return 0;
    if (ascii) {
        tc_ascii_add(&plain, text);
        text = tc_text_string(&plain);
    }
    int width = tc_width(text);
    tc_canvas_field(canvas, column, row, columns, TC_ALIGN_LEFT, tc_style_tone(role), text, ascii);
    tc_text_free(&plain);
    return width < columns ? width : columns;
}

int tc_paint_paragraph(struct tc_canvas *canvas, int column, int row, int columns, int rows, unsigned role,
                       const char *text, bool ascii)
{
    struct tc_wrap wrap = {text, columns > 0 ? columns : 1};
    const char *line;
    size_t length;
    int used = 0;
    while (used < rows && tc_wrap_next(&wrap, &line, &length)) {
        char buffer[1024];
        /* The last row takes all that is left, and says by an ellipsis that it does not fit. */
        size_t bytes = used + 1 == rows ? strlen(line) : length;
        if (bytes >= sizeof buffer)
            bytes = length < sizeof buffer ? length : 0;
        memcpy(buffer, line, bytes);
        buffer[bytes] = '\0';
        tc_paint_text(canvas, column, row + used, columns, role, buffer, ascii);
        used++;
    }
    return used;
}

int tc_paint_height(const char *text, int columns)
{
    struct tc_wrap wrap = {text, columns > 0 ? columns : 1};
    const char *line;
    size_t length;
    int rows = 0;
    while (tc_wrap_next(&wrap, &line, &length))
        rows++;
    return rows;
}

static const char caution_gap[] = ": ";

int tc_paint_caution_width(const char *text)
{
    return tc_width(tc_note_word(TC_NOTE_CAUTION)) + tc_width(caution_gap) + tc_width(text);
}

int tc_paint_caution(struct tc_canvas *canvas, int column, int row, int columns, const char *text, bool ascii)
{
    int width =
        tc_paint_text(canvas, column, row, columns, TC_TONE_WARN, tc_note_word(TC_NOTE_CAUTION), ascii);
    width += tc_paint_text(canvas, column + width, row, columns - width, TC_TONE_WARN, caution_gap, ascii);
    return width + tc_paint_text(canvas, column + width, row, columns - width, TC_TONE_PLAIN, text, ascii);
}

void tc_paint_water(struct tc_canvas *canvas, int column, int row, int columns, bool ascii)
{
    tc_canvas_across(canvas, column, row, columns, TC_TONE_SOFT, ascii ? "~" : "≈");
}

void tc_paint_panel(struct tc_canvas *canvas, const struct tc_panel *panel, const char *title, bool ascii)
{
    int right = panel->column + panel->width - 1, bottom = panel->row + panel->height - 1;
    for (int row = panel->row; row <= bottom; row++)
        tc_canvas_across(canvas, panel->column, row, panel->width, TC_TONE_PLAIN, " ");
    tc_paint_water(canvas, panel->column, panel->row, panel->width, ascii);
    tc_paint_water(canvas, panel->column, bottom, panel->width, ascii);
    for (int row = panel->row + 1; row < bottom; row++) {
        tc_canvas_put(canvas, panel->column, row, tc_style_tone(TC_ROLE_FRAME), ascii ? "|" : "│");
        tc_canvas_put(canvas, right, row, tc_style_tone(TC_ROLE_FRAME), ascii ? "|" : "│");
    }
    if (*title) {
        tc_canvas_put(canvas, panel->column + 2, panel->row, TC_TONE_PLAIN, " ");
        int width = tc_paint_text(canvas, panel->column + 3, panel->row, panel->width - 6, TC_TONE_STRONG,
                                  title, ascii);
        tc_canvas_put(canvas, panel->column + 3 + width, panel->row, TC_TONE_PLAIN, " ");
    }
}

static size_t next_character(const struct tc_input *input, size_t at)
{
    uint32_t code;
    int length = tc_utf8_decode(input->text + at, input->length - at, &code);
    return at + (length > 0 ? (size_t)length : 1);
}

int tc_paint_input(struct tc_canvas *canvas, int column, int row, int columns, const struct tc_input *input,
                   bool ascii)
{
    int at = tc_width_bytes(input->text, input->at);
    size_t skipped = 0;
    if (at >= columns) /* what is left of the place of typing is shown as far as it fits */
        while (skipped < input->at && tc_width_bytes(input->text + skipped, input->at - skipped) >= columns)
            skipped = next_character(input, skipped);
    tc_canvas_across(canvas, column, row, columns, tc_style_tone(TC_ROLE_FIELD), " ");
    const char *shown = input->text + skipped;
    char buffer[TC_INPUT_SIZE];
    size_t bytes = tc_width_cut(shown, columns);
    memcpy(buffer, shown, bytes);
    buffer[bytes] = '\0';
    tc_paint_text(canvas, column, row, columns,
                  input->fresh ? TC_ROLE_FIELD | TC_ROLE_SELECTED : TC_ROLE_FIELD, buffer, ascii);
    return column + tc_width_bytes(shown, input->at - skipped);
}
