/* SPDX-License-Identifier: MIT */
/*
 * confirm.h - a question before something is lost: what it is about and what
 * follows the answers is a record that the asker hands over. See state.h.
 */
#ifndef TC_SCREEN_CONFIRM_H
#define TC_SCREEN_CONFIRM_H

#include "screen/state.h"

/* An answer beside Esc, which always goes back and changes nothing. */
struct tc_confirm_answer {
    uint32_t event;
    const char *label; /* "go ahead" */
    void (*act)(struct tc_state *state);
};

enum { TC_CONFIRM_ANSWERS = 3 };

struct tc_confirm_kind {
    struct tc_confirm_answer answers[TC_CONFIRM_ANSWERS]; /* ended by one without an event, where fewer */
};

/* Asks, about a path or name that the answers find in state->confirm.path ("" where there is none). */
void tc_confirm_ask(struct tc_state *state, const struct tc_confirm_kind *kind, const char *path,
                    const char *format, ...) TC_PRINTF(4, 5);

/* The i-th answer to the present question; NULL past the last. */
const struct tc_confirm_answer *tc_confirm_answer_at(const struct tc_state *state, size_t i);

/* Takes an answer, which closes the question; a key that is none does nothing. */
void tc_confirm_type(struct tc_state *state, uint32_t code);

/* Goes back. */
void tc_confirm_leave(struct tc_state *state, int unused);

#endif
