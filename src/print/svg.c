/* SPDX-License-Identifier: MIT */
#include "print/svg.h"

#include <math.h>
#include <string.h>

#include "core/base/number.h"
#include "print/markup.h"
#include "print/series.h"

/* A cell in pixels of CSS: twice as high as wide, as drawings to scale take it. */
enum { CELL_WIDTH = 8, CELL_HEIGHT = 16, BASELINE = 12 };

struct svg {
    struct tc_text *out;
    const struct tc_canvas *canvas;
    int skip, number;
};

/* A length in pixels with the fewest digits that show it. */
static void add_length(struct tc_text *out, const char *name, double pixels)
{
    char buffer[TC_NUMBER_SIZE];
    double rounded = round(pixels * 100) / 100;
    tc_text_addf(out, " %s=\"%s\"", name, tc_number_write_short(buffer, rounded));
}

static double across(double columns)
{
    return columns * CELL_WIDTH;
}

static double down(const struct svg *svg, double rows)
{
    return (rows - svg->skip) * CELL_HEIGHT;
}

/* ------------------------------------------------------------------ fills */

/* What the pattern of each fill of series.c holds, on a tile of 6 by 6. */
static const char *const patterns[] = {
    NULL, /* solid */
    "<circle cx='1.5' cy='1.5' r='.9' fill='currentColor' stroke='none'/>"
    "<circle cx='4.5' cy='4.5' r='.9' fill='currentColor' stroke='none'/>",
    "<path d='M0 0h6v6h-6z' fill='currentColor' stroke='none' opacity='.4'/>"
    "<path d='M-1 1l2-2M0 6l6-6M5 7l2-2'/>",
    "<path d='M0 1.5h6M0 4.5h6'/>",
    "<path d='M-1 1l2-2M0 6l6-6M5 7l2-2M-1 5l2 2M0 0l6 6M5-1l2 2'/>",
    "<circle cx='3' cy='3' r='.9' fill='currentColor' stroke='none'/>",
    "<path d='M0 1h6M0 3h6M0 5h6'/>",
    "<path d='M1.5 0v6M4.5 0v6'/>",
};

enum { PATTERN_COUNT = sizeof patterns / sizeof *patterns };

static bool has_pattern(size_t series)
{
    return series >= PATTERN_COUNT || patterns[series] != NULL;
}

/* The patterns of the fills that occur; a series beyond those with a fill has its letter. */
static void add_patterns(const struct svg *svg)
{
    for (size_t i = 0; i < svg->canvas->shape_count; i++) {
        const struct tc_shape *shape = &svg->canvas->shapes[i];
        bool first = shape->kind == TC_SHAPE_FILL && has_pattern(shape->series);
        for (size_t before = 0; before < i && first; before++)
            first = svg->canvas->shapes[before].kind != TC_SHAPE_FILL ||
                    svg->canvas->shapes[before].series != shape->series;
        if (!first)
            continue;
        tc_text_addf(svg->out,
                     "<pattern id=\"p%d-%zu\" class=\"t%d\" width=\"6\" height=\"6\" "
                     "patternUnits=\"userSpaceOnUse\" stroke=\"currentColor\" fill=\"none\">",
                     svg->number, shape->series, (int)shape->tone);
        if (shape->series < PATTERN_COUNT)
            tc_text_add(svg->out, patterns[shape->series]);
        else
            tc_text_addf(svg->out, "<text x='1' y='5' font-size='6' stroke='none'>%s</text>",
                         tc_series_fill(shape->series, true));
        tc_text_add(svg->out, "</pattern>\n");
    }
}

/* ----------------------------------------------------------------- shapes */

/* Ends an element, with the title of what it shows if there is something to say. */
static void end_shape(const struct svg *svg, const struct tc_shape *shape, const char *element)
{
    if (!*shape->label) {
        tc_text_add(svg->out, "/>\n");
        return;
    }
    tc_text_add(svg->out, "><title>");
    tc_markup_add(svg->out, shape->label);
    tc_text_addf(svg->out, "</title></%s>\n", element);
}

static void add_block(const struct svg *svg, const struct tc_shape *shape)
{
    const char *class = shape->kind == TC_SHAPE_FRAME  ? "frame"
                        : shape->kind == TC_SHAPE_FILL ? "bar"
                                                       : "solid";
    tc_text_addf(svg->out, "<rect class=\"%s t%d\"", class, (int)shape->tone);
    add_length(svg->out, "x", across(shape->x));
    add_length(svg->out, "y", down(svg, shape->y));
    add_length(svg->out, "width", across(shape->to_x - shape->x));
    add_length(svg->out, "height", down(svg, shape->to_y) - down(svg, shape->y));
    if (shape->kind == TC_SHAPE_FILL && has_pattern(shape->series))
        tc_text_addf(svg->out, " fill=\"url(#p%d-%zu)\"", svg->number, shape->series);
    else if (shape->kind != TC_SHAPE_FRAME)
        tc_text_add(svg->out, " fill=\"currentColor\"");
    end_shape(svg, shape, "rect");
    if (shape->letter != '\0') {
        const char letter[2] = {shape->letter, '\0'};
        tc_text_addf(svg->out, "<text class=\"t%d\" text-anchor=\"middle\"", (int)shape->tone);
        add_length(svg->out, "x", across((shape->x + shape->to_x) / 2));
        add_length(svg->out, "y", down(svg, (shape->y + shape->to_y) / 2) + BASELINE - CELL_HEIGHT / 2.0);
        tc_text_add(svg->out, ">");
        tc_markup_add(svg->out, letter);
        tc_text_add(svg->out, "</text>\n");
    }
}

