/* SPDX-License-Identifier: MIT */
#include "print/canvas.h"

#include <stdlib.h>
#include <string.h>

#include "core/base/grow.h"
#include "core/base/clean.h"

static int within(int value, int low, int high)
{
    return value < low ? low : value > high ? high : value;
}

enum tc_status tc_canvas_start(struct tc_canvas *canvas, int width, int height)
{
    tc_canvas_free(canvas);
    width = within(width, 1, TC_CANVAS_MOST);
    height = within(height, 1, TC_CANVAS_MOST);
    size_t count = (size_t)width * (size_t)height;
    canvas->glyphs = calloc(count, sizeof *canvas->glyphs);
    if (!canvas->glyphs)
        return TC_NO_MEMORY;
    canvas->width = width;
    canvas->height = height;
    for (size_t i = 0; i < count; i++)
        canvas->glyphs[i].text[0] = ' ';
    return TC_OK;
}

void tc_canvas_free(struct tc_canvas *canvas)
{
    for (size_t i = 0; i < canvas->shape_count; i++)
        tc_text_free(&canvas->shapes[i].owned);
    free(canvas->shapes);
    free(canvas->glyphs);
    *canvas = (struct tc_canvas){.fine = canvas->fine, .vector = canvas->vector};
}

void tc_canvas_shape(struct tc_canvas *canvas, const struct tc_shape *shape)
{
    if (!canvas->vector || canvas->failed)
        return;
    struct tc_shape *shapes =
        tc_grow(canvas->shapes, canvas->shape_count, &canvas->shape_capacity, sizeof *shapes);
    if (!shapes) {
        canvas->failed = true;
        return;
    }
    canvas->shapes = shapes;
    struct tc_shape *kept = &canvas->shapes[canvas->shape_count++];
    *kept = *shape;
    kept->owned = (struct tc_text)TC_TEXT_EMPTY;
    tc_text_add(&kept->owned, shape->label ? shape->label : "");
    canvas->failed = kept->owned.failed;
    kept->label = tc_text_string(&kept->owned);
}

enum tc_status tc_canvas_status(struct tc_canvas *canvas)
{
    if (!canvas->failed)
        return TC_OK;
    tc_canvas_free(canvas);
    return TC_NO_MEMORY;
}

enum tc_status tc_canvas_grow(struct tc_canvas *canvas, int height)
{
    height = within(height, canvas->height, TC_CANVAS_MOST);
    size_t now = (size_t)canvas->width * (size_t)canvas->height;
    size_t then = (size_t)canvas->width * (size_t)height;
    if (then <= now)
        return TC_OK;
    struct tc_glyph *glyphs = realloc(canvas->glyphs, then * sizeof *glyphs);
    if (!glyphs)
        return TC_NO_MEMORY;
    for (size_t i = now; i < then; i++)
        glyphs[i] = (struct tc_glyph){.text = " "};
    canvas->glyphs = glyphs;
    canvas->height = height;
    return TC_OK;
}

void tc_canvas_copy(struct tc_canvas *canvas, int column, int row, const struct tc_canvas *other, int from,
                    int count, int other_row)
{
    for (int i = 0; i < count; i++) {
        const struct tc_glyph *glyph = tc_canvas_at(other, from + i, other_row);
        struct tc_glyph *place = tc_canvas_at(canvas, column + i, row);
        if (glyph && place)
            *place = *glyph;
    }
}

struct tc_glyph *tc_canvas_at(const struct tc_canvas *canvas, int column, int row)
{
    if (column < 0 || column >= canvas->width || row < 0 || row >= canvas->height)
        return NULL;
    return &canvas->glyphs[(size_t)row * (size_t)canvas->width + (size_t)column];
}

/* Puts length bytes, one character, which is text. */
static void put_bytes(struct tc_canvas *canvas, int column, int row, enum tc_tone tone, const char *bytes,
                      size_t length)
{
    struct tc_glyph *glyph = tc_canvas_at(canvas, column, row);
    if (!glyph || length >= sizeof glyph->text)
        return;
    memcpy(glyph->text, bytes, length);
    glyph->text[length] = '\0';
    glyph->tone = (unsigned char)tone;
    glyph->sign = false;
}

