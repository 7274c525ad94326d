/* SPDX-License-Identifier: MIT */
#include "print/stroke.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/clean.h"
#include "print/series.h"

/* How much of a row a bar is high. */
static const double BAR_TOP = 0.12, BAR_BOTTOM = 0.88;

/* The eighths of a block from the left, none to seven. */
static const char *const eighths[] = {"", "▏", "▎", "▍", "▌", "▋", "▊", "▉"};

void tc_stroke_bar(struct tc_canvas *canvas, double x, double to_x, int row, size_t series, const char *label,
                   bool ascii)
{
    const char *fill = tc_series_fill(series, ascii);
    enum tc_tone tone = tc_series_tone(series);
    int first = (int)lround(x), last = (int)lround(to_x);
    if (canvas->fine && !ascii && series == 0 && to_x > x) { /* the only fill that eighths go with */
        int whole = (int)floor(to_x + 1.0 / 16);
        int part = (int)lround((to_x - whole) * 8);
        last = whole;
        if (part > 0 && part < 8 && whole >= first)
            tc_canvas_put(canvas, whole, row, tone, eighths[part]);
    }
    tc_canvas_across(canvas, first, row, last - first, tone, fill);
    if (to_x > x)
        tc_canvas_shape(canvas, &(struct tc_shape){.kind = TC_SHAPE_FILL,
                                                   .x = x,
                                                   .y = row + BAR_TOP,
                                                   .to_x = to_x,
                                                   .to_y = row + BAR_BOTTOM,
                                                   .tone = tone,
                                                   .series = series,
                                                   .label = label});
}

/* The cells of braille begin at U+2800; the bits of a cell's dots, by column and row (ISO/IEC 10646). */
enum { BRAILLE = 0x2800, DOTS_ACROSS = 2, DOTS_DOWN = 4 };
static const unsigned char dot_bits[DOTS_ACROSS][DOTS_DOWN] = {{0x01, 0x02, 0x04, 0x40},
                                                               {0x08, 0x10, 0x20, 0x80}};

/* Sets a dot in a cell that is blank or has dots already. */
static void put_dot(struct tc_canvas *canvas, double x, double y, enum tc_tone tone)
{
    int column = (int)floor(x), row = (int)floor(y);
    const struct tc_glyph *glyph = tc_canvas_at(canvas, column, row);
    uint32_t code = BRAILLE;
    if (!glyph)
        return;
    if (strcmp(glyph->text, " ") != 0 && (tc_utf8_decode(glyph->text, strlen(glyph->text), &code) == 0 ||
                                          code < BRAILLE || code > BRAILLE + 0xFF))
        return;
    int across = (int)((x - column) * DOTS_ACROSS), down = (int)((y - row) * DOTS_DOWN);
    code |= dot_bits[across][down];
    const char sign[] = {(char)(0xE0 | code >> 12), (char)(0x80 | (code >> 6 & 0x3F)),
                         (char)(0x80 | (code & 0x3F)), '\0'};
    tc_canvas_put(canvas, column, row, tone, sign);
}

/* Dots from one cell to the next, where nothing stands yet. */
static void put_dots(struct tc_canvas *canvas, int column, int row, int to_column, int to_row,
                     enum tc_tone tone, bool ascii)
{
    int across = to_column - column, down = to_row - row;
    int steps = abs(across) > abs(down) ? abs(across) : abs(down);
    for (int i = 1; i < steps; i++) {
        int c = column + (int)lround((double)across * i / steps);
        int r = row + (int)lround((double)down * i / steps);
        if (tc_canvas_blank(canvas, c, r, 1))
            tc_canvas_put(canvas, c, r, tone, ascii ? "." : "·");
    }
}

