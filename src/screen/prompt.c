/* SPDX-License-Identifier: MIT */
#include "screen/prompt.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "core/money/currency.h"
#include "screen/body_draw.h"
#include "screen/browse.h"
#include "screen/change.h"
#include "screen/saving.h"

static const struct {
    const char *title, *hint;
} words[] = {
    [TC_PROMPT_FIGURE] = {"", ""},
    [TC_PROMPT_FIND] = {"Find in this sheet", "all words have to be in a line; n goes on to the next one"},
    [TC_PROMPT_VARY] = {"What if: the assumption that varies",
                        "an assumption as in the list of a, and from where to where: region/room=18..24 C"},
    [TC_PROMPT_MONEY] = {"The money in which places are compared",
                         "three letters of ISO 4217, like USD; nothing: that of the plan's region"},
    [TC_PROMPT_SAVE] = {"Save the plan as", "a name, or a file's path that ends in .ini"},
    [TC_PROMPT_WRITE] = {"Write this sheet to the file",
                         "the ending says the form: .txt, .csv, .md or .json"},
};

void tc_prompt_open(struct tc_state *state, enum tc_prompt_kind kind, const char *text)
{
    struct tc_prompt *prompt = &state->prompt;
    *prompt = (struct tc_prompt){.kind = kind, .before = tc_state_tab(state)->position};
    tc_clean(prompt->title, sizeof prompt->title, words[kind].title);
    tc_clean(prompt->hint, sizeof prompt->hint, words[kind].hint);
    tc_input_start(&prompt->input, text, true);
    tc_state_push(state, TC_LAYER_PROMPT);
}

/* What follows every change of the line. */
static void changed(struct tc_state *state)
{
    state->prompt.problem[0] = '\0';
    if (state->prompt.kind == TC_PROMPT_FIND)
        tc_browse_find_typed(state, state->prompt.input.text, &state->prompt.before);
}

void tc_prompt_type(struct tc_state *state, uint32_t code)
{
    if (tc_input_press(&state->prompt.input, code))
        changed(state);
}

void tc_prompt_clear(struct tc_state *state, int unused)
{
    (void)unused;
    tc_prompt_type(state, TC_EVENT_CLEAR_LINE);
}

void tc_prompt_leave(struct tc_state *state, int unused)
{
    (void)unused;
    if (state->prompt.kind == TC_PROMPT_FIND) {
        tc_browse_back_to(state, &state->prompt.before);
        state->find[0] = '\0';
    }
    tc_state_pop(state);
}

static void take_figure(struct tc_state *state)
{
    struct tc_prompt *prompt = &state->prompt;
    char present[TC_VALUE_SIZE];
    tc_change_present(state, prompt->path, present);
    /* What stands there already is not typed by being looked at. */
    bool same = strcmp(present, prompt->input.text) == 0;
    if (!same && !tc_change_set(state, prompt->path, prompt->input.text, prompt->problem))
        return;
    tc_state_pop(state);
}

static void take_find(struct tc_state *state)
{
    const struct tc_tab *tab = tc_state_tab(state);
    tc_state_pop(state);
    bool any = state->find[strspn(state->find, " ")] != '\0';
    if (any &&
        !(tab->position.line < tab->body.count && tc_body_holds(&tab->body, tab->position.line, state->find)))
        tc_state_warn(state, "'%s' is not in this sheet.", state->find);
}

static void take_vary(struct tc_state *state)
{
    tc_clean(state->vary, sizeof state->vary, state->prompt.input.text);
    while (tc_state_top(state) != TC_LAYER_SHEET) /* a list may have been the way to it */
        tc_state_pop(state);
    for (size_t i = 0; tc_question_at(i); i++)
        if (strcmp(tc_question_at(i)->name, "whatif") == 0)
            tc_browse_to_question(state, i);
    tc_state_outdate(state);
}

static void take_money(struct tc_state *state)
{
    struct tc_prompt *prompt = &state->prompt;
    struct tc_currency currency = {"", 0};
    if (prompt->input.length > 0 && !tc_quantity_currency(prompt->input.text, &currency, prompt->problem))
        return;
    memcpy(state->money, currency.code, sizeof state->money);
    tc_state_pop(state);
    tc_state_outdate(state);
}

void tc_prompt_enter(struct tc_state *state, int unused)
{
    (void)unused;
    switch (state->prompt.kind) {
    case TC_PROMPT_FIGURE: take_figure(state); break;
    case TC_PROMPT_FIND: take_find(state); break;
    case TC_PROMPT_VARY: take_vary(state); break;
    case TC_PROMPT_MONEY: take_money(state); break;
    case TC_PROMPT_SAVE: tc_saving_save_as(state, state->prompt.input.text); break;
    case TC_PROMPT_WRITE: tc_saving_write_to(state, state->prompt.input.text); break;
    }
}
