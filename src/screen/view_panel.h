/* SPDX-License-Identifier: MIT */
/* view_panel.h - draws what lies over the sheet. For view.c. */
#ifndef TC_SCREEN_VIEW_PANEL_H
#define TC_SCREEN_VIEW_PANEL_H

#include "screen/paint.h"
#include "screen/state.h"

/* Each draws one layer and, where it is on top, moves the cursor to what is selected or typed in it. */
void tc_view_list(const struct tc_state *state, int which, struct tc_canvas *canvas,
                  struct tc_cursor *cursor);
void tc_view_prompt(const struct tc_state *state, struct tc_canvas *canvas, struct tc_cursor *cursor);
void tc_view_pager(const struct tc_state *state, struct tc_canvas *canvas, struct tc_cursor *cursor);
void tc_view_picture(const struct tc_state *state, struct tc_canvas *canvas, struct tc_cursor *cursor);
void tc_view_confirm(const struct tc_state *state, struct tc_canvas *canvas, struct tc_cursor *cursor);

#endif
