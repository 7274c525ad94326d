/* SPDX-License-Identifier: MIT */
#include "screen/choose.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "profile/plan_region.h"
#include "screen/browse.h"
#include "screen/change.h"
#include "screen/choices.h"
#include "screen/confirm.h"
#include "screen/panel.h"
#include "screen/prompt.h"

/* -------------------------------------------------------------------------- opening */

static void open_list(struct tc_state *state, enum tc_picker_kind kind, int candidate, enum tc_slot slot)
{
    struct tc_choices_about about = {candidate, slot};
    struct tc_sheet sheet;
    char present[TC_NAME_SIZE];
    if (tc_state_top(state) == TC_LAYER_PICKER)
        tc_state_pop(state);
    state->picker.kind = kind;
    state->picker.candidate = candidate;
    state->picker.slot = slot;
    tc_choices_make(state, kind, about, &sheet);
    tc_choices_present(state, kind, about, present);
    if (tc_picker_open(&state->picker, &sheet, present) != TC_OK) {
        tc_state_warn(state, "There is no memory left for the list.");
        return;
    }
    tc_state_push(state, TC_LAYER_PICKER);
    tc_picker_move(&state->picker, 0, tc_state_picker_page(state));
}

void tc_choose_open(struct tc_state *state, int kind)
{
    int candidate = tc_state_candidate(state);
    if (candidate < 0 && (kind == TC_PICK_BUYING_ONE || kind == TC_PICK_SLOT))
        tc_state_say(state, "No tank is selected: t chooses tanks.");
    else
        open_list(state, (enum tc_picker_kind)kind, candidate, TC_SLOT_STAND);
}

void tc_choose_part_of(struct tc_state *state, int candidate, enum tc_slot slot)
{
    open_list(state, TC_PICK_PART, candidate, slot);
}

void tc_choose_part(struct tc_state *state, int unused)
{
    const struct tc_row *row;
    const struct tc_cell *cell = tc_state_cell(state, &row);
    (void)unused;
    int candidate = tc_state_candidate(state);
    if (cell && candidate >= 0) {
        /* Rows about a slot are called after it, with blanks for '-'. */
        for (int s = 0; s < TC_SLOT_COUNT; s++) {
            char name[TC_NAME_SIZE];
            tc_clean(name, sizeof name, tc_slot_name((enum tc_slot)s));
            for (char *c = name; *c; c++)
                *c = *c == '-' ? ' ' : *c;
            if (strcmp(row->label, name) == 0 || strcmp(row->label, tc_slot_name((enum tc_slot)s)) == 0) {
                tc_choose_part_of(state, candidate, (enum tc_slot)s);
                return;
            }
        }
    }
    tc_choose_open(state, TC_PICK_SLOT);
}

void tc_choose_renew(struct tc_state *state)
{
    struct tc_picker *picker = &state->picker;
    struct tc_choices_about about = {picker->candidate, picker->slot};
    struct tc_sheet sheet;
    tc_choices_make(state, picker->kind, about, &sheet);
    if (tc_picker_renew(picker, &sheet) != TC_OK) {
        tc_state_warn(state, "There is no memory left for the list.");
        tc_state_pop(state);
        return;
    }
    tc_picker_move(picker, 0, tc_state_picker_page(state));
}

/* --------------------------------------------------------------------------- taking */

/* Sets a path of the plan to what was chosen, and closes the list. */
static void take_into(struct tc_state *state, const char *path, const char *value)
{
    char problem[TC_PROBLEM_SIZE];
    if (!tc_change_set(state, path, value, problem))
        tc_state_warn(state, "%s", problem);
    tc_state_pop(state);
}

/* What is typed for the plan's region stays there. */
static void take_region(struct tc_state *state, const char *region)
{
    struct tc_plan plan;
    memcpy(&plan, &state->now.plan, sizeof plan);
    int left = tc_plan_region(&plan, state->options->stock, region);
    tc_change_plan(state, &plan);
    tc_state_pop(state);
    if (left > 0)
        tc_state_say(state, "Typed for the region before, and left there: %d. u brings them back.", left);
}

/* The candidate that a press in the list of tanks is about: the last of that tank without a choice of its
 * own. */
static int candidate_of_tank(const struct tc_plan *plan, const char *tank)
{
    for (int i = plan->candidate_count; i-- > 0;)
        if (strcmp(plan->candidate[i].tank, tank) == 0)
            return i;
    return -1;
}

/* Gives a tank another quantity: 0 takes it out, and one that is not there is put in. */
static void set_count(struct tc_state *state, const char *tank, int quantity)
{
    struct tc_plan plan;
    char path[48], text[16], problem[TC_PROBLEM_SIZE];
    memcpy(&plan, &state->now.plan, sizeof plan);
    int candidate = candidate_of_tank(&plan, tank);
    if (candidate < 0 && quantity > 0) {
        if (!tc_plan_add(&plan, tank)) {
            tc_state_warn(state, "A plan compares %d tanks at most; take one out first.", TC_CANDIDATES_MAX);
            return;
        }
        candidate = plan.candidate_count - 1;
    }
    if (candidate < 0)
        return;
    snprintf(path, sizeof path, "candidate %d/quantity", candidate + 1);
    snprintf(text, sizeof text, "%d", quantity);
    if (quantity < 1)
        tc_plan_remove(&plan, candidate);
    else if (!tc_plan_set(&plan, path, text, problem)) {
        tc_state_warn(state, "%s", problem);
        return;
    }
    tc_change_plan(state, &plan);
}

