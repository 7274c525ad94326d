/* SPDX-License-Identifier: MIT */
/*
 * drawing.h - a drawing to scale, drawn with characters.
 *
 * A cell is taken to be twice as high as wide. Boxes with a letter are frames
 * with the letter inside, boxes of structure are posts, boards or blocks by
 * their shape; a box too small for a frame is brackets or the letter alone.
 * Rulers in the drawing's unit stand left and below; then a legend says, for
 * each letter, what it is and how many of it there are.
 */
#ifndef TC_PRINT_DRAWING_H
#define TC_PRINT_DRAWING_H

#include <stdbool.h>

#include "core/base/status.h"
#include "print/canvas.h"
#include "sheet/sheet.h"

enum { TC_DRAWING_LEAST_WIDTH = 24, TC_DRAWING_LEAST_HEIGHT = 8 };

/*
 * Draws a drawing on a canvas that it makes `width` wide. With height 0 the
 * drawing fills that width; one so long that its boxes would be too low to be
 * told apart is cut into strips, one below the other, at places where no box
 * with a letter is cut. With another height it is made as large as both allow
 * (the legend and a few rows are always there). Widths and heights below the
 * least ones are raised to them. A drawing without extent is TC_RANGE;
 * TC_NO_MEMORY leaves the canvas empty.
 */
enum tc_status tc_drawing_draw(struct tc_canvas *canvas, const struct tc_drawing *drawing, int width,
                               int height, bool ascii);

/* What a letter stands for, as the first box with it says; "" for structure. */
const char *tc_drawing_label(const struct tc_drawing *drawing, char letter);

#endif
