/* SPDX-License-Identifier: MIT */
/* hints.h - the line that says what can be done here, by which keys. */
#ifndef TC_SCREEN_HINTS_H
#define TC_SCREEN_HINTS_H

#include "print/canvas.h"
#include "screen/state.h"

/* What the keys of the layer on top do, as many as fit into that many columns; the key for help always. */
void tc_hints_draw(const struct tc_state *state, struct tc_canvas *canvas, int column, int row, int columns);

#endif
