/* SPDX-License-Identifier: MIT */
/* figure.h - a figure of the plan asked for: by a line to type, or by a list where it is chosen. See state.h.
 */
#ifndef TC_SCREEN_FIGURE_H
#define TC_SCREEN_FIGURE_H

#include "screen/state.h"

/*
 * Asks for the figure at a path: with a prompt, or where it is a name or a word
 * with a list to choose from. The prompt begins with what is in force now;
 * typed, if not 0, is a character that takes its place at once.
 */
void tc_figure_ask(struct tc_state *state, const char *path, uint32_t typed);

#endif
