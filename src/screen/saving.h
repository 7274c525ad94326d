/* SPDX-License-Identifier: MIT */
/* saving.h - plans saved and sheets written to files: what those keys do. See state.h. */
#ifndef TC_SCREEN_SAVING_H
#define TC_SCREEN_SAVING_H

#include "screen/state.h"

/* Open a prompt for the name of the file. */
void tc_saving_save(struct tc_state *state, int unused);
void tc_saving_write(struct tc_state *state, int unused);

/* Take what was typed there; a file that would be replaced is asked about first. */
void tc_saving_save_as(struct tc_state *state, const char *text);
void tc_saving_write_to(struct tc_state *state, const char *text);

/* The answer was yes. */
void tc_saving_replace_plan(struct tc_state *state, const char *path);
void tc_saving_replace_sheet(struct tc_state *state, const char *path);

#endif
