/* SPDX-License-Identifier: MIT */
#include "screen/lists.h"

#include <stdio.h>
#include <string.h>

#include "profile/key.h"
#include "profile/kind.h"
#include "profile/plan_region.h"
#include "screen/edit.h"
#include "screen/list_buying.h"
#include "screen/list_fill.h"
#include "screen/list_parts.h"
#include "screen/list_plans.h"
#include "screen/list_tanks.h"
#include "screen/scroll.h"

/* --------------------------------------------------------------------- setups, regions */

/* Columns that show a key of a record each, and at the end its title. */
static void add_record(struct tc_sheet *sheet, const char *kind, const char *name, const void *record,
                       const char *const *keys, size_t key_count, const char *title,
                       enum tc_unit_system units)
{
    const struct tc_key_table *table = tc_key_table_find(kind);
    tc_fill_choice(sheet, name, name);
    for (size_t i = 0; i < key_count; i++) {
        char text[TC_VALUE_SIZE] = "";
        const struct tc_key *key = table ? tc_key_find(table, keys[i]) : NULL;
        if (key && key->form == TC_KEY_QUANTITY && key->dimension == TC_DIM_TEMPERATURE) {
            double value;
            memcpy(&value, (const char *)record + key->offset, sizeof value);
            tc_unit_quantity_write(text, value, TC_DIM_TEMPERATURE, units,
                                   0); /* all in one unit, side by side */
        } else if (key)
            tc_key_write(key, record, units, text);
        tc_sheet_text(sheet, i, text);
    }
    tc_sheet_text(sheet, key_count, title);
}

static void start_records(struct tc_sheet *sheet, const char *title, const char *kind,
                          const char *const *keys, size_t key_count)
{
    tc_sheet_start(sheet, kind, key_count + 1);
    tc_sheet_head(sheet, title, "", kind);
    for (size_t i = 0; i < key_count; i++)
        tc_fill_words(sheet, i, keys[i]);
    tc_fill_words(sheet, key_count, "");
}

static void fill_setups(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    (void)about;
    static const char *const keys[] = {"filter", "temperature", "ppfd", "lid"};
    enum { KEYS = sizeof keys / sizeof keys[0] };
    const struct tc_stock *stock = state->options->stock;
    start_records(sheet, "How the tanks are equipped", "setup", keys, KEYS);
    for (size_t i = 0; i < stock->setup_count; i++)
        add_record(sheet, "setup", stock->setups[i].name, &stock->setups[i], keys, KEYS,
                   stock->setups[i].title, tc_fill_units(state));
}

static const char *present_setup(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    (void)about;
    (void)buffer;
    return state->now.plan.setup;
}

static void take_setup(struct tc_state *state, struct tc_list_about about, const char *setup)
{
    (void)about;
    struct tc_plan plan;
    tc_plan_copy(&plan, &state->now.plan);
    int left = tc_plan_setup(&plan, setup);
    tc_edit_plan(state, &plan);
    tc_state_pop(state);
    if (left > 0)
        tc_state_say(state, "Off now, as typed for the setup before: %d. u undoes.", left);
}

static const struct tc_list_kind setup_list = {
    .fill = fill_setups,
    .present = present_setup,
    .take = take_setup,
};

/* How one candidate alone is equipped: as the plan says, or in a way of its own. */
static void fill_setups_one(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    fill_setups(state, about, sheet);
    tc_fill_choice(sheet, "as the plan says", "plan");
}

static const char *present_setup_one(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    const struct tc_candidate *candidate = tc_fill_candidate(state, about);
    (void)buffer;
    return candidate && candidate->setup[0] ? candidate->setup : "plan";
}

static void take_setup_one(struct tc_state *state, struct tc_list_about about, const char *setup)
{
    char path[48];
    snprintf(path, sizeof path, "candidate %d/setup", about.candidate + 1);
    tc_fill_take(state, path, setup);
}

static const struct tc_list_kind setup_one_list = {
    .fill = fill_setups_one,
    .present = present_setup_one,
    .take = take_setup_one,
};

/* Those somebody pays bills in, or the templates, which may leave open what only the user can say. */
static void add_regions(const struct tc_state *state, struct tc_sheet *sheet, const char *const *keys,
                        size_t key_count, bool templates)
{
    enum { SALES_TAX = 1, ELECTRICITY };
    const struct tc_stock *stock = state->options->stock;
    for (size_t i = 0; i < stock->region_count; i++) {
        const struct tc_region *region = &stock->regions[i];
        if (region->is_template != templates)
            continue;
        add_record(sheet, "region", region->name, region, keys, key_count, region->title,
                   tc_fill_units(state));
        if (templates && region->sales_tax == 0)
            tc_sheet_text(sheet, SALES_TAX, "missing");
        if (region->electricity.tariff[0])
            tc_sheet_text(sheet, ELECTRICITY, region->electricity.tariff);
    }
}

