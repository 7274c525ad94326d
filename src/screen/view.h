/* SPDX-License-Identifier: MIT */
/*
 * view.h - the whole screen as a picture of characters.
 *
 * Drawing changes nothing and asks nothing of a terminal: the picture of a
 * state is the same everywhere, and can be compared with one that is known to
 * be right. The tones of its cells are those of style_role.h.
 */
#ifndef TC_SCREEN_VIEW_H
#define TC_SCREEN_VIEW_H

#include "core/base/status.h"
#include "print/canvas.h"
#include "screen/paint.h"
#include "screen/state.h"

/* Draws on a canvas that it makes as large as the state's screen. TC_NO_MEMORY leaves it empty. */
enum tc_status tc_view_draw(const struct tc_state *state, struct tc_canvas *canvas, struct tc_cursor *cursor);

#endif
