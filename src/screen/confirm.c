/* SPDX-License-Identifier: MIT */
#include "screen/confirm.h"

#include <stdarg.h>
#include <stdio.h>

#include "core/base/clean.h"

void tc_confirm_ask(struct tc_state *state, const struct tc_confirm_kind *kind, const char *path,
                    const char *format, ...)
{
    va_list arguments;
    state->confirm.kind = kind;
    tc_clean(state->confirm.path, sizeof state->confirm.path, path);
    va_start(arguments, format);
    vsnprintf(state->confirm.text, sizeof state->confirm.text, format, arguments);
    va_end(arguments);
    tc_state_push(state, TC_LAYER_CONFIRM);
}

const struct tc_confirm_answer *tc_confirm_answer_at(const struct tc_state *state, size_t i)
{
    if (i >= TC_CONFIRM_ANSWERS || state->confirm.kind->answers[i].event == TC_EVENT_NONE)
        return NULL;
    return &state->confirm.kind->answers[i];
}

void tc_confirm_type(struct tc_state *state, uint32_t code)
{
    for (size_t i = 0; tc_confirm_answer_at(state, i); i++) {
        const struct tc_confirm_answer *answer = tc_confirm_answer_at(state, i);
        if (answer->event != code)
            continue;
        tc_state_pop(state);
        answer->act(state);
        return;
    }
}

void tc_confirm_leave(struct tc_state *state, int unused)
{
    (void)unused;
    tc_state_pop(state);
}
