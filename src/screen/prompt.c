/* SPDX-License-Identifier: MIT */
#include "screen/prompt.h"

#include <stdarg.h>
#include <stdio.h>

#include "core/base/clean.h"

void tc_prompt_open(struct tc_state *state, const struct tc_prompt_kind *kind, const char *text)
{
    struct tc_prompt *prompt = &state->prompt;
    *prompt = (struct tc_prompt){.kind = kind, .before = tc_state_tab(state)->position};
    tc_clean(prompt->title, sizeof prompt->title, kind->title);
    tc_clean(prompt->hint, sizeof prompt->hint, kind->hint);
    tc_input_start(&prompt->input, text, true);
    tc_state_push(state, TC_LAYER_PROMPT);
}

bool tc_prompt_refuse(struct tc_state *state, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(state->prompt.problem, sizeof state->prompt.problem, format, arguments);
    va_end(arguments);
    return false;
}

void tc_prompt_refuse_by(struct tc_state *state, const struct tc_faults *faults, enum tc_status status)
{
    size_t count = tc_faults_count(faults);
    tc_prompt_refuse(state, "%s", count ? tc_faults_at(faults, count - 1)->text : tc_status_text(status));
}

void tc_prompt_type(struct tc_state *state, uint32_t code)
{
    struct tc_prompt *prompt = &state->prompt;
    if (!tc_input_press(&prompt->input, code))
        return;
    prompt->problem[0] = '\0';
    if (prompt->kind->changed)
        prompt->kind->changed(state, prompt->input.text);
}

void tc_prompt_clear(struct tc_state *state, int unused)
{
    (void)unused;
    tc_prompt_type(state, TC_EVENT_CLEAR_LINE);
}

void tc_prompt_leave(struct tc_state *state, int unused)
{
    (void)unused;
    if (state->prompt.kind->left)
        state->prompt.kind->left(state);
    tc_state_pop(state);
}

void tc_prompt_enter(struct tc_state *state, int unused)
{
    (void)unused;
    state->prompt.kind->taken(state, state->prompt.input.text);
}
