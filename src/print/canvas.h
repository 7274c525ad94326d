/* SPDX-License-Identifier: MIT */
/*
 * canvas.h - a picture of characters: what charts and drawings are drawn on,
 * and what text output and the screen show.
 *
 *     struct tc_canvas canvas = TC_CANVAS_EMPTY;
 *     status = tc_chart_draw(&canvas, ...);
 *     ...read the cells...
 *     tc_canvas_free(&canvas);
 *
 * Drawing beyond the edges is ignored.
 *
 * A canvas with `vector` set also keeps the shapes (shape.h) that its signs stand
 * for, so that a device which can draw (svg.h) shows the same picture with the
 * same layout; it then takes the texts from the cells and all else from the shapes.
 */
#ifndef TC_PRINT_CANVAS_H
#define TC_PRINT_CANVAS_H

#include <stdbool.h>
#include <stddef.h>

#include "core/base/status.h"
#include "print/pen.h"
#include "print/shape.h"
#include "print/width.h"

enum tc_align { TC_ALIGN_LEFT, TC_ALIGN_RIGHT };

/* One cell: a character with its combining marks in UTF-8, always ended; "" is the right half of a wide one.
 */
struct tc_glyph {
    char text[15];
    unsigned char tone; /* enum tc_tone */
    bool sign;          /* stands for a shape or a rule; else it is text */
};

struct tc_canvas {
    int width, height;       /* cells; row 0 is the top */
    struct tc_glyph *glyphs; /* owned: height rows of width */
    bool fine;               /* set by the owner: the device has braille and eighths of blocks */
    bool vector;             /* set by the owner: keep the shapes */
    struct tc_shape *shapes; /* owned, in the order in which they were drawn */
    size_t shape_count, shape_capacity;
    bool failed; /* a shape could not be kept */
};

#define TC_CANVAS_EMPTY                                                                                      \
    {                                                                                                        \
        .width = 0                                                                                           \
    }

enum { TC_CANVAS_MOST = 10000 }; /* the largest width or height */

/*
 * Makes the canvas so large and all blank; what it held is gone, what the owner
 * has set stays. Sizes below 1 become 1, above TC_CANVAS_MOST that. TC_NO_MEMORY
 * leaves it empty.
 */
enum tc_status tc_canvas_start(struct tc_canvas *canvas, int width, int height);
void tc_canvas_free(struct tc_canvas *canvas);

/* Keeps a shape with a copy of its texts, if shapes are kept; cells are not touched. */
void tc_canvas_shape(struct tc_canvas *canvas, const struct tc_shape *shape);

/* What a drawing ends with: TC_OK, or TC_NO_MEMORY and an empty canvas if a shape was lost. */
enum tc_status tc_canvas_status(struct tc_canvas *canvas);

/* Adds blank rows below until it is so high; nothing happens if it is. TC_NO_MEMORY leaves it as it was. */
enum tc_status tc_canvas_grow(struct tc_canvas *canvas, int height);

/* Copies columns [from, from + count) of a row of another canvas to a place on this one. */
void tc_canvas_copy(struct tc_canvas *canvas, int column, int row, const struct tc_canvas *other, int from,
                    int count, int other_row);

/* The cell at a column and row, or NULL outside. */
struct tc_glyph *tc_canvas_at(const struct tc_canvas *canvas, int column, int row);

/* Puts a sign of one column. */
void tc_canvas_put(struct tc_canvas *canvas, int column, int row, enum tc_tone tone, const char *sign);

/* Puts a sign of one column count times to the right of, or below, a cell. */
void tc_canvas_across(struct tc_canvas *canvas, int column, int row, int count, enum tc_tone tone,
                      const char *sign);
void tc_canvas_down(struct tc_canvas *canvas, int column, int row, int count, enum tc_tone tone,
                    const char *sign);

/* Writes a text, or length bytes of one, from a column on, cut at the right edge; returns the column after
 * it. */
int tc_canvas_text(struct tc_canvas *canvas, int column, int row, enum tc_tone tone, const char *text);
int tc_canvas_bytes(struct tc_canvas *canvas, int column, int row, enum tc_tone tone, const char *text,
                    size_t length);

/* Writes a text into a field of that many columns, cut with an ellipsis if it is wider. */
void tc_canvas_field(struct tc_canvas *canvas, int column, int row, int columns, enum tc_align align,
                     enum tc_tone tone, const char *text, bool ascii);

/* True if all of count cells from a column on are blank (or outside). */
bool tc_canvas_blank(const struct tc_canvas *canvas, int column, int row, int count);

/* Writes the canvas as lines. */
void tc_canvas_write(const struct tc_canvas *canvas, struct tc_pen *pen);

#endif
