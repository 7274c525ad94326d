/* SPDX-License-Identifier: MIT */
#include "print/drawing.h"

#include <math.h>

#include <stddef.h>

#include "core/number.h"
#include "print/axis.h"
#include "print/width.h"

enum {
    LEAST_ROWS = 3,
    MOST_ROWS = 200,
    TOP = 2 /* title, a blank row */,
    BELOW = 3 /* floor, ruler's figures, a blank row */
};

static const double CELL_ASPECT = 2.0; /* height of a character cell to its width */

struct elevation {
    struct tc_canvas *canvas;
    const struct tc_drawing *drawing;
    bool ascii;
    double columns_each, rows_each; /* per metre */
    int top, rows, start, columns;  /* where the drawing lies on the canvas */
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
    place.left = e->start + (int)lround(box->x * e->columns_each);
    place.right = e->start + (int)lround((box->x + box->width) * e->columns_each);
    place.top = floor_row - (int)lround((box->y + box->height) * e->rows_each);
    place.bottom = floor_row - (int)lround(box->y * e->rows_each);
    if (place.right <= place.left) /* never nothing */
        place.right = place.left + 1;
    if (place.bottom <= place.top)
        place.bottom = place.top + 1;
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
    place.left = e->start + (int)lround(box->x * e->columns_each);
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

static void draw_structure(struct elevation *e, const struct tc_box *box)
{
    struct place place = place_of_structure(e, box);
    bool ascii = e->ascii;
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
        tc_canvas_put(canvas, e->start - 1, row, TC_TONE_SOFT, ascii ? "-" : "╶");
    }
    tc_canvas_field(canvas, 0, floor_row + 1, e->start - 2, TC_ALIGN_RIGHT, TC_TONE_SOFT, drawing->unit,
                    ascii);
    tc_canvas_across(canvas, e->start, floor_row, e->columns, TC_TONE_SOFT, ascii ? "-" : "─");
    struct tc_axis lengths = tc_axis_fit(0, drawing->width / drawing->unit_length, e->columns / 8);
    for (int i = 0; i <= lengths.intervals; i++) {
        double metres = tc_axis_figure(&lengths, i) * drawing->unit_length;
        if (metres > drawing->width * (1 + 1e-9))
            break;
        const char *text = tc_axis_label(buffer, &lengths, i);
        int column = e->start + (int)lround(metres * e->columns_each);
        if (column >= e->start + e->columns)
            column = e->start + e->columns - 1;
        tc_canvas_put(canvas, column, floor_row, TC_TONE_SOFT, ascii ? "+" : "┴");
        tc_canvas_text(canvas, column - tc_width(text) / 2, floor_row + 1, TC_TONE_SOFT, text);
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

/* Sets the scale and the place of the drawing on a canvas; most_rows is what it may take. */
static void measure(struct elevation *e, int width, int most_rows)
{
    const struct tc_drawing *drawing = e->drawing;
    char buffer[TC_NUMBER_SIZE];
    e->heights = tc_axis_fit(0, drawing->height / drawing->unit_length, 5);
    int figures = tc_width(drawing->unit);
    for (int i = 0; i <= e->heights.intervals; i++) {
        int columns = tc_width(tc_axis_label(buffer, &e->heights, i));
        figures = columns > figures ? columns : figures;
    }
    e->start = figures + 2;
    e->top = TOP;
    e->columns_each = (width - e->start - 1) / drawing->width;
    if (e->columns_each / CELL_ASPECT * drawing->height > most_rows)
        e->columns_each = most_rows * CELL_ASPECT / drawing->height;
    e->rows_each = e->columns_each / CELL_ASPECT;
    e->columns = (int)lround(drawing->width * e->columns_each);
    e->rows = (int)lround(drawing->height * e->rows_each);
    if (e->columns < 1)
        e->columns = 1;
    if (e->rows < 1)
        e->rows = 1;
}

enum tc_status tc_drawing_draw(struct tc_canvas *canvas, const struct tc_drawing *drawing, int width,
                               int height, bool ascii)
{
    struct elevation e = {.canvas = canvas, .drawing = drawing, .ascii = ascii};
    if (!(drawing->width > 0 && drawing->height > 0 && drawing->unit_length > 0))
        return TC_RANGE;
    if (width < TC_DRAWING_LEAST_WIDTH)
        width = TC_DRAWING_LEAST_WIDTH;
    int legend = put_legend(NULL, drawing, 0, width, ascii);
    int most_rows = height > 0 ? height - TOP - BELOW - legend : MOST_ROWS;
    measure(&e, width, most_rows < LEAST_ROWS ? LEAST_ROWS : most_rows);
    enum tc_status status = tc_canvas_start(canvas, width, e.top + e.rows + BELOW + legend);
    if (status != TC_OK)
        return status;
    tc_canvas_field(canvas, 0, 0, width, TC_ALIGN_LEFT, TC_TONE_STRONG, drawing->title, ascii);
    for (size_t i = 0; i < drawing->box_count; i++)
        if (drawing->boxes[i].letter == ' ')
            draw_structure(&e, &drawing->boxes[i]);
    for (size_t i = 0; i < drawing->box_count; i++)
        if (drawing->boxes[i].letter != ' ')
            draw_box(&e, &drawing->boxes[i]);
    draw_rulers(&e);
    put_legend(canvas, drawing, e.top + e.rows + BELOW, width, ascii);
    return TC_OK;
}
