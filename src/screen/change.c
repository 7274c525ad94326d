/* SPDX-License-Identifier: MIT */
#include "screen/change.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "core/base/number.h"
#include "screen/browse.h"
#include "screen/choose.h"
#include "screen/prompt.h"

bool tc_change_plan(struct tc_state *state, const struct tc_plan *plan)
{
    if (tc_plan_equal(plan, &state->now.plan))
        return false;
    if (tc_history_keep(&state->history, &state->now) != TC_OK)
        tc_state_warn(state, "There is no memory left to take this change back.");
    memcpy(&state->now.plan, plan, sizeof *plan); /* to the last byte, by which plans are compared */
    tc_state_outdate(state);
    return true;
}

bool tc_change_set(struct tc_state *state, const char *path, const char *text, char problem[TC_PROBLEM_SIZE])
{
    struct tc_plan plan;
    memcpy(&plan, &state->now.plan, sizeof plan);
    if (!tc_plan_set(&plan, path, text, problem))
        return false;
    tc_change_plan(state, &plan);
    return true;
}

/* --------------------------------------------------------------------------- paths */

/* A path taken apart: "candidate 2/lid-price". */
struct parts {
    char kind[TC_NAME_SIZE]; /* "candidate" */
    int candidate;           /* 1; -1 for other kinds */
    const char *key;         /* "lid-price" */
    const struct tc_key *form;
};

static void take_apart(const char *path, struct parts *parts)
{
    size_t length = strcspn(path, " /");
    const char *end;
    *parts = (struct parts){.candidate = -1, .key = ""};
    if (length < sizeof parts->kind)
        memcpy(parts->kind, path, length);
    int number;
    if (path[length] == ' ' && tc_number_read_count(path + length + 1, &end, &number) == TC_OK)
        parts->candidate = number - 1;
    const char *slash = strchr(path, '/');
    if (slash)
        parts->key = slash + 1;
    const struct tc_key_table *table = tc_key_table_find(parts->kind);
    if (table)
        parts->form = tc_key_find(table, parts->key);
}

/* The slot of a key such as "lid" or "lid-price"; false where it is of none. */
static bool slot_of(const char *key, const char *ending, enum tc_slot *slot)
{
    char name[TC_NAME_SIZE];
    size_t length = strlen(key), tail = strlen(ending);
    if (length <= tail || length - tail >= sizeof name || strcmp(key + length - tail, ending) != 0)
        return false;
    memcpy(name, key, length - tail);
    name[length - tail] = '\0';
    return tc_slot_find(name, slot);
}

bool tc_change_typed(const struct tc_state *state, const char *path)
{
    char text[TC_VALUE_SIZE];
    return tc_plan_get(&state->now.plan, path, text) && text[0] != '\0';
}

/* What one tank or part of a candidate costs now; false where that is not known. */
static bool price_in_force(const struct tc_state *state, const struct parts *parts, tc_money *price)
{
    const struct tc_alternative *alternative = tc_state_entry(state, parts->candidate);
    enum tc_slot slot;
    if (!alternative)
        return false;
    if (strcmp(parts->key, "price") == 0) {
        *price = alternative->prices.deal.each;
        return alternative->prices.deal.known;
    }
    if (!slot_of(parts->key, "-price", &slot))
        return false;
    const struct tc_offer *offer = alternative->equipment.slot[slot].offer;
    *price = offer ? offer->price : 0;
    return offer && offer->priced;
}

/* A price that does not count, because a tariff does. */
static bool is_overruled(const struct tc_region *region, const char *key)
{
    return (strcmp(key, "electricity") == 0 && region->electricity_tariff[0]) ||
           (strcmp(key, "water") == 0 && region->water_tariff[0]);
}

void tc_change_present(const struct tc_state *state, const char *path, char text[TC_VALUE_SIZE])
{
    struct parts parts;
    tc_money price;
    take_apart(path, &parts);
    if (tc_plan_get(&state->now.plan, path, text) && text[0] != '\0')
        return;
    text[0] = '\0';
    if (!state->study || !parts.form)
        return;
    if (strcmp(parts.kind, "setup") == 0)
        tc_key_write(parts.form, &state->study->setup, state->study->units, text);
    else if (strcmp(parts.kind, "region") == 0 && !is_overruled(&state->study->region, parts.key))
        tc_key_write(parts.form, &state->study->region, state->study->units, text);
    else if (price_in_force(state, &parts, &price))
        tc_number_write_fixed(text, price, state->study->region.currency.exponent, false);
}

/* ---------------------------------------------------------------------------- asking */

/* "29-high: price", "setup shrimp-shelf: light-hours" */
static void write_title(const struct tc_state *state, const struct parts *parts, char *title, size_t size)
{
    const struct tc_plan *plan = &state->now.plan;
    if (parts->candidate >= 0 && parts->candidate < plan->candidate_count)
        snprintf(title, size, "%s: %s", plan->candidate[parts->candidate].tank, parts->key);
    else if (strcmp(parts->kind, "setup") == 0)
        snprintf(title, size, "setup %s: %s", plan->setup, parts->key);
    else if (strcmp(parts->kind, "region") == 0)
        snprintf(title, size, "region %s: %s", plan->region, parts->key);
    else
        snprintf(title, size, "%s: %s", parts->kind, parts->key);
}

