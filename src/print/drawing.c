/* SPDX-License-Identifier: MIT */
#include "print/drawing.h"

#include <math.h>

#include "core/base/number.h"
#include "print/axis.h"
#include "print/stroke.h"
#include "print/width.h"

enum {
    LEAST_ROWS = 3,
    MOST_ROWS = 200,
    MOST_STRIPS = 12,
    CLEAR_ROWS = 2, /* of the lowest box with a letter; below that a long drawing is cut into strips */
    TOP = 2 /* title, a blank row */,
    BELOW = 3 /* floor, ruler's figures, a blank row */
};

static const double CELL_ASPECT = 2.0; /* height of a character cell to its width */

struct elevation {
    struct tc_canvas *canvas;
    const struct tc_drawing *drawing;
    bool ascii;
    double columns_each, rows_each; /* per metre */
    double cuts[MOST_STRIPS + 1];   /* where the strips start, and the last ends; m */
    int strips;
    double from, to;               /* the strip being drawn, m */
    int top, rows, start, columns; /* where that lies on the canvas */
    struct tc_axis heights;
};

/* A box in cells: from the first up to, not including, the last. */
struct place {
    int left, right, top, bottom;
};

/* Structure fills the cells between its edges, so that what touches does so here as well. */
static struct place place_of_structure(const struct elevation *e, const struct tc_box *box)
{
    struct place place;
    int floor_row = e->top + e->rows;
    place.left = e->start + (int)lround((box->x - e->from) * e->columns_each);
    place.right = e->start + (int)lround((box->x + box->width - e->from) * e->columns_each);
    place.top = floor_row - (int)lround((box->y + box->height) * e->rows_each);
    place.bottom = floor_row - (int)lround(box->y * e->rows_each);
    if (place.right <= place.left) /* never nothing */
        place.right = place.left + 1;
    if (place.bottom <= place.top)
        place.bottom = place.top + 1;
    if (place.left < e->start) /* what runs on over a cut */
        place.left = e->start;
    if (place.right > e->start + e->columns)
        place.right = e->start + e->columns;
    return place;
}

/*
 * A box with a letter is as many whole cells large as it holds, wherever it
 * stands, so that equal ones look equal; rounding its size down keeps it off
 * its neighbours.
 */
static struct place place_of(const struct elevation *e, const struct tc_box *box)
{
    struct place place;
    int columns = (int)floor(box->width * e->columns_each + 1e-6);
    int rows = (int)floor(box->height * e->rows_each + 1e-6);
    place.left = e->start + (int)lround((box->x - e->from) * e->columns_each);
    place.bottom = e->top + e->rows - (int)lround(box->y * e->rows_each);
    place.right = place.left + (columns > 0 ? columns : 1);
    place.top = place.bottom - (rows > 0 ? rows : 1);
    return place;
}

static void fill(struct elevation *e, struct place place, const char *sign)
{
    for (int row = place.top; row < place.bottom; row++)
        tc_canvas_across(e->canvas, place.left, row, place.right - place.left, TC_TONE_SOFT, sign);
}

/* The box as a shape, exactly; what runs on over a cut ends there. */
static void add_shape(struct elevation *e, const struct tc_box *box, enum tc_shape_kind kind,
                      enum tc_tone tone)
{
    double left = fmax(box->x, e->from), right = fmin(box->x + box->width, e->to);
    int floor_row = e->top + e->rows;
    if (right > left)
        tc_canvas_shape(e->canvas,
                        &(struct tc_shape){.kind = kind,
                                           .x = e->start + (left - e->from) * e->columns_each,
                                           .y = floor_row - (box->y + box->height) * e->rows_each,
                                           .to_x = e->start + (right - e->from) * e->columns_each,
                                           .to_y = floor_row - box->y * e->rows_each,
                                           .tone = tone,
                                           .letter = (char)(box->letter != ' ' ? box->letter : '\0'),
                                           .label = tc_drawing_label(e->drawing, box->letter)});
}

static void draw_structure(struct elevation *e, const struct tc_box *box)
{
    struct place place = place_of_structure(e, box);
    bool ascii = e->ascii;
    add_shape(e, box, TC_SHAPE_SOLID, TC_TONE_SOFT);
    if (place.bottom - place.top == 1 && place.right - place.left > 1)
        fill(e, place, ascii ? "=" : "═");
    else if (place.right - place.left <= 2)
        fill(e, place, ascii ? "|" : "║");
    else
        fill(e, place, ascii ? ":" : "░");
}

