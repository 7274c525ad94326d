/* SPDX-License-Identifier: MIT */
/* body_draw.h - draws a laid-out sheet (body.h), line by line, onto a canvas. */
#ifndef TC_SCREEN_BODY_DRAW_H
#define TC_SCREEN_BODY_DRAW_H

#include <stddef.h>

#include "print/canvas.h"
#include "screen/body.h"

/* What of a body is looked at. */
struct tc_look_at {
    size_t left;      /* the first column shown */
    size_t line;      /* the selected line; beyond the last where none is */
    size_t column;    /* the selected column */
    const char *find; /* rows that hold this text are marked; "" marks none */
};

/* Draws the column heads from a row of the canvas on: body->head_height of them. */
void tc_body_draw_heads(const struct tc_body *body, const struct tc_look_at *at, struct tc_canvas *canvas,
                        int start, int row);

/* Draws one line at a row, its first column at `start`. */
void tc_body_draw_line(const struct tc_body *body, size_t line, const struct tc_look_at *at,
                       struct tc_canvas *canvas, int start, int row);

/* Draws the pictures that stand beside the table, and the notes under them, from a row on. */
void tc_body_draw_beside(const struct tc_body *body, const struct tc_look_at *at, struct tc_canvas *canvas,
                         int start, int row);

/* Where the cursor stands if that line is selected: columns from the body's start. */
int tc_body_cursor(const struct tc_body *body, const struct tc_look_at *at);

/* True if text holds every word of find, in any order, whatever the case of ASCII letters. */
bool tc_text_holds(const char *text, const char *find);

/* True if any text of a line's row, sentence or note holds it. */
bool tc_body_holds(const struct tc_body *body, size_t line, const char *find);

/* Likewise of the notes that stand beside the table, which cannot be selected. */
bool tc_body_holds_beside(const struct tc_body *body, const char *find);

#endif
