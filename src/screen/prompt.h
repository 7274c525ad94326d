/* SPDX-License-Identifier: MIT */
/* prompt.h - a line to type: what it is for is a record that the opener hands over. See state.h. */
#ifndef TC_SCREEN_PROMPT_H
#define TC_SCREEN_PROMPT_H

#include "screen/state.h"

struct tc_prompt_kind {
    const char *title, *hint; /* to begin with; "" where the opener writes its own */
    /* Enter: takes the text and closes the prompt, or says in prompt.problem why not. */
    void (*taken)(struct tc_state *state, const char *text);
    void (*changed)(struct tc_state *state, const char *text); /* after each change of the text; or NULL */
    void (*left)(struct tc_state *state);                      /* Esc, before it closes; or NULL */
    bool on_top; /* at the top of the screen, where it hides nothing of the sheet */
};

/* Opens a prompt, with a text to begin with. Title, hint and place can be changed afterwards. */
void tc_prompt_open(struct tc_state *state, const struct tc_prompt_kind *kind, const char *text);

/* Says in the prompt what is wrong with what was typed; returns false. */
bool tc_prompt_refuse(struct tc_state *state, const char *format, ...) TC_PRINTF(2, 3);

/* The same, by the last fault of a list, or where it has none by a status. */
void tc_prompt_refuse_by(struct tc_state *state, const struct tc_faults *faults, enum tc_status status);

/* What the keys do. */
void tc_prompt_type(struct tc_state *state, uint32_t code);
void tc_prompt_enter(struct tc_state *state, int unused);
void tc_prompt_leave(struct tc_state *state, int unused);
void tc_prompt_clear(struct tc_state *state, int unused);

#endif
