/* SPDX-License-Identifier: MIT */
#include "screen/change.h"

#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "core/money/currency.h"
#include "core/base/number.h"
#include "profile/kind.h"
#include "screen/edit.h"
#include "screen/figure.h"
#include "screen/list.h"
#include "screen/list_fill.h"
#include "screen/prompt.h"
#include "screen/scroll.h"

/* --------------------------------------------------------------------------- the cell */

bool tc_change_cell_possible(const struct tc_state *state)
{
    const struct tc_cell *cell = tc_state_cell(state, NULL);
    return cell && cell->edit;
}

void tc_change_cell(struct tc_state *state, int unused)
{
    (void)unused;
    const struct tc_cell *cell = tc_state_cell(state, NULL);
    if (tc_state_tab(state)->stopped) {
        tc_state_tab(state)->stopped = false; /* it is worked out after all */
    } else if (!cell || !cell->edit) {
        tc_state_say(state, "Worked out, not typed. You can change prices here; a lists every assumption.");
    } else {
        tc_figure_ask(state, cell->edit, 0);
        state->prompt.at_cell = true;
    }
}

/* Where a part is chosen, a digit begins its price: it never picks one from a list. */
static void price_path(const char *edit, char *path, size_t size)
{
    struct tc_edit_path parts;
    enum tc_slot slot;
    tc_edit_take_apart(edit, &parts);
    bool part = parts.candidate >= 0 && tc_edit_slot_of(parts.key, "", &slot);
    snprintf(path, size, "%s%s", edit, part ? "-price" : "");
}

void tc_change_type(struct tc_state *state, uint32_t code)
{
    const struct tc_cell *cell = tc_state_cell(state, NULL);
    char name[TC_EVENT_NAME_SIZE];
    if (code >= '0' && code <= '9' && cell && cell->edit) {
        char path[2 * TC_NAME_SIZE];
        price_path(cell->edit, path, sizeof path);
        tc_figure_ask(state, path, code);
        state->prompt.at_cell = true;
    } else if (code >= '0' && code <= '9') {
        tc_state_say(state, "Worked out, not typed. You can change prices here; a lists every assumption.");
    } else if (*tc_event_name(name, code)) {
        tc_state_say(state, "'%s' does nothing here; h shows the keys.", name);
    }
}

/* The path of what can be taken back at the selected cell into path; false where nothing can. */
static bool path_to_take_back(const struct tc_state *state, char *path, size_t size)
{
    const struct tc_cell *cell = tc_state_cell(state, NULL);
    if (!cell || !cell->edit)
        return false;
    snprintf(path, size, "%s", cell->edit);
    if (tc_edit_typed(state, path))
        return true;
    /* A price that was not typed may stand for a part that was pinned. */
    char *ending = strstr(path, "-price");
    if (!ending || !(cell->marks & TC_MARK_PINNED))
        return false;
    *ending = '\0';
    return tc_edit_typed(state, path);
}

bool tc_change_back_possible(const struct tc_state *state)
{
    char path[2 * TC_NAME_SIZE];
    return path_to_take_back(state, path, sizeof path);
}

void tc_change_back(struct tc_state *state, int unused)
{
    char path[2 * TC_NAME_SIZE], problem[TC_PROBLEM_SIZE];
    (void)unused;
    if (!path_to_take_back(state, path, sizeof path))
        tc_state_say(state, "Nothing was typed or pinned here.");
    else if (!tc_edit_set(state, path, "", problem))
        tc_state_warn(state, "%s", problem);
    else
        tc_state_say(state, "Taken out; u undoes that.");
}

