/* SPDX-License-Identifier: MIT */
/* slip.h - a line to type, for whatever it is: opened, typed into, taken or left. See state.h. */
#ifndef TC_SCREEN_SLIP_H
#define TC_SCREEN_SLIP_H

#include "screen/state.h"

/* Opens a slip, with a text to begin with. Title, hint and place can be changed afterwards. */
void tc_slip_open(struct tc_state *state, enum tc_slip_kind kind, const char *text);

void tc_slip_type(struct tc_state *state, uint32_t code);
void tc_slip_enter(struct tc_state *state, int unused);
void tc_slip_leave(struct tc_state *state, int unused);
void tc_slip_clear(struct tc_state *state, int unused);

#endif
