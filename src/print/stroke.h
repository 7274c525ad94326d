/* SPDX-License-Identifier: MIT */
/*
 * stroke.h - the strokes that pictures are made of: as signs in the cells of a
 * canvas, as fine as its device has them, and as shapes where these are kept.
 *
 * Places are exact and in cells (shape.h); which cells a stroke takes is decided
 * here alone.
 */
#ifndef TC_PRINT_STROKE_H
#define TC_PRINT_STROKE_H

#include <stdbool.h>

#include "print/canvas.h"

/*
 * A bar along a row from x to to_x, filled as a series. The end of a solid one is
 * drawn to an eighth of a column where the canvas is fine.
 */
void tc_stroke_bar(struct tc_canvas *canvas, double x, double to_x, int row, size_t series, const char *label,
                   bool ascii);

/*
 * A line between two places, its ends left out: dots, or braille where the canvas is fine, in cells where
 * nothing else stands.
 */
void tc_stroke_line(struct tc_canvas *canvas, double x, double y, double to_x, double to_y, size_t series,
                    bool ascii);

/* The point of a series at a place, with the sign given. */
void tc_stroke_point(struct tc_canvas *canvas, double x, double y, size_t series, const char *sign,
                     const char *label);

/* A level rule up to the cell of to_x, and a soft upright one, of that kind of shape, with the sign given. */
void tc_stroke_level(struct tc_canvas *canvas, double x, double to_x, int row, enum tc_tone tone,
                     const char *sign);
void tc_stroke_upright(struct tc_canvas *canvas, enum tc_shape_kind kind, double x, int row, int rows,
                       const char *sign);

/* A short upright stroke at a place on a level rule: one of its ends, or a place that matters on it. */
void tc_stroke_end(struct tc_canvas *canvas, double x, int row, enum tc_tone tone, const char *sign,
                   const char *label);

/* A tick of a soft rule that goes through this cell: half a cell to a side (-1, 0 or 1 in each direction). */
void tc_stroke_tick(struct tc_canvas *canvas, int column, int row, int across, int down, const char *sign);

/* Where an upright rule above and a level one at the right meet. */
void tc_stroke_corner(struct tc_canvas *canvas, int column, int row, const char *sign);

#endif
