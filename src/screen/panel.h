/* SPDX-License-Identifier: MIT */
/* panel.h - where what lies over the sheet is placed on the screen. */
#ifndef TC_SCREEN_PANEL_H
#define TC_SCREEN_PANEL_H

#include "screen/paint.h"
#include "screen/state.h"

/* An open list, by its place in state->lists; the row of the screen on which its first choice stands. */
struct tc_panel tc_panel_list(const struct tc_state *state, int which);
int tc_panel_list_start(const struct tc_panel *panel);

/* A prompt; a page; a question. */
struct tc_panel tc_panel_prompt(const struct tc_state *state);
struct tc_panel tc_panel_pager(const struct tc_state *state);
struct tc_panel tc_panel_confirm(const struct tc_state *state);

#endif