static enum tc_tone letter_tone(char letter)
{
    return (enum tc_tone)(TC_TONE_SERIES + (unsigned char)letter % TC_TONE_SERIES_COUNT);
}

static void draw_frame(struct elevation *e, struct place place, enum tc_tone tone)
{
    struct tc_canvas *canvas = e->canvas;
    bool ascii = e->ascii;
    int right = place.right - 1, bottom = place.bottom - 1;
    tc_canvas_across(canvas, place.left + 1, place.top, right - place.left - 1, tone, ascii ? "-" : "─");
    tc_canvas_across(canvas, place.left + 1, bottom, right - place.left - 1, tone, ascii ? "-" : "─");
    tc_canvas_down(canvas, place.left, place.top + 1, bottom - place.top - 1, tone, ascii ? "|" : "│");
    tc_canvas_down(canvas, right, place.top + 1, bottom - place.top - 1, tone, ascii ? "|" : "│");
    tc_canvas_put(canvas, place.left, place.top, tone, ascii ? "+" : "┌");
    tc_canvas_put(canvas, right, place.top, tone, ascii ? "+" : "┐");
    tc_canvas_put(canvas, place.left, bottom, tone, ascii ? "+" : "└");
    tc_canvas_put(canvas, right, bottom, tone, ascii ? "+" : "┘");
}

static void draw_box(struct elevation *e, const struct tc_box *box)
{
    const char letter[2] = {box->letter, '\0'};
    enum tc_tone tone = letter_tone(box->letter);
    struct place place = place_of(e, box);
    int width = place.right - place.left, height = place.bottom - place.top;
    add_shape(e, box, TC_SHAPE_FRAME, tone);
    for (int row = place.top; row < place.bottom; row++)
        tc_canvas_across(e->canvas, place.left, row, width, TC_TONE_PLAIN, " ");
    if (width >= 3 && height >= 3) {
        draw_frame(e, place, tone);
    } else if (width >= 3) { /* too low for a frame */
        tc_canvas_down(e->canvas, place.left, place.top, height, tone, "[");
        tc_canvas_down(e->canvas, place.right - 1, place.top, height, tone, "]");
    }
    tc_canvas_put(e->canvas, place.left + (width - 1) / 2, place.top + (height - 1) / 2, tone, letter);
}

static void draw_rulers(struct elevation *e)
{
    struct tc_canvas *canvas = e->canvas;
    const struct tc_drawing *drawing = e->drawing;
    bool ascii = e->ascii;
    char buffer[TC_NUMBER_SIZE];
    int floor_row = e->top + e->rows, last_row = floor_row + 1;
    for (int i = 0; i <= e->heights.intervals; i++) {
        double metres = tc_axis_figure(&e->heights, i) * drawing->unit_length;
        int row = floor_row - (int)lround(metres * e->rows_each);
        if (metres > drawing->height * (1 + 1e-9))
            break;
        if (row == last_row) /* no room for every figure */
            continue;
        last_row = row;
        tc_canvas_field(canvas, 0, row, e->start - 2, TC_ALIGN_RIGHT, TC_TONE_SOFT,
                        tc_axis_label(buffer, &e->heights, i), ascii);
        tc_stroke_tick(canvas, e->start - 1, row, 1, 0, ascii ? "-" : "╶");
    }
    tc_canvas_field(canvas, 0, floor_row + 1, e->start - 2, TC_ALIGN_RIGHT, TC_TONE_SOFT, drawing->unit,
                    ascii);
    tc_stroke_level(canvas, e->start, e->start + e->columns, floor_row, TC_TONE_SOFT, ascii ? "-" : "─");
    double columns = drawing->width * e->columns_each;
    struct tc_axis lengths = tc_axis_fit(0, drawing->width / drawing->unit_length, (int)columns / 8);
    for (int i = 0; i <= lengths.intervals; i++) {
        double metres = tc_axis_figure(&lengths, i) * drawing->unit_length;
        if (metres < e->from * (1 - 1e-9) || metres > e->to * (1 + 1e-9))
            continue;
        const char *text = tc_axis_label(buffer, &lengths, i);
        int column = e->start + (int)lround((metres - e->from) * e->columns_each);
        if (column >= e->start + e->columns)
            column = e->start + e->columns - 1;
        int at = column - tc_width(text) / 2;
        if (at + tc_width(text) > canvas->width)
            at = canvas->width - tc_width(text);
        tc_stroke_tick(canvas, column, floor_row, 0, -1, ascii ? "+" : "┴");
        if (tc_canvas_blank(canvas, at - 1, floor_row + 1, tc_width(text) + 1))
            tc_canvas_text(canvas, at, floor_row + 1, TC_TONE_SOFT, text);
    }
}

