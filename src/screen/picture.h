/* SPDX-License-Identifier: MIT */
/* picture.h - a sheet's drawing and charts, one at a time and large. See state.h. */
#ifndef TC_SCREEN_PICTURE_H
#define TC_SCREEN_PICTURE_H

#include "print/canvas.h"
#include "screen/state.h"

/* How many the present sheet has: its drawing, then its charts. */
size_t tc_picture_count(const struct tc_state *state);

/* Draws the one looked at on a canvas that it makes; TC_RANGE where there is none, TC_NO_MEMORY. */
enum tc_status tc_picture_draw(const struct tc_state *state, struct tc_canvas *canvas, int width, int height);

/* Whether the picture shown is the sheet's drawing, not a chart. */
bool tc_picture_is_drawing(const struct tc_state *state);

/* What the keys do. */
void tc_picture_open(struct tc_state *state, int unused);
bool tc_picture_possible(const struct tc_state *state);
bool tc_picture_more(const struct tc_state *state);
void tc_picture_next(struct tc_state *state, int by);
void tc_picture_leave(struct tc_state *state, int unused);

#endif
