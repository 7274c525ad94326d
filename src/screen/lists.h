/* SPDX-License-Identifier: MIT */
/*
 * lists.h - all the lists to choose from. What each holds, with what a user
 * wants to know before choosing, and what choosing does, is a record here or
 * in list_*.c.
 */
#ifndef TC_SCREEN_LISTS_H
#define TC_SCREEN_LISTS_H

#include "screen/list.h"

enum tc_lists {
    TC_LISTS_TANKS, /* several: each is added, counted and taken out */
    TC_LISTS_SETUPS,
    TC_LISTS_REGIONS,
    TC_LISTS_BUYING,     /* how all candidates are bought */
    TC_LISTS_BUYING_ONE, /* how one is */
    TC_LISTS_SLOTS,      /* of a candidate, to go on to the parts of one */
    TC_LISTS_PLANS,
    TC_LISTS_QUESTIONS
};

/* Opens one of them (enum tc_lists), about the candidate the cursor is on where it is about one. */
void tc_lists_open(struct tc_state *state, int which);

/* Opens the parts offered for a slot of a candidate. */
void tc_lists_open_parts(struct tc_state *state, int candidate, enum tc_slot slot);

/* Opens the setups for one candidate alone. */
void tc_lists_open_setup(struct tc_state *state, int candidate);

/* Opens the parts of the slot that the selected cell is about, or else the list of slots. */
void tc_lists_open_part(struct tc_state *state, int unused);

#endif
