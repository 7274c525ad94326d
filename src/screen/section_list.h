/* SPDX-License-Identifier: MIT */
/*
 * section_list.h - the kinds of sections of profiles, and the sections of one
 * kind: gone on to their forms (form.h), made, copied and deleted.
 */
#ifndef TC_SCREEN_SECTION_LIST_H
#define TC_SCREEN_SECTION_LIST_H

#include "screen/list.h"

/* Opens the list of the kinds of sections there are, to go on to those of one. */
void tc_section_kinds(struct tc_state *state, int unused);

#endif
