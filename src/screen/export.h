/* SPDX-License-Identifier: MIT */
/* export.h - the present sheet written to a file: what that key does. See state.h. */
#ifndef TC_SCREEN_EXPORT_H
#define TC_SCREEN_EXPORT_H

#include "screen/state.h"

/* Asks for the name of the file, whose ending says the format; a file that would be replaced is asked about.
 */
void tc_export(struct tc_state *state, int unused);

#endif