const char *tc_drawing_label(const struct tc_drawing *drawing, char letter)
{
    for (size_t i = 0; i < drawing->box_count; i++)
        if (drawing->boxes[i].letter == letter && drawing->boxes[i].label)
            return drawing->boxes[i].label;
    return "";
}

/* How many boxes bear the letter of the i-th; 0 if that is not the first with it, or structure. */
static int count_from_first(const struct tc_drawing *drawing, size_t i)
{
    int count = 0;
    char letter = drawing->boxes[i].letter;
    if (letter == ' ')
        return 0;
    for (size_t k = 0; k < drawing->box_count; k++) {
        if (drawing->boxes[k].letter != letter)
            continue;
        if (k < i)
            return 0;
        count++;
    }
    return count;
}

/* Writes "A  6 × label" for each letter from a row on; returns the rows taken. Without a canvas only counts.
 */
static int put_legend(struct tc_canvas *canvas, const struct tc_drawing *drawing, int row, int width,
                      bool ascii)
{
    enum { BETWEEN = 4 };
    int rows = 1, column = 0;
    for (size_t i = 0; i < drawing->box_count; i++) {
        int count = count_from_first(drawing, i);
        if (count == 0)
            continue;
        const char letter[2] = {drawing->boxes[i].letter, '\0'};
        const char *label = tc_drawing_label(drawing, letter[0]);
        char number[TC_NUMBER_SIZE];
        tc_number_write(number, count, 0, false);
        int columns = 3 + tc_width(number) + 3 + tc_width(label);
        if (column > 0 && column + columns > width) {
            column = 0;
            rows++;
        }
        if (canvas) {
            int at = tc_canvas_text(canvas, column, row + rows - 1, letter_tone(letter[0]), letter) + 2;
            at = tc_canvas_text(canvas, at, row + rows - 1, TC_TONE_PLAIN, number);
            at = tc_canvas_text(canvas, at, row + rows - 1, TC_TONE_PLAIN, ascii ? " x " : " × ");
            tc_canvas_field(canvas, at, row + rows - 1, width - at, TC_ALIGN_LEFT, TC_TONE_PLAIN, label,
                            ascii);
        }
        column += columns + BETWEEN;
    }
    return rows;
}

/* Whether a cut there would go through a box with a letter. */
static bool cuts_a_box(const struct tc_drawing *drawing, double at)
{
    const double touch = 1e-6;
    for (size_t i = 0; i < drawing->box_count; i++) {
        const struct tc_box *box = &drawing->boxes[i];
        if (box->letter != ' ' && box->x < at - touch && box->x + box->width > at + touch)
            return true;
    }
    return false;
}

/* Where a strip that starts at `from` ends: before the last box with a letter that does not fit, if that can
 * be. */
static double strip_end(const struct tc_drawing *drawing, double from, double length)
{
    double end = from;
    if (from + length >= drawing->width * (1 - 1e-9))
        return drawing->width;
    for (size_t i = 0; i < drawing->box_count; i++) {
        double at = drawing->boxes[i].x;
        if (drawing->boxes[i].letter != ' ' && at > end && at <= from + length && !cuts_a_box(drawing, at))
            end = at;
    }
    return end > from + length / 4 ? end : from + length;
}

/* Cuts the drawing into strips of at most that length; false if they would be too many. */
static bool cut(struct elevation *e, double length)
{
    e->cuts[0] = 0;
    for (e->strips = 1; e->strips <= MOST_STRIPS; e->strips++) {
        e->cuts[e->strips] = strip_end(e->drawing, e->cuts[e->strips - 1], length);
        if (e->cuts[e->strips] >= e->drawing->width)
            return true;
    }
    return false;
}