/* On a row about a tank that the plan need not have, of the shortlist: takes it in. False on other rows. */
static bool take_tank(struct tc_state *state)
{
    static const char start[] = "tank ";
    const struct tc_row *row = NULL;
    struct tc_plan plan;
    if (!tc_state_cell(state, &row) || !row || strncmp(row->subject, start, sizeof start - 1) != 0)
        return false;
    tc_plan_copy(&plan, &state->now.plan);
    const char *tank = row->subject + sizeof start - 1;
    for (int i = 0; i < plan.candidate_count; i++) {
        if (strcmp(plan.candidate[i].tank, tank) == 0) {
            tc_state_say(state, "%s is in the plan already.", tank);
            return true;
        }
    }
    if (!tc_plan_add(&plan, tank)) {
        tc_state_warn(state, "A plan compares %d tanks at most; take one out first.", TC_CANDIDATES_MAX);
        return true;
    }
    tc_state_say(state, "%s is in the plan; g goes to its bill, u undoes that.",
                 plan.candidate[plan.candidate_count - 1].tank);
    tc_edit_plan(state, &plan);
    return true;
}

void tc_change_count(struct tc_state *state, int by)
{
    if (by > 0 && take_tank(state))
        return;
    int candidate = tc_state_candidate(state);
    if (candidate < 0) {
        tc_state_say(state, "No tank is selected: press t to choose tanks.");
        return;
    }
    struct tc_plan plan;
    tc_plan_copy(&plan, &state->now.plan);
    struct tc_candidate *c = &plan.candidate[candidate];
    char tank[TC_NAME_SIZE], path[48], text[16], problem[TC_PROBLEM_SIZE];
    int quantity = c->quantity + by;
    memcpy(tank, c->tank, sizeof tank);
    snprintf(path, sizeof path, "candidate %d/quantity", candidate + 1);
    snprintf(text, sizeof text, "%d", quantity);
    if (quantity < 1) {
        tc_plan_remove(&plan, candidate);
        tc_state_say(state, "%s is taken out; u brings it back.", tank);
    } else if (!tc_plan_set(&plan, path, text, problem)) {
        tc_state_warn(state, "%s", problem);
        return;
    } else {
        tc_state_say(state, "%d × %s", quantity, tank);
    }
    tc_edit_plan(state, &plan);
}

void tc_change_double(struct tc_state *state, int unused)
{
    int candidate = tc_state_candidate(state);
    struct tc_plan plan;
    (void)unused;
    if (candidate < 0) {
        tc_state_say(state, "No tank is selected: press t to choose tanks.");
        return;
    }
    tc_plan_copy(&plan, &state->now.plan);
    if (!tc_plan_double(&plan, candidate)) {
        if (plan.candidate_count == TC_CANDIDATES_MAX)
            tc_state_warn(state, "A plan compares %d tanks at most; take one out first.", TC_CANDIDATES_MAX);
        else
            tc_state_warn(state, "A plan holds %d ranges at most; make some a single figure first.",
                          TC_TYPED_RANGES_MAX);
        return;
    }
    tc_state_say(state, "A second %s stands at the right: p gives it other parts, B another price.",
                 plan.candidate[candidate].tank);
    tc_edit_plan(state, &plan);
}

static void vary_taken(struct tc_state *state, const char *text)
{
    tc_clean(state->vary, sizeof state->vary, text);
    while (tc_state_top(state) != TC_LAYER_SHEET) /* a list may have been the way to it */
        tc_state_pop(state);
    for (size_t i = 0; tc_question_at(i); i++)
        if (strcmp(tc_question_at(i)->name, "whatif") == 0)
            tc_scroll_to_question(state, i);
    tc_state_outdate(state);
}

static const struct tc_prompt_kind vary_prompt = {
    .title = "What if: the assumption that varies",
    .hint = "an assumption (see a) and its range, like: region/room=18..24 C",
    .taken = vary_taken,
};

static void money_taken(struct tc_state *state, const char *text)
{
    struct tc_currency currency = {"", 0};
    if (*text && !tc_quantity_currency(text, &currency, state->prompt.problem))
        return;
    memcpy(state->money, currency.code, sizeof state->money);
    tc_state_pop(state);
    tc_state_outdate(state);
}

