/* SPDX-License-Identifier: MIT */
/*
 * reload.h - the profiles read again while the screen runs: after something
 * was saved, and where another program has changed a file.
 */
#ifndef TC_SCREEN_RELOAD_H
#define TC_SCREEN_RELOAD_H

#include "screen/state.h"

/*
 * Reads all profiles again, and outdates what was made from them. Plans of the
 * session that have no unsaved changes are as their files have them then. Where
 * memory runs out, all stays as it is.
 */
void tc_reload(struct tc_state *state);

/* The same where a file was changed since it was read; true if so. Costs no more than a look at each file. */
bool tc_reload_if_changed(struct tc_state *state);

/* What was wrong with the profiles when they were read last; NULL where that is not known. */
const struct tc_faults *tc_reload_faults(const struct tc_state *state);

#endif
