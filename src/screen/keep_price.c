/* SPDX-License-Identifier: MIT */
#include "screen/keep_price.h"

#include <stdio.h>
#include <string.h>

#include "screen/edit.h"
#include "screen/list.h"
#include "screen/list_fill.h"
#include "screen/section_file.h"
#include "sheet/unnamed.h"

/* A price that was typed: of a candidate's tank, or of the part in a slot. */
struct typed {
    char path[2 * TC_NAME_SIZE]; /* "candidate 2/lid-price" */
    int candidate;
    bool tank;
    enum tc_slot slot;
};

/* The typed price that the selected cell is about; false where that is none. */
static bool find_typed(const struct tc_state *state, struct typed *typed)
{
    const struct tc_cell *cell = tc_state_cell(state, NULL);
    struct tc_edit_path parts;
    if (!cell || !cell->edit)
        return false;
    tc_edit_take_apart(cell->edit, &parts);
    if (parts.candidate < 0 || parts.candidate >= state->now.plan.candidate_count)
        return false;
    typed->candidate = parts.candidate;
    typed->tank = strcmp(parts.key, "price") == 0;
    typed->slot = TC_SLOT_COUNT;
    bool part = tc_edit_slot_of(parts.key, "", &typed->slot); /* where the part itself stands */
    if (!typed->tank && !part && !tc_edit_slot_of(parts.key, "-price", &typed->slot))
        return false;
    snprintf(typed->path, sizeof typed->path, "%s%s", cell->edit, part ? "-price" : "");
    return tc_edit_typed(state, typed->path);
}

bool tc_keep_price_possible(const struct tc_state *state)
{
    struct typed typed;
    return find_typed(state, &typed);
}

/* The shop that it is bought at, where its lists may be written; else NULL, which is told. */
static const struct tc_shop *own_shop(struct tc_state *state, const struct typed *typed)
{
    char head[TC_SECTION_HEAD_SIZE];
    const struct tc_alternative *alternative = tc_state_alternative(state, typed->candidate);
    int line = typed->tank ? TC_BUY_TANK : TC_BUY_SLOTS + (int)typed->slot;
    const struct tc_shop *shop = !state->study ? NULL
                                 : alternative ? tc_study_shop_of(state->study, alternative, line)
                                               : state->study->shop;
    if (!shop) {
        tc_state_say(state, "The region has no shop: e makes one, which then has a list.");
        return NULL;
    }
    snprintf(head, sizeof head, "shop %s", shop->name);
    if (tc_section_is_own(state, tc_section_of(state, head)))
        return shop;
    tc_state_say(state, "%s came with the program: e makes a shop of your own, which then has a list.",
                 shop->name);
    return NULL;
}

/* Writes the price into the list, and takes it and an unnamed part out of the plan. */
static void keep(struct tc_state *state, const struct typed *typed, const char *item)
{
    char head[TC_SECTION_HEAD_SIZE], price[TC_VALUE_SIZE], part[2 * TC_NAME_SIZE], problem[TC_PROBLEM_SIZE];
    const struct tc_shop *shop = own_shop(state, typed);
    struct tc_plan plan;
    if (!shop)
        return;
    char name[TC_NAME_SIZE]; /* the shop's record is read anew as its list is written */
    snprintf(name, sizeof name, "%s", shop->name);
    tc_plan_copy(&plan, &state->now.plan);
    tc_plan_get(&plan, typed->path, price);
    snprintf(head, sizeof head, "prices %s %s", name, typed->tank ? "tank" : tc_slot_name(typed->slot));
    if (!tc_section_set(state, head, item, price))
        return;
    tc_plan_set(&plan, typed->path, "", problem);
    if (!typed->tank && strcmp(plan.candidate[typed->candidate].pin[typed->slot].part, TC_UNNAMED) == 0) {
        snprintf(part, sizeof part, "candidate %d/%s", typed->candidate + 1, tc_slot_name(typed->slot));
        tc_plan_set(&plan, part, item, problem);
    }
    tc_edit_plan(state, &plan);
    if (!state->warns)
        tc_state_say(state, "%s is %s at %s now, for all plans.", item, price, name);
}

/* ------------------------------------------------------------------------ of which part */

static void fill_named(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    const struct tc_stock *stock = state->options->stock;
    tc_sheet_start(sheet, "named", 1);
    tc_sheet_head(sheet, tc_sheet_format(sheet, "Which %s has this price?", tc_slot_word(about.slot)), "",
                  tc_slot_name(about.slot));
    tc_fill_words(sheet, 0, "");
    for (size_t i = 0; i < stock->part_count; i++) {
        if (stock->parts[i].slot != about.slot)
            continue;
        tc_fill_choice(sheet, stock->parts[i].goods.name, stock->parts[i].goods.name);
        tc_sheet_about(sheet, tc_slot_name(about.slot));
        tc_sheet_text(sheet, 0, stock->parts[i].goods.title);
    }
}

static void take_named(struct tc_state *state, struct tc_list_about about, const char *part)
{
    struct typed typed;
    (void)about;
    tc_state_pop(state);
    if (find_typed(state, &typed))
        keep(state, &typed, part);
}

static const struct tc_list_kind named_list = {.fill = fill_named, .take = take_named};

void tc_keep_price(struct tc_state *state, int unused)
{
    struct typed typed;
    (void)unused;
    if (!find_typed(state, &typed)) {
        tc_state_say(state, "No price was typed here; one that was can be kept in the shop's list.");
        return;
    }
    const struct tc_alternative *alternative = tc_state_alternative(state, typed.candidate);
    const struct tc_offer *offer =
        alternative && !typed.tank ? alternative->equipment.slot[typed.slot].offer : NULL;
    const struct tc_candidate *candidate = &state->now.plan.candidate[typed.candidate];
    if (!own_shop(state, &typed))
        return;
    if (typed.tank)
        keep(state, &typed, candidate->tank);
    else if (offer && strcmp(offer->part->goods.name, TC_UNNAMED) != 0)
        keep(state, &typed, offer->part->goods.name);
    else
        tc_list_open(state, &named_list,
                     (struct tc_list_about){.candidate = typed.candidate, .slot = typed.slot});
}
