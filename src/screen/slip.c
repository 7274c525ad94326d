/* SPDX-License-Identifier: MIT */
#include "screen/slip.h"

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
    [TC_SLIP_FIGURE] = {"", ""},
    [TC_SLIP_FIND] = {"Find in this sheet", "all words have to be in a line; n goes on to the next one"},
    [TC_SLIP_VARY] = {"What if: the assumption that varies",
                      "an assumption as in the list of a, and from where to where: region/room=18..24 C"},
    [TC_SLIP_MONEY] = {"The money in which places are compared",
                       "three letters of ISO 4217, like USD; nothing: that of the plan's region"},
    [TC_SLIP_SAVE] = {"Save the plan as", "a name, or a file's path that ends in .ini"},
    [TC_SLIP_WRITE] = {"Write this sheet to the file", "the ending says the form: .txt, .csv, .md or .json"},
};

void tc_slip_open(struct tc_state *state, enum tc_slip_kind kind, const char *text)
{
    struct tc_slip *slip = &state->slip;
    *slip = (struct tc_slip){.kind = kind, .before = tc_state_leaf(state)->spot};
    tc_clean(slip->title, sizeof slip->title, words[kind].title);
    tc_clean(slip->hint, sizeof slip->hint, words[kind].hint);
    tc_input_start(&slip->input, text, true);
    tc_state_push(state, TC_LAYER_SLIP);
}

/* What follows every change of the line. */
static void changed(struct tc_state *state)
{
    state->slip.problem[0] = '\0';
    if (state->slip.kind == TC_SLIP_FIND)
        tc_browse_find_typed(state, state->slip.input.text, &state->slip.before);
}

void tc_slip_type(struct tc_state *state, uint32_t code)
{
    if (tc_input_press(&state->slip.input, code))
        changed(state);
}

void tc_slip_clear(struct tc_state *state, int unused)
{
    (void)unused;
    tc_slip_type(state, TC_EVENT_CLEAR_LINE);
}

void tc_slip_leave(struct tc_state *state, int unused)
{
    (void)unused;
    if (state->slip.kind == TC_SLIP_FIND) {
        tc_browse_back_to(state, &state->slip.before);
        state->find[0] = '\0';
    }
    tc_state_pop(state);
}

static void take_figure(struct tc_state *state)
{
    struct tc_slip *slip = &state->slip;
    char present[TC_VALUE_SIZE];
    tc_change_present(state, slip->path, present);
    /* What stands there already is not typed by being looked at. */
    bool same = strcmp(present, slip->input.text) == 0;
    if (!same && !tc_change_set(state, slip->path, slip->input.text, slip->problem))
        return;
    tc_state_pop(state);
}

static void take_find(struct tc_state *state)
{
    const struct tc_leaf *leaf = tc_state_leaf(state);
    tc_state_pop(state);
    bool any = state->find[strspn(state->find, " ")] != '\0';
    if (any &&
        !(leaf->spot.line < leaf->body.count && tc_body_holds(&leaf->body, leaf->spot.line, state->find)))
        tc_state_warn(state, "'%s' is not in this sheet.", state->find);
}

static void take_vary(struct tc_state *state)
{
    tc_clean(state->vary, sizeof state->vary, state->slip.input.text);
    while (tc_state_top(state) != TC_LAYER_SHEET) /* a list may have been the way to it */
        tc_state_pop(state);
    for (size_t i = 0; tc_question_at(i); i++)
        if (strcmp(tc_question_at(i)->name, "whatif") == 0)
            tc_browse_to_question(state, i);
    tc_state_outdate(state);
}

static void take_money(struct tc_state *state)
{
    struct tc_slip *slip = &state->slip;
    struct tc_currency currency = {"", 0};
    if (slip->input.length > 0 && !tc_quantity_currency(slip->input.text, &currency, slip->problem))
        return;
    memcpy(state->money, currency.code, sizeof state->money);
    tc_state_pop(state);
    tc_state_outdate(state);
}

void tc_slip_enter(struct tc_state *state, int unused)
{
    (void)unused;
    switch (state->slip.kind) {
    case TC_SLIP_FIGURE: take_figure(state); break;
    case TC_SLIP_FIND: take_find(state); break;
    case TC_SLIP_VARY: take_vary(state); break;
    case TC_SLIP_MONEY: take_money(state); break;
    case TC_SLIP_SAVE: tc_saving_save_as(state, state->slip.input.text); break;
    case TC_SLIP_WRITE: tc_saving_write_to(state, state->slip.input.text); break;
    }
}
