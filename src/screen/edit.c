/* SPDX-License-Identifier: MIT */
#include "screen/edit.h"

#include <stdio.h>
#include <string.h>

#include "core/base/number.h"
#include "profile/region_assumed.h"
#include "profile/region_keys.h"
#include "profile/template.h"
#include "profile/kind.h"

/* The present plan as it is left, should another one of the session take its place. */
static void leave_plan(struct tc_state *state)
{
    tc_plan_copy(&tc_state_file(state)->left, &state->now.plan);
}

void tc_edit_document(struct tc_state *state, const struct tc_plan *plan, int file)
{
    if (tc_history_keep(&state->history, &state->now) != TC_OK)
        tc_state_warn(state, "There is no memory left to undo this change.");
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

/*
 * What the plan would say at the path of a candidate's key if nobody had typed
 * anything, in the plan's units; "" for other paths.
 */
static void untyped(const struct tc_plan *plan, const struct tc_edit_path *parts, char text[TC_VALUE_SIZE])
{
    struct tc_plan blank;
    char path[2 * TC_NAME_SIZE];
    text[0] = '\0';
    if (parts->candidate < 0 || parts->candidate >= plan->candidate_count)
        return;
    tc_plan_start(&blank);
    blank.units = plan->units;
    tc_plan_add(&blank, plan->candidate[parts->candidate].tank);
    snprintf(path, sizeof path, "candidate 1/%s", parts->key);
    tc_plan_get(&blank, path, text);
}

bool tc_edit_typed(const struct tc_state *state, const char *path)
{
    struct tc_edit_path parts;
    char text[TC_VALUE_SIZE], usual[TC_VALUE_SIZE];
    tc_edit_take_apart(path, &parts);
    if (!tc_plan_get(&state->now.plan, path, text) || text[0] == '\0')
        return false;
    untyped(&state->now.plan, &parts, usual);
    return strcmp(text, usual) != 0;
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
    int shop = alternative->c.market ? alternative->cost.shop[TC_BUY_SLOTS + (int)slot] : -1;
    *price = !offer ? 0 : shop >= 0 && offer->asked ? offer->asked[shop] : offer->price;
    return offer && offer->priced;
}

/*
 * The record and the key that hold a fact of a candidate's tank, or of a part of
 * it of which only the tag is known, as they are in force; false for other keys.
 */
static bool fact_in_force(const struct tc_state *state, const struct tc_edit_path *parts, const void **record,
                          const struct tc_key **key)
{
    static const char *const of_tank[] = {"length", "width", "height", "glass", "nominal", "resale"};
    static const char *const of_part[] = {"-power", "-life", "-resale"};
    const struct tc_alternative *alternative = tc_state_alternative(state, parts->candidate);
    enum tc_slot slot;
    *key = NULL;
    for (size_t i = 0; alternative && i < sizeof of_tank / sizeof of_tank[0]; i++)
        if (strcmp(parts->key, of_tank[i]) == 0)
            *key = tc_key_find(tc_key_table_find("tank"), of_tank[i]);
    *record = *key ? &alternative->c.tank : NULL;
    for (size_t i = 0; alternative && !*key && i < sizeof of_part / sizeof of_part[0]; i++) {
        if (!tc_edit_slot_of(parts->key, of_part[i], &slot))
            continue;
        const struct tc_offer *offer = alternative->equipment.slot[slot].offer;
        if (!offer || strcmp(offer->part->goods.name, TC_UNNAMED) != 0)
            continue;
        *record = offer->part;
        *key = tc_key_find(tc_key_table_find(tc_slot_name(slot)), of_part[i] + 1);
    }
    return *key != NULL;
}

bool tc_edit_assumed(const struct tc_state *state, const char *path)
{
    struct tc_edit_path parts;
    const struct tc_key *key;
    const void *record;
    tc_edit_take_apart(path, &parts);
    const struct tc_region *region = tc_edit_region(state);
    if (region && strncmp(path, "region/", 7) == 0) {
        key = tc_key_find(&tc_region_keys, path + 7);
        return key && !tc_edit_typed(state, path) && tc_region_assumes(state->options->stock, region, key);
    }
    if (tc_edit_typed(state, path) || !fact_in_force(state, &parts, &record, &key))
        return false;
    const struct tc_tank *tank = &tc_state_alternative(state, parts.candidate)->c.tank;
    if (record != (const void *)tank)
        return true;
    return (strcmp(key->name, "glass") == 0 && tank->glass_assumed) ||
           (strcmp(key->name, "nominal") == 0 && tank->nominal_assumed);
}

/* A price that does not count, because a tariff does. */
static bool is_overruled(const struct tc_region *region, const struct tc_key *key)
{
    struct tc_region copy = *region;
    const char *overruling = tc_key_overruling(&tc_region_keys, key, &copy);
    return overruling && overruling[0] != '\0';
}

const struct tc_region *tc_edit_region(const struct tc_state *state)
{
    if (state->study && state->study->region.name[0])
        return &state->study->region;
    return tc_stock_region(state->options->stock, state->now.plan.region);
}

static const struct tc_setup *setup_in_force(const struct tc_state *state)
{
    if (state->study && state->study->setup.name[0])
        return &state->study->setup;
    return tc_stock_setup(state->options->stock, state->now.plan.setup);
}

bool tc_edit_lacks(const struct tc_state *state, const char *path)
{
    struct tc_edit_path parts;
    const struct tc_region *region = tc_edit_region(state);
    tc_edit_take_apart(path, &parts);
    return strcmp(parts.kind, "region") == 0 && parts.form && region &&
           tc_template_lacks(state->options->stock, region, &state->now.plan, parts.form);
}

void tc_edit_present(const struct tc_state *state, const char *path, char text[TC_VALUE_SIZE])
{
    struct tc_edit_path parts;
    const struct tc_setup *setup = setup_in_force(state);
    const struct tc_region *region = tc_edit_region(state);
    const struct tc_key *fact;
    const void *record;
    tc_money price;
    tc_edit_take_apart(path, &parts);
    if (tc_plan_get(&state->now.plan, path, text) && text[0] != '\0')
        return;
    text[0] = '\0';
    if (!state->study || !parts.form || tc_edit_lacks(state, path))
        return; /* what nobody has said is no figure: not even 0 */
    if (strcmp(parts.kind, "setup") == 0 && setup)
        tc_key_write(parts.form, setup, state->study->units, text);
    else if (strcmp(parts.kind, "region") == 0 && region && !is_overruled(region, parts.form))
        tc_key_write(parts.form, region, state->study->units, text);
    else if (fact_in_force(state, &parts, &record, &fact))
        tc_key_write(fact, record, state->study->units, text);
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
        tc_state_say(state, forth ? "There is nothing to redo." : "There is nothing to undo.");
        return;
    }
    tc_state_outdate(state);
    int left = forth ? state->history.forth_count : state->history.back_count;
    tc_state_say(state, forth ? "Redone; %d more to redo." : "Undone; %d more to undo, U redoes.", left);
}