void tc_stroke_line(struct tc_canvas *canvas, double x, double y, double to_x, double to_y, size_t series,
                    bool ascii)
{
    enum tc_tone tone = tc_series_tone(series);
    if (canvas->fine && !ascii) {
        double steps = ceil(fmax(fabs(to_x - x) * DOTS_ACROSS, fabs(to_y - y) * DOTS_DOWN));
        for (int i = 0; i <= (int)steps; i++) {
            double share = steps > 0 ? i / steps : 0;
            put_dot(canvas, x + (to_x - x) * share, y + (to_y - y) * share, tone);
        }
    } else {
        put_dots(canvas, (int)floor(x), (int)floor(y), (int)floor(to_x), (int)floor(to_y), tone, ascii);
    }
    tc_canvas_shape(canvas, &(struct tc_shape){.kind = TC_SHAPE_LINE,
                                               .x = x,
                                               .y = y,
                                               .to_x = to_x,
                                               .to_y = to_y,
                                               .tone = tone,
                                               .series = series});
}

void tc_stroke_point(struct tc_canvas *canvas, double x, double y, size_t series, const char *sign,
                     const char *label)
{
    tc_canvas_put(canvas, (int)floor(x), (int)floor(y), tc_series_tone(series), sign);
    tc_canvas_shape(canvas, &(struct tc_shape){.kind = TC_SHAPE_POINT,
                                               .x = x,
                                               .y = y,
                                               .tone = tc_series_tone(series),
                                               .series = series,
                                               .label = label});
}

void tc_stroke_level(struct tc_canvas *canvas, double x, double to_x, int row, enum tc_tone tone,
                     const char *sign)
{
    int column = (int)floor(x);
    tc_canvas_across(canvas, column, row, (int)floor(to_x) - column, tone, sign);
    tc_canvas_shape(
        canvas,
        &(struct tc_shape){
            .kind = TC_SHAPE_LINE, .x = x, .y = row + 0.5, .to_x = to_x, .to_y = row + 0.5, .tone = tone});
}

void tc_stroke_upright(struct tc_canvas *canvas, enum tc_shape_kind kind, double x, int row, int rows,
                       const char *sign)
{
    if (rows < 1)
        return;
    tc_canvas_down(canvas, (int)floor(x), row, rows, TC_TONE_SOFT, sign);
    tc_canvas_shape(canvas,
                    &(struct tc_shape){
                        .kind = kind, .x = x, .y = row, .to_x = x, .to_y = row + rows, .tone = TC_TONE_SOFT});
}

void tc_stroke_end(struct tc_canvas *canvas, double x, int row, enum tc_tone tone, const char *sign,
                   const char *label)
{
    tc_canvas_put(canvas, (int)floor(x), row, tone, sign);
    tc_canvas_shape(canvas, &(struct tc_shape){.kind = TC_SHAPE_LINE,
                                               .x = x,
                                               .y = row + 0.2,
                                               .to_x = x,
                                               .to_y = row + 0.8,
                                               .tone = tone,
                                               .label = label});
}

/* A soft line from the middle of a cell. */
static void add_line(struct tc_canvas *canvas, int column, int row, double across, double down)
{
    tc_canvas_shape(canvas, &(struct tc_shape){.kind = TC_SHAPE_LINE,
                                               .x = column + 0.5,
                                               .y = row + 0.5,
                                               .to_x = column + 0.5 + across,
                                               .to_y = row + 0.5 + down,
                                               .tone = TC_TONE_SOFT});
}

void tc_stroke_tick(struct tc_canvas *canvas, int column, int row, int across, int down, const char *sign)
{
    tc_canvas_put(canvas, column, row, TC_TONE_SOFT, sign);
    add_line(canvas, column, row, across * 0.5, down * 0.5);
}

void tc_stroke_corner(struct tc_canvas *canvas, int column, int row, const char *sign)
{
    tc_canvas_put(canvas, column, row, TC_TONE_SOFT, sign);
    add_line(canvas, column, row, 0, -0.5);
    add_line(canvas, column, row, 0.5, 0);
}
