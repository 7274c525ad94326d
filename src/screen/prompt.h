/* SPDX-License-Identifier: MIT */
/* prompt.h - a line to type, for whatever it is: opened, typed into, taken or left. See state.h. */
#ifndef TC_SCREEN_PROMPT_H
#define TC_SCREEN_PROMPT_H

#include "screen/state.h"

/* Opens a prompt, with a text to begin with. Title, hint and place can be changed afterwards. */
void tc_prompt_open(struct tc_state *state, enum tc_prompt_kind kind, const char *text);

void tc_prompt_type(struct tc_state *state, uint32_t code);
void tc_prompt_enter(struct tc_state *state, int unused);
void tc_prompt_leave(struct tc_state *state, int unused);
void tc_prompt_clear(struct tc_state *state, int unused);

#endif