/* The lowest box with a letter, m; 0 if there is none. */
static double lowest_box(const struct tc_drawing *drawing)
{
    double lowest = 0;
    for (size_t i = 0; i < drawing->box_count; i++) {
        const struct tc_box *box = &drawing->boxes[i];
        if (box->letter != ' ' && (lowest <= 0 || box->height < lowest))
            lowest = box->height;
    }
    return lowest;
}

static int figure_width(const struct elevation *e)
{
    char buffer[TC_NUMBER_SIZE];
    int widest = tc_width(e->drawing->unit);
    for (int i = 0; i <= e->heights.intervals; i++) {
        int columns = tc_width(tc_axis_label(buffer, &e->heights, i));
        widest = columns > widest ? columns : widest;
    }
    return widest;
}

/* A length that fills the canvas; cut into strips where that leaves boxes hard to see, if it may grow. */
static void set_scale(struct elevation *e, int columns, int most_rows, bool may_grow)
{
    const struct tc_drawing *drawing = e->drawing;
    double length = drawing->width;
    double clear = lowest_box(drawing) * columns / CELL_ASPECT / CLEAR_ROWS; /* longer strips are too low */
    if (may_grow && clear > 0 && clear < length && cut(e, clear))
        length = clear;
    else
        cut(e, length);
    e->columns_each = columns / length;
    if (e->columns_each / CELL_ASPECT * drawing->height > most_rows) {
        e->columns_each = most_rows * CELL_ASPECT / drawing->height;
        cut(e, drawing->width);
    }
    e->rows_each = e->columns_each / CELL_ASPECT;
    e->rows = (int)lround(drawing->height * e->rows_each);
    if (e->rows < 1)
        e->rows = 1;
}

static void draw_strip(struct elevation *e)
{
    const struct tc_drawing *drawing = e->drawing;
    e->columns = (int)lround((e->to - e->from) * e->columns_each);
    if (e->columns < 1)
        e->columns = 1;
    for (size_t i = 0; i < drawing->box_count; i++)
        if (drawing->boxes[i].letter == ' ')
            draw_structure(e, &drawing->boxes[i]);
    for (size_t i = 0; i < drawing->box_count; i++) {
        const struct tc_box *box = &drawing->boxes[i];
        double middle = box->x + box->width / 2;
        if (box->letter != ' ' && middle >= e->from && (middle < e->to || e->to >= drawing->width))
            draw_box(e, box);
    }
    draw_rulers(e);
}

enum tc_status tc_drawing_draw(struct tc_canvas *canvas, const struct tc_drawing *drawing, int width,
                               int height, bool ascii)
{
    struct elevation e = {.canvas = canvas, .drawing = drawing, .ascii = ascii, .top = TOP};
    if (!(drawing->width > 0 && drawing->height > 0 && drawing->unit_length > 0))
        return TC_RANGE;
    if (width < TC_DRAWING_LEAST_WIDTH)
        width = TC_DRAWING_LEAST_WIDTH;
    int legend = put_legend(NULL, drawing, 0, width, ascii);
    int most_rows = height > 0 ? height - TOP - BELOW - legend : MOST_ROWS;
    e.heights = tc_axis_fit(0, drawing->height / drawing->unit_length, 5);
    e.start = figure_width(&e) + 2;
    set_scale(&e, width - e.start - 1, most_rows < LEAST_ROWS ? LEAST_ROWS : most_rows, height <= 0);
    enum tc_status status = tc_canvas_start(canvas, width, TOP + e.strips * (e.rows + BELOW) + legend);
    if (status != TC_OK)
        return status;
    tc_canvas_field(canvas, 0, 0, width, TC_ALIGN_LEFT, TC_TONE_STRONG, drawing->title, ascii);
    for (int i = 0; i < e.strips; i++) {
        e.from = e.cuts[i];
        e.to = e.cuts[i + 1];
        draw_strip(&e);
        e.top += e.rows + BELOW;
    }
    put_legend(canvas, drawing, e.top, width, ascii);
    return tc_canvas_status(canvas);
}
