/* SPDX-License-Identifier: MIT */
/*
 * document.h - the plan and its file: the one owner of which plans are open,
 * what their files hold, what is not saved yet, and what is kept when the
 * program is ended.
 *
 * A plan that is left for another one stays open with its changes until it is
 * saved or the program is left, which asks for each. See state.h.
 */
#ifndef TC_SCREEN_DOCUMENT_H
#define TC_SCREEN_DOCUMENT_H

#include "screen/state.h"

/*
 * Asks for the name of the file, and saves the plan there. A file that would be
 * replaced is asked about, and so is the plan's own where it no longer holds
 * what was read from it.
 */
void tc_document_save(struct tc_state *state, int unused);

/* Opens another plan by its name: one of the session with its changes, or else one of the stock. */
void tc_document_open(struct tc_state *state, const char *name);

/* Begins another plan, of that name where none has it, with all that is said in it still to be saved. */
void tc_document_begin(struct tc_state *state, const struct tc_plan *plan, const char *name);

/* Leaves, after a question where a plan of the session is not saved. */
void tc_document_leave(struct tc_state *state, int unused);

/* Keeps what is not saved, as the program is being ended from outside. */
void tc_document_keep(struct tc_state *state);

/* Offers what was kept when the program was ended last. */
void tc_document_offer_kept(struct tc_state *state);

/* The user has left, and said what is to become of each plan: nothing is kept any longer. */
void tc_document_end(struct tc_state *state);

#endif