void tc_choose_count(struct tc_state *state, int by)
{
    const char *tank = tc_picker_value(&state->picker);
    if (state->picker.kind == TC_PICK_ASSUMPTION && by > 0 && tank && strncmp(tank, "ask/", 4) != 0)
        tc_change_vary_path(state, tank);
    if (!tc_choose_counts(state) || !tank)
        return;
    char name[TC_NAME_SIZE];
    tc_clean(name, sizeof name, tank);
    int candidate = candidate_of_tank(&state->now.plan, name);
    int quantity = candidate >= 0 ? state->now.plan.candidate[candidate].quantity : 0;
    set_count(state, name, quantity + by);
}

bool tc_choose_counts(const struct tc_state *state)
{
    return state->picker.kind == TC_PICK_TANKS;
}

bool tc_choose_possible(const struct tc_state *state)
{
    return tc_picker_value(&state->picker) != NULL;
}

static void take_plan(struct tc_state *state, const char *name)
{
    tc_state_pop(state);
    tc_confirm_open(state, name);
}

static void take_question(struct tc_state *state, const char *name)
{
    tc_state_pop(state);
    for (size_t i = 0; tc_question_at(i); i++)
        if (strcmp(tc_question_at(i)->name, name) == 0)
            tc_browse_to_question(state, i);
}

static void take_slot(struct tc_state *state, const char *name)
{
    enum tc_slot slot;
    if (tc_slot_find(name, &slot))
        tc_choose_part_of(state, state->picker.candidate, slot);
}

static void take_assumption(struct tc_state *state, const char *path)
{
    if (strcmp(path, "ask/vary") == 0)
        tc_change_vary(state, 0);
    else if (strcmp(path, "ask/money") == 0)
        tc_prompt_open(state, TC_PROMPT_MONEY, state->money);
    else
        tc_change_ask(state, path, 0);
}

static void take(struct tc_state *state, const char *value)
{
    char path[64];
    int candidate = state->picker.candidate + 1;
    switch (state->picker.kind) {
    case TC_PICK_TANKS: set_count(state, value, candidate_of_tank(&state->now.plan, value) < 0); break;
    case TC_PICK_SETUP: take_into(state, "plan/setup", value); break;
    case TC_PICK_REGION: take_region(state, value); break;
    case TC_PICK_BUYING: take_into(state, "plan/sale", value); break;
    case TC_PICK_BUYING_ONE:
        snprintf(path, sizeof path, "candidate %d/sale", candidate);
        take_into(state, path, value);
        break;
    case TC_PICK_PART:
        snprintf(path, sizeof path, "candidate %d/%s", candidate, tc_slot_name(state->picker.slot));
        take_into(state, path, value);
        break;
    case TC_PICK_SLOT: take_slot(state, value); break;
    case TC_PICK_PLAN: take_plan(state, value); break;
    case TC_PICK_QUESTION: take_question(state, value); break;
    case TC_PICK_ASSUMPTION: take_assumption(state, value); break;
    }
}

void tc_choose_take(struct tc_state *state, int unused)
{
    char copy[2 * TC_NAME_SIZE];
    const char *value = tc_picker_value(&state->picker);
    (void)unused;
    if (!value)
        return;
    tc_clean(copy, sizeof copy, value); /* the list may go away while it is taken */
    take(state, copy);
}

bool tc_choose_back_possible(const struct tc_state *state)
{
    const char *path = tc_picker_value(&state->picker);
    return state->picker.kind == TC_PICK_ASSUMPTION && path && tc_change_typed(state, path);
}

void tc_choose_back(struct tc_state *state, int unused)
{
    char problem[TC_PROBLEM_SIZE];
    (void)unused;
    if (!tc_choose_back_possible(state))
        return;
    if (!tc_change_set(state, tc_picker_value(&state->picker), "", problem))
        tc_state_warn(state, "%s", problem);
}

/* --------------------------------------------------------------------------- moving */

void tc_choose_lines(struct tc_state *state, int by)
{
    tc_picker_move(&state->picker, by, tc_state_picker_page(state));
}

void tc_choose_pages(struct tc_state *state, int by)
{
    size_t page = tc_state_picker_page(state);
    tc_picker_move(&state->picker, by * (long)page, page);
}

void tc_choose_type(struct tc_state *state, uint32_t code)
{
    size_t number = code == '0' ? 9 : (size_t)(code - '1');
    if (state->picker.kind == TC_PICK_QUESTION && code >= '0' && code <= '9') {
        if (tc_question_at(number))
            take_question(state, tc_question_at(number)->name);
        return;
    }
    tc_picker_type(&state->picker, code, tc_state_picker_page(state));
}

void tc_choose_click(struct tc_state *state, int row)
{
    struct tc_picker *picker = &state->picker;
    struct tc_panel panel = tc_panel_list(state);
    int line = row - tc_panel_list_start(&panel);
    if (line < 0 || line >= (int)tc_state_picker_page(state) ||
        picker->top + (size_t)line >= picker->shown_count)
        return;
    size_t wanted = picker->top + (size_t)line, before = picker->at;
    tc_picker_move(picker, (long)wanted - (long)before, tc_state_picker_page(state));
    if (wanted == before)
        tc_choose_take(state, 0);
}

void tc_choose_leave(struct tc_state *state, int unused)
{
    (void)unused;
    tc_state_pop(state);
}
