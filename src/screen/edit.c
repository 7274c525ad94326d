/* SPDX-License-Identifier: MIT */
#include "screen/edit.h"

#include <stdio.h>
#include <string.h>

#include "core/base/number.h"
#include "profile/kind.h"

/* The present plan as it is left, should another one of the session take its place. */
static void leave_plan(struct tc_state *state)
{
    memcpy(&tc_state_file(state)->left, &state->now.plan, sizeof state->now.plan);
}

void tc_edit_document(struct tc_state *state, const struct tc_plan *plan, int file)
{
    if (tc_history_keep(&state->history, &state->now) != TC_OK)
        tc_state_warn(state, "There is no memory left to take this change back.");
    leave_plan(state);
    tc_plan_copy(&state->now.plan, plan);
    state->now.file = file;
    tc_state_outdate(state);
}

bool tc_edit_plan(struct tc_state *state, const struct tc_plan *plan)
{
    if (tc_plan_equal(plan, &state->now.plan))
        return false;
    tc_edit_document(state, plan, state->now.file);
    return true;
}

bool tc_edit_set(struct tc_state *state, const char *path, const char *text, char problem[TC_PROBLEM_SIZE])
{
    struct tc_plan plan;
    tc_plan_copy(&plan, &state->now.plan);
    if (!tc_plan_set(&plan, path, text, problem))
        return false;
    tc_edit_plan(state, &plan);
    return true;
}

/* --------------------------------------------------------------------------- paths */

void tc_edit_take_apart(const char *path, struct tc_edit_path *parts)
{
    size_t length = strcspn(path, " /");
    const char *end;
    *parts = (struct tc_edit_path){.candidate = -1, .key = ""};
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

bool tc_edit_slot_of(const char *key, const char *ending, enum tc_slot *slot)
{
    char name[TC_NAME_SIZE];
    size_t length = strlen(key), tail = strlen(ending);
    if (length <= tail || length - tail >= sizeof name || strcmp(key + length - tail, ending) != 0)
        return false;
    memcpy(name, key, length - tail);
    name[length - tail] = '\0';
    return tc_slot_find(name, slot);
}

bool tc_edit_typed(const struct tc_state *state, const char *path)
{
    char text[TC_VALUE_SIZE];
    return tc_plan_get(&state->now.plan, path, text) && text[0] != '\0';
}

/* What one tank or part of a candidate costs now; false where that is not known. */
static bool price_in_force(const struct tc_state *state, const struct tc_edit_path *parts, tc_money *price)
{
    const struct tc_alternative *alternative = tc_state_alternative(state, parts->candidate);
    enum tc_slot slot;
    if (!alternative)
        return false;
    if (strcmp(parts->key, "price") == 0) {
        *price = alternative->prices.deal.each;
        return alternative->prices.deal.known;
    }
    if (!tc_edit_slot_of(parts->key, "-price", &slot))
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

void tc_edit_present(const struct tc_state *state, const char *path, char text[TC_VALUE_SIZE])
{
    struct tc_edit_path parts;
    tc_money price;
    tc_edit_take_apart(path, &parts);
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

/* ------------------------------------------------------------------------------ undo */

bool tc_edit_undo_possible(const struct tc_state *state)
{
    return state->history.back_count > 0;
}

bool tc_edit_redo_possible(const struct tc_state *state)
{
    return state->history.forth_count > 0;
}

void tc_edit_undo(struct tc_state *state, int forth)
{
    leave_plan(state);
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
