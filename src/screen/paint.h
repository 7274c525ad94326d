/* SPDX-License-Identifier: MIT */
/* paint.h - texts, frames and lines of keys on a canvas, as every part of the view needs them. */
#ifndef TC_SCREEN_PAINT_H
#define TC_SCREEN_PAINT_H

#include <stdbool.h>

#include "print/canvas.h"
#include "screen/input.h"
#include "screen/style_role.h"

/* The cells of a panel, its frame included. */
struct tc_panel {
    int column, row, width, height;
};

/* Where the terminal's own cursor stands: on what is selected or typed. */
struct tc_cursor {
    int column, row;
};

/* Writes a text of any origin into that many columns, cut with an ellipsis; returns the columns it took. */
int tc_paint_text(struct tc_canvas *canvas, int column, int row, int columns, unsigned role, const char *text,
                  bool ascii);

/* Writes a text over at most that many rows, wrapped; returns the rows it took. */
int tc_paint_paragraph(struct tc_canvas *canvas, int column, int row, int columns, int rows, unsigned role,
                       const char *text, bool ascii);

/* How many rows it would take. */
int tc_paint_height(const char *text, int columns);

/* Writes the few words of a caution, led by that word; returns the columns they took or would take. */
int tc_paint_caution(struct tc_canvas *canvas, int column, int row, int columns, const char *text,
                     bool ascii);
int tc_paint_caution_width(const char *text);

/* A water line: what runs on from titles, and frames what lies over the sheet. */
void tc_paint_water(struct tc_canvas *canvas, int column, int row, int columns, bool ascii);

/* Clears the place of a panel and frames it, with a title in the frame. */
void tc_paint_panel(struct tc_canvas *canvas, const struct tc_panel *panel, const char *title, bool ascii);

/* A line being typed, scrolled so that the place of typing is in sight; returns the column of that place. */
int tc_paint_input(struct tc_canvas *canvas, int column, int row, int columns, const struct tc_input *input,
                   bool ascii);

#endif