static const struct tc_prompt_kind money_prompt = {
    .title = "The money in which places are compared",
    .hint = "three letters, like USD; leave it empty for the money of the plan's region",
    .taken = money_taken,
};

void tc_change_vary(struct tc_state *state, int unused)
{
    (void)unused;
    tc_prompt_open(state, &vary_prompt, state->vary);
}

/* What follows the last number of a figure: " C" of "19 to 22 C", " / m3" of "2.40 / m3". */
static const char *unit_of(const char *figure)
{
    const char *unit = "";
    for (const char *word = figure; *word;) {
        const char *end = word + strcspn(word, " ");
        if ((*word >= '0' && *word <= '9') || *word == '-' || *word == '.')
            unit = end;
        word = end + strspn(end, " ");
    }
    return unit;
}

/* "region/room=19..| C", where what is to be typed goes at the bar: whatif wants the unit at the end. */
static void vary_path(struct tc_state *state, const char *path)
{
    char present[TC_VALUE_SIZE], start[TC_INPUT_SIZE], number[TC_NUMBER_SIZE] = "";
    struct tc_text text = TC_TEXT_EMPTY;
    const char *end;
    double from;
    tc_edit_present(state, path, present);
    if (tc_number_read(present, &end, &from) == TC_OK)
        tc_number_write_short(number, from);
    snprintf(start, sizeof start, "%s=%s..", path, number);
    tc_text_addf(&text, "%s%s", start, unit_of(present));
    tc_prompt_open(state, &vary_prompt, tc_text_string(&text));
    state->prompt.input.fresh = false;
    state->prompt.input.at = strlen(start);
    tc_text_free(&text);
}

void tc_change_walls(struct tc_state *state, int unused)
{
    (void)unused;
    if (!state->walls && !tc_plan_has_wall(&state->now.plan)) {
        tc_state_warn(state, "The plan has no wall: a lists its length, height and depth, to be typed.");
        return;
    }
    state->walls = !state->walls;
    tc_state_outdate(state);
    if (!tc_state_question(state)->walls)
        tc_scroll_to_question(state, 0);
    tc_state_say(state, state->walls ? "Bill and years compare the plan's walls now; W: its tanks again."
                                     : "Bill and years compare the plan's tanks again.");
}

bool tc_change_pick_up_possible(const struct tc_state *state)
{
    for (int s = 0; state->study && s < state->study->shop_count; s++)
        if (state->study->own_shops[s].pick_up >= 0)
            return true;
    return false;
}

void tc_change_pick_up(struct tc_state *state, int unused)
{
    (void)unused;
    if (!tc_change_pick_up_possible(state)) {
        tc_state_say(state, "No shop here says what a trip to it costs you: e, shop, pick-up.");
        return;
    }
    bool fetched = !state->now.plan.pick_up;
    char problem[TC_PROBLEM_SIZE];
    if (tc_edit_set(state, "plan/pick-up", fetched ? "yes" : "no", problem))
        tc_state_say(state, fetched ? "Orders are fetched where that costs less than delivery."
                                    : "Orders are delivered.");
}

/* --------------------------------------------------------------------- assumptions */

/* What is asked beside the plan stands in the list by these values, which are no paths of a plan. */
static const char ask_vary[] = "ask/vary", ask_money[] = "ask/money";

