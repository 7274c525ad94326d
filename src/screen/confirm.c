/* SPDX-License-Identifier: MIT */
#include "screen/confirm.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "screen/change.h"
#include "screen/saving.h"

static void ask(struct tc_state *state, enum tc_confirm_kind kind, const char *path)
{
    state->confirm.kind = kind;
    tc_clean(state->confirm.path, sizeof state->confirm.path, path);
    tc_state_push(state, TC_LAYER_CONFIRM);
}

void tc_confirm_leave(struct tc_state *state, int unused)
{
    (void)unused;
    if (!tc_state_changed(state)) {
        state->leave = true;
        return;
    }
    ask(state, TC_CONFIRM_LEAVE, "");
    snprintf(state->confirm.text, sizeof state->confirm.text, "The plan has changed and is not saved.");
}

/* The other plan is a step like others: it can be taken back. */
static void open_plan(struct tc_state *state, const char *name)
{
    const struct tc_plan *plan = tc_stock_plan(state->options->stock, name);
    const char *file;
    int line;
    if (!plan)
        return;
    tc_change_plan(state, plan);
    memcpy(&state->saved, plan, sizeof state->saved);
    bool known = tc_stock_where(state->options->stock, "plan", name, &file, &line);
    tc_document_place(&state->now, known ? file : NULL);
    tc_state_say(state, "Plan %s", name);
}

void tc_confirm_open(struct tc_state *state, const char *name)
{
    if (!tc_state_changed(state)) {
        open_plan(state, name);
        return;
    }
    ask(state, TC_CONFIRM_OPEN, name);
    snprintf(state->confirm.text, sizeof state->confirm.text,
             "The plan has changed and is not saved; u will bring it back from %s.", name);
}

void tc_confirm_replace(struct tc_state *state, enum tc_confirm_kind kind, const char *path)
{
    ask(state, kind, path);
    snprintf(state->confirm.text, sizeof state->confirm.text, "%s is there already and would be replaced.",
             path);
}

bool tc_confirm_leaving(const struct tc_state *state)
{
    return state->confirm.kind == TC_CONFIRM_LEAVE;
}

bool tc_confirm_not_leaving(const struct tc_state *state)
{
    return !tc_confirm_leaving(state);
}

bool tc_confirm_save_possible(const struct tc_state *state)
{
    return state->confirm.kind == TC_CONFIRM_LEAVE || state->confirm.kind == TC_CONFIRM_OPEN;
}

void tc_confirm_save(struct tc_state *state, int unused)
{
    (void)unused;
    tc_state_pop(state);
    tc_saving_save(state, 0);
    bool opens = state->confirm.kind == TC_CONFIRM_OPEN;
    state->prompt.then = opens ? TC_THEN_OPEN : TC_THEN_LEAVE;
    if (opens)
        tc_clean(state->prompt.then_name, sizeof state->prompt.then_name, state->confirm.path);
}

void tc_confirm_no(struct tc_state *state, int unused)
{
    (void)unused;
    tc_state_pop(state);
}

void tc_confirm_yes(struct tc_state *state, int unused)
{
    (void)unused;
    tc_state_pop(state);
    switch (state->confirm.kind) {
    case TC_CONFIRM_LEAVE: state->leave = true; break;
    case TC_CONFIRM_OPEN: open_plan(state, state->confirm.path); break;
    case TC_CONFIRM_REPLACE_PLAN: tc_saving_replace_plan(state, state->confirm.path); break;
    case TC_CONFIRM_REPLACE_SHEET: tc_saving_replace_sheet(state, state->confirm.path); break;
    }
}
