/* SPDX-License-Identifier: MIT */
/* document.h - the plan and its file: saved, another one opened, left. See state.h. */
#ifndef TC_SCREEN_DOCUMENT_H
#define TC_SCREEN_DOCUMENT_H

#include "screen/state.h"

/* Asks for the name of the file, and saves the plan there; a file that would be replaced is asked about. */
void tc_document_save(struct tc_state *state, int unused);

/* Opens another plan of the stock; leaves. Both ask first where the plan is not saved. */
void tc_document_open(struct tc_state *state, const char *name);
void tc_document_leave(struct tc_state *state, int unused);

#endif