/* One group: every key of a table, with the figure in force. */
static void add_assumptions(struct tc_sheet *sheet, const struct tc_state *state, const char *table_name,
                            const char *start, const char *heading)
{
    const struct tc_key_table *table = tc_key_table_find(table_name);
    bool markable = strcmp(table_name, "plan") != 0 && strcmp(table_name, "wall") != 0 &&
                    strcmp(table_name, "space") != 0;
    tc_sheet_row(sheet, TC_ROW_GROUP, heading, "");
    for (size_t i = 0; table && i < table->count; i++) {
        const struct tc_key *key = &table->keys[i];
        char path[2 * TC_NAME_SIZE], text[TC_VALUE_SIZE];
        bool names = strcmp(key->name, "title") == 0 || strcmp(key->name, "tank") == 0;
        if (names && strcmp(table_name, "plan") != 0)
            continue;
        snprintf(path, sizeof path, "%s/%s", start, key->name);
        tc_edit_present(state, path, text);
        tc_fill_choice(sheet, key->name, path);
        tc_sheet_about(sheet, tc_caution_subject(table_name, key));
        if (tc_edit_lacks(state, path))
            tc_sheet_missing(sheet, 0, "missing");
        else if (tc_edit_assumed(state, path))
            tc_sheet_text(sheet, 0, tc_sheet_format(sheet, "%s, assumed", text));
        else
            tc_sheet_text(sheet, 0, *text || !key->fallback ? text : key->fallback);
        if (markable && tc_edit_typed(state, path))
            tc_sheet_mark(sheet, 0, TC_MARK_TYPED);
        tc_sheet_text(sheet, 1, key->help);
    }
}

static void fill_assumptions(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    int candidate = about.candidate;
    const struct tc_plan *plan = &state->now.plan;
    bool wall_first = strcmp(tc_state_question(state)->name, "wall") == 0;
    tc_sheet_start(sheet, "assumptions", 2);
    tc_sheet_head(sheet, "Assumptions", "", "");
    tc_fill_words(sheet, 0, "value now");
    tc_fill_words(sheet, 1, "");
    if (wall_first)
        add_assumptions(sheet, state, "wall", "wall", "The wall");
    add_assumptions(sheet, state, "plan", "plan", "The plan");
    add_assumptions(sheet, state, "setup", "setup", tc_sheet_format(sheet, "The setup %s", plan->setup));
    add_assumptions(sheet, state, "region", "region", tc_sheet_format(sheet, "The region %s", plan->region));
    if (candidate >= 0 && candidate < plan->candidate_count)
        add_assumptions(sheet, state, "candidate", tc_sheet_format(sheet, "candidate %d", candidate + 1),
                        tc_sheet_format(sheet, "The tank %s", plan->candidate[candidate].tank));
    if (!wall_first)
        add_assumptions(sheet, state, "wall", "wall", "The wall");
    add_assumptions(sheet, state, "space", "space", "The place for one tank (sheet shortlist)");
    tc_sheet_row(sheet, TC_ROW_GROUP, "What is asked", "");
    tc_fill_choice(sheet, "vary", ask_vary);
    tc_sheet_text(sheet, 0, state->vary);
    tc_sheet_text(sheet, 1, "what the sheet whatif varies");
    tc_fill_choice(sheet, "money", ask_money);
    tc_sheet_text(sheet, 0, state->money);
    tc_sheet_text(sheet, 1, "the money in which the sheet places compares");
}

static void assumption_taken(struct tc_state *state, struct tc_list_about about, const char *path)
{
    (void)about;
    if (strcmp(path, ask_vary) == 0)
        tc_change_vary(state, 0);
    else if (strcmp(path, ask_money) == 0)
        tc_prompt_open(state, &money_prompt, state->money);
    else
        tc_figure_ask(state, path, 0);
}

static void assumption_stepped(struct tc_state *state, const char *path, int by)
{
    if (by > 0 && *path && strcmp(path, ask_vary) != 0 && strcmp(path, ask_money) != 0)
        vary_path(state, path);
}

static void assumption_back(struct tc_state *state, const char *path)
{
    char problem[TC_PROBLEM_SIZE];
    if (!tc_edit_set(state, path, "", problem))
        tc_state_warn(state, "%s", problem);
}

static const struct tc_list_kind assumption_list = {
    .fill = fill_assumptions,
    .take = assumption_taken,
    .step = assumption_stepped,
    .back = assumption_back,
    .back_possible = tc_edit_typed,
};

void tc_change_assumptions(struct tc_state *state, int unused)
{
    (void)unused;
    tc_list_open(state, &assumption_list, (struct tc_list_about){.candidate = tc_state_candidate(state)});
}