void tc_canvas_put(struct tc_canvas *canvas, int column, int row, enum tc_tone tone, const char *sign)
{
    struct tc_glyph *glyph = tc_canvas_at(canvas, column, row);
    put_bytes(canvas, column, row, tone, sign, strlen(sign));
    if (glyph)
        glyph->sign = true;
}

void tc_canvas_across(struct tc_canvas *canvas, int column, int row, int count, enum tc_tone tone,
                      const char *sign)
{
    for (int i = 0; i < count; i++)
        tc_canvas_put(canvas, column + i, row, tone, sign);
}

void tc_canvas_down(struct tc_canvas *canvas, int column, int row, int count, enum tc_tone tone,
                    const char *sign)
{
    for (int i = 0; i < count; i++)
        tc_canvas_put(canvas, column, row + i, tone, sign);
}

/* Appends a combining mark to the character before it, if there is room. */
static void combine(struct tc_canvas *canvas, int column, int row, const char *bytes, size_t length)
{
    struct tc_glyph *glyph = tc_canvas_at(canvas, column, row);
    if (!glyph || strlen(glyph->text) + length >= sizeof glyph->text)
        return;
    size_t end = strlen(glyph->text);
    memcpy(glyph->text + end, bytes, length);
    glyph->text[end + length] = '\0';
}

int tc_canvas_bytes(struct tc_canvas *canvas, int column, int row, enum tc_tone tone, const char *text,
                    size_t length)
{
    int last = column; /* where the last character stands: combining marks go there */
    for (size_t i = 0, size; i < length; i += size) {
        uint32_t code = '?';
        int n = tc_utf8_decode(text + i, length - i, &code);
        int columns = n > 0 ? tc_width_code(code) : 1;
        size = n > 0 ? (size_t)n : 1;
        if (columns == 0) {
            combine(canvas, last, row, text + i, size);
            continue;
        }
        if (column + columns > canvas->width)
            break;
        put_bytes(canvas, column, row, tone, n > 0 ? text + i : "?", size);
        if (columns == 2)
            put_bytes(canvas, column + 1, row, tone, "", 0);
        last = column;
        column += columns;
    }
    return column;
}

int tc_canvas_text(struct tc_canvas *canvas, int column, int row, enum tc_tone tone, const char *text)
{
    return tc_canvas_bytes(canvas, column, row, tone, text, strlen(text));
}

void tc_canvas_field(struct tc_canvas *canvas, int column, int row, int columns, enum tc_align align,
                     enum tc_tone tone, const char *text, bool ascii)
{
    int blanks = columns - tc_width(text);
    const char *ellipsis = ascii ? ".." : "…";
    int cut = columns - tc_width(ellipsis);
    if (blanks >= 0) {
        int before = align == TC_ALIGN_RIGHT ? blanks : 0;
        tc_canvas_text(canvas, column + before, row, tone, text);
    } else if (cut > 0) {
        column = tc_canvas_bytes(canvas, column, row, tone, text, tc_width_cut(text, cut));
        tc_canvas_text(canvas, column, row, tone, ellipsis);
    } else if (columns > 0) {
        tc_canvas_bytes(canvas, column, row, tone, text, tc_width_cut(text, columns));
    }
}

bool tc_canvas_blank(const struct tc_canvas *canvas, int column, int row, int count)
{
    for (int i = 0; i < count; i++) {
        const struct tc_glyph *glyph = tc_canvas_at(canvas, column + i, row);
        if (glyph && strcmp(glyph->text, " ") != 0)
            return false;
    }
    return true;
}

void tc_canvas_write(const struct tc_canvas *canvas, struct tc_pen *pen)
{
    for (int row = 0; row < canvas->height; row++) {
        for (int column = 0; column < canvas->width; column++) {
            const struct tc_glyph *glyph = tc_canvas_at(canvas, column, row);
            if (strcmp(glyph->text, " ") != 0)
                tc_pen_to(pen, column);
            if (*glyph->text && strcmp(glyph->text, " ") != 0)
                tc_pen_write(pen, (enum tc_tone)glyph->tone, glyph->text);
        }
        tc_pen_line(pen);
    }
}