/* Lists to choose from take the place of names. */
static bool choose_instead(struct tc_state *state, const struct parts *parts)
{
    enum tc_slot slot;
    if (parts->candidate >= 0 && slot_of(parts->key, "", &slot)) {
        tc_choose_part_of(state, parts->candidate, slot);
        return true;
    }
    bool plan = strcmp(parts->kind, "plan") == 0;
    if (plan && strcmp(parts->key, "setup") == 0)
        tc_choose_open(state, TC_PICK_SETUP);
    else if (plan && strcmp(parts->key, "region") == 0)
        tc_choose_open(state, TC_PICK_REGION);
    else if (plan && strcmp(parts->key, "sale") == 0)
        tc_choose_open(state, TC_PICK_BUYING);
    else
        return false;
    return true;
}

void tc_change_ask(struct tc_state *state, const char *path, uint32_t typed)
{
    struct parts parts;
    char text[TC_VALUE_SIZE];
    take_apart(path, &parts);
    if (tc_state_top(state) == TC_LAYER_SHEET && choose_instead(state, &parts))
        return;
    tc_change_present(state, path, text);
    tc_prompt_open(state, TC_PROMPT_FIGURE, text);
    struct tc_prompt *prompt = &state->prompt;
    write_title(state, &parts, prompt->title, sizeof prompt->title);
    tc_clean(prompt->path, sizeof prompt->path, path);
    if (parts.form)
        snprintf(prompt->hint, sizeof prompt->hint, "%s; like %s", parts.form->help, parts.form->example);
    if (typed)
        tc_input_press(&prompt->input, typed);
}

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
        tc_state_say(state,
                     "This is worked out, not typed. Prices can be typed over; a lists every assumption.");
    } else {
        tc_change_ask(state, cell->edit, 0);
        state->prompt.at_cell = true;
    }
}

void tc_change_type(struct tc_state *state, uint32_t code)
{
    const struct tc_cell *cell = tc_state_cell(state, NULL);
    char name[TC_EVENT_NAME_SIZE];
    if (code >= '0' && code <= '9' && cell && cell->edit) {
        tc_change_ask(state, cell->edit, code);
        state->prompt.at_cell = true;
    } else if (code >= '0' && code <= '9') {
        tc_state_say(state,
                     "This is worked out, not typed. Prices can be typed over; a lists every assumption.");
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
    if (tc_change_typed(state, path))
        return true;
    /* A price that was not typed may stand for a part that was pinned. */
    char *ending = strstr(path, "-price");
    if (!ending || !(cell->marks & TC_MARK_PINNED))
        return false;
    *ending = '\0';
    return tc_change_typed(state, path);
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
    else if (!tc_change_set(state, path, "", problem))
        tc_state_warn(state, "%s", problem);
    else
        tc_state_say(state, "Taken back; u undoes that.");
}

void tc_change_count(struct tc_state *state, int by)
{
    int candidate = tc_state_candidate(state);
    if (candidate < 0) {
        tc_state_say(state, "No tank is selected: t chooses tanks.");
        return;
    }
    struct tc_plan plan;
    memcpy(&plan, &state->now.plan, sizeof plan);
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
    tc_change_plan(state, &plan);
}

void tc_change_double(struct tc_state *state, int unused)
{
    int candidate = tc_state_candidate(state);
    struct tc_plan plan;
    (void)unused;
    if (candidate < 0) {
        tc_state_say(state, "No tank is selected: t chooses tanks.");
        return;
    }
    memcpy(&plan, &state->now.plan, sizeof plan);
    struct tc_candidate *second = tc_plan_add(&plan, plan.candidate[candidate].tank);
    if (!second) {
        tc_state_warn(state, "A plan compares %d tanks at most; take one out first.", TC_CANDIDATES_MAX);
        return;
    }
    memcpy(second, &plan.candidate[candidate], sizeof *second);
    tc_state_say(state, "A second %s stands at the right: p gives it other parts, B another price.",
                 second->tank);
    tc_change_plan(state, &plan);
}

/* ------------------------------------------------------------------------------ undo */

bool tc_change_undo_possible(const struct tc_state *state)
{
    return state->history.back_count > 0;
}

bool tc_change_redo_possible(const struct tc_state *state)
{
    return state->history.forth_count > 0;
}

void tc_change_undo(struct tc_state *state, int forth)
{
    if (!tc_history_go(&state->history, &state->now, forth)) {
        tc_state_say(state, forth ? "Nothing was taken back." : "Nothing was changed yet.");
        return;
    }
    tc_state_outdate(state);
    int left = forth ? state->history.forth_count : state->history.back_count;
    tc_state_say(state,
                 forth ? "Done again; %d more to do again." : "Taken back; %d more can be, U does it again.",
                 left);
}

void tc_change_vary(struct tc_state *state, int unused)
{
    (void)unused;
    tc_prompt_open(state, TC_PROMPT_VARY, state->vary);
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
void tc_change_vary_path(struct tc_state *state, const char *path)
{
    char present[TC_VALUE_SIZE], start[TC_INPUT_SIZE], number[TC_NUMBER_SIZE] = "";
    struct tc_text text = TC_TEXT_EMPTY;
    const char *end;
    double from;
    tc_change_present(state, path, present);
    if (tc_number_read(present, &end, &from) == TC_OK)
        tc_number_write_short(number, from);
    snprintf(start, sizeof start, "%s=%s..", path, number);
    tc_text_addf(&text, "%s%s", start, unit_of(present));
    tc_prompt_open(state, TC_PROMPT_VARY, tc_text_string(&text));
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
        tc_browse_to_question(state, 0);
    tc_state_say(state, state->walls ? "Bill and years compare the plan's walls now; W: its tanks again."
                                     : "Bill and years compare the plan's tanks again.");
}