static void fill_regions(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    (void)about;
    static const char *const keys[] = {"currency", "sales-tax", "electricity"};
    enum { KEYS = sizeof keys / sizeof keys[0] };
    start_records(sheet, "Where they are bought and run", "region", keys, KEYS);
    add_regions(state, sheet, keys, KEYS, false);
    add_regions(state, sheet, keys, KEYS, true);
}

static const char *present_region(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    (void)about;
    (void)buffer;
    return state->now.plan.region;
}

/* What is typed for the plan's region stays there. */
static void take_region(struct tc_state *state, struct tc_list_about about, const char *region)
{
    (void)about;
    struct tc_plan plan;
    tc_plan_copy(&plan, &state->now.plan);
    int left = tc_plan_region(&plan, state->options->stock, region);
    tc_edit_plan(state, &plan);
    tc_state_pop(state);
    if (left > 0)
        tc_state_say(state, "Off now, as typed for the region before: %d. u undoes.", left);
}

static const struct tc_list_kind region_list = {
    .fill = fill_regions,
    .present = present_region,
    .take = take_region,
};

/* ------------------------------------------------------------------------- questions */

static void fill_questions(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    (void)state;
    (void)about;
    tc_sheet_start(sheet, "sheets", 2);
    tc_sheet_head(sheet, "Sheets", "", "sheet");
    tc_sheet_column(sheet, 0, "key", "");
    tc_fill_words(sheet, 1, "");
    for (size_t i = 0; tc_question_at(i); i++) {
        tc_fill_choice(sheet, tc_question_at(i)->name, tc_question_at(i)->name);
        if (i < 10)
            tc_sheet_text(sheet, 0, tc_sheet_format(sheet, "%zu", (i + 1) % 10));
        tc_sheet_text(sheet, 1, tc_question_at(i)->asks);
    }
}

static const char *present_question(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    (void)about;
    (void)buffer;
    return tc_state_question(state)->name;
}

static void take_question(struct tc_state *state, struct tc_list_about about, const char *name)
{
    (void)about;
    tc_state_pop(state);
    for (size_t i = 0; tc_question_at(i); i++)
        if (strcmp(tc_question_at(i)->name, name) == 0)
            tc_scroll_to_question(state, i);
}

/* The number of a sheet goes there at once. */
static bool type_question(struct tc_state *state, uint32_t code)
{
    size_t number = code == '0' ? 9 : (size_t)(code - '1');
    if (code < '0' || code > '9')
        return false;
    if (tc_question_at(number))
        take_question(state, tc_state_list(state)->about, tc_question_at(number)->name);
    return true;
}

static const struct tc_list_kind question_list = {
    .fill = fill_questions,
    .present = present_question,
    .take = take_question,
    .type = type_question,
};

/* -------------------------------------------------------------------------- opening */

void tc_lists_open(struct tc_state *state, int which)
{
    static const struct tc_list_kind *const kinds[] = {
        [TC_LISTS_TANKS] = &tc_list_tanks, [TC_LISTS_SETUPS] = &setup_list,
        [TC_LISTS_REGIONS] = &region_list, [TC_LISTS_BUYING] = &tc_list_buying,
        [TC_LISTS_SLOTS] = &tc_list_slots, [TC_LISTS_BUYING_ONE] = &tc_list_buying_one,
        [TC_LISTS_PLANS] = &tc_list_plans, [TC_LISTS_QUESTIONS] = &question_list,
    };
    int candidate = tc_state_candidate(state);
    if (candidate < 0 && (which == TC_LISTS_BUYING_ONE || which == TC_LISTS_SLOTS))
        tc_state_say(state, "No tank is selected: press t to choose tanks.");
    else
        tc_list_open(state, kinds[which], (struct tc_list_about){.candidate = candidate});
}

void tc_lists_open_parts(struct tc_state *state, int candidate, enum tc_slot slot)
{
    tc_list_open(state, &tc_list_parts, (struct tc_list_about){.candidate = candidate, .slot = slot});
}

void tc_lists_open_setup(struct tc_state *state, int candidate)
{
    tc_list_open(state, &setup_one_list, (struct tc_list_about){.candidate = candidate});
}

void tc_lists_open_part(struct tc_state *state, int unused)
{
    int candidate = tc_state_candidate(state);
    enum tc_slot slot;
    (void)unused;
    if (candidate >= 0 && tc_state_slot(state, &slot))
        tc_lists_open_parts(state, candidate, slot);
    else
        tc_lists_open(state, TC_LISTS_SLOTS);
}