static void add_line(const struct svg *svg, const struct tc_shape *shape)
{
    tc_text_addf(svg->out, "<line class=\"%s t%d\"", shape->kind == TC_SHAPE_DASH ? "dash" : "line",
                 (int)shape->tone);
    add_length(svg->out, "x1", across(shape->x));
    add_length(svg->out, "y1", down(svg, shape->y));
    add_length(svg->out, "x2", across(shape->to_x));
    add_length(svg->out, "y2", down(svg, shape->to_y));
    end_shape(svg, shape, "line");
}

/* The forms of the points of series.c about the place 0, 0; each comes filled, then hollow. */
static const char *const points[] = {
    "M-4 0a4 4 0 1 0 8 0a4 4 0 1 0-8 0z",
    "M-3.5-3.5h7v7h-7z",
    "M0-4.5l4.5 8h-9z",
    "M0-4.5l4.5 4.5l-4.5 4.5l-4.5-4.5z",
};

enum { POINT_COUNT = sizeof points / sizeof *points };

static void add_point(const struct svg *svg, const struct tc_shape *shape)
{
    char x[TC_NUMBER_SIZE], y[TC_NUMBER_SIZE];
    double left = round(across(shape->x) * 100) / 100, top = round(down(svg, shape->y) * 100) / 100;
    if (shape->series / 2 < POINT_COUNT) {
        tc_text_addf(svg->out, "<path class=\"%s t%d\" transform=\"translate(%s %s)\" d=\"%s\"",
                     shape->series % 2 == 0 ? "point" : "frame", (int)shape->tone,
                     tc_number_write_short(x, left), tc_number_write_short(y, top),
                     points[shape->series / 2]);
        end_shape(svg, shape, "path");
        return;
    }
    tc_text_addf(svg->out, "<text class=\"t%d\" text-anchor=\"middle\"", (int)shape->tone);
    add_length(svg->out, "x", left);
    add_length(svg->out, "y", top + BASELINE - CELL_HEIGHT / 2.0);
    tc_text_addf(svg->out, ">%s", tc_series_point(shape->series, true));
    if (*shape->label) {
        tc_text_add(svg->out, "<title>");
        tc_markup_add(svg->out, shape->label);
        tc_text_add(svg->out, "</title>");
    }
    tc_text_add(svg->out, "</text>\n");
}

static void add_shape(const struct svg *svg, const struct tc_shape *shape)
{
    switch (shape->kind) {
    case TC_SHAPE_FILL:
    case TC_SHAPE_FRAME:
    case TC_SHAPE_SOLID: add_block(svg, shape); return;
    case TC_SHAPE_LINE:
    case TC_SHAPE_DASH: add_line(svg, shape); return;
    case TC_SHAPE_POINT: add_point(svg, shape); return;
    }
}

/* ------------------------------------------------------------------ texts */

static bool is_text(const struct tc_glyph *glyph)
{
    return glyph && !glyph->sign && strcmp(glyph->text, " ") != 0;
}

/* Whether a text that stands in a cell goes on in the next: past one blank at most, in the same tone. */
static int next_of_text(const struct svg *svg, int column, int row, enum tc_tone tone)
{
    for (int next = column + 1; next <= column + 2; next++) {
        const struct tc_glyph *glyph = tc_canvas_at(svg->canvas, next, row);
        if (is_text(glyph))
            return glyph->tone == (unsigned char)tone ? next : -1;
        if (!glyph || glyph->sign)
            return -1;
    }
    return -1;
}

/* Adds the text that starts in a cell; returns the column after it. */
static int add_text(const struct svg *svg, int column, int row)
{
    struct tc_text text = TC_TEXT_EMPTY;
    enum tc_tone tone = (enum tc_tone)tc_canvas_at(svg->canvas, column, row)->tone;
    int last = column;
    for (int next = column; next >= 0; next = next_of_text(svg, last, row, tone)) {
        tc_text_add(&text, next > last + 1 ? " " : "");
        tc_text_add(&text, tc_canvas_at(svg->canvas, next, row)->text);
        last = next;
    }
    tc_text_addf(svg->out, "<text class=\"t%d\"", (int)tone);
    add_length(svg->out, "x", across(column));
    add_length(svg->out, "y", down(svg, row) + BASELINE);
    if (last > column)
        add_length(svg->out, "textLength", across(last + 1 - column));
    tc_text_add(svg->out, last > column ? " lengthAdjust=\"spacingAndGlyphs\">" : ">");
    tc_markup_add(svg->out, tc_text_string(&text));
    tc_text_add(svg->out, "</text>\n");
    svg->out->failed = svg->out->failed || text.failed;
    tc_text_free(&text);
    return last + 1;
}

void tc_svg_add(struct tc_text *out, const struct tc_canvas *canvas, int skip, const char *name, int number)
{
    struct svg svg = {out, canvas, skip, number};
    int width = canvas->width * CELL_WIDTH, height = (canvas->height - skip) * CELL_HEIGHT;
    tc_text_addf(out,
                 "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"group\" viewBox=\"0 0 %d %d\" "
                 "width=\"%d\" height=\"%d\" aria-label=\"",
                 width, height, width, height);
    tc_markup_add(out, name);
    tc_text_add(out, "\">\n");
    add_patterns(&svg);
    for (size_t i = 0; i < canvas->shape_count; i++)
        add_shape(&svg, &canvas->shapes[i]);
    for (int row = skip; row < canvas->height; row++)
        for (int column = 0; column < canvas->width;)
            column = is_text(tc_canvas_at(canvas, column, row)) ? add_text(&svg, column, row) : column + 1;
    tc_text_add(out, "</svg>\n");
}
