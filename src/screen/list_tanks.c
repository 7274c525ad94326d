/* SPDX-License-Identifier: MIT */
#include "screen/list_tanks.h"

#include <stdio.h>
#include <string.h>

#include "screen/edit.h"
#include "screen/list_fill.h"
#include "sheet/phrase.h"

/* --------------------------------------------------------------------------- tanks */

/* What decides first: a narrow screen shows the first columns only. */
enum tank_column { TANK_COUNT, TANK_VOLUME, TANK_PRICE, TANK_SALE, TANK_SIZE, TANK_TITLE, TANK_COLUMNS };

/* The first sale of the region that covers the tank today; NULL where none does. */
static const struct tc_sale *sale_today(const struct tc_state *state, const struct tc_region *region,
                                        const struct tc_tank *tank)
{
    const struct tc_stock *stock = state->options->stock;
    for (size_t i = 0; region && i < stock->sale_count; i++) {
        const struct tc_sale *sale = &stock->sales[i];
        if (tc_stock_sale_in(stock, sale, region->name) && tc_sale_covers(sale, tank) &&
            tc_sale_runs(sale, state->options->today))
            return sale;
    }
    return NULL;
}

static int count_in_plan(const struct tc_plan *plan, const char *tank)
{
    int count = 0;
    for (int i = 0; i < plan->candidate_count; i++)
        if (strcmp(plan->candidate[i].tank, tank) == 0)
            count += plan->candidate[i].quantity;
    return count;
}

static void add_tank(struct tc_sheet *sheet, const struct tc_state *state, const struct tc_region *region,
                     const struct tc_tank *tank)
{
    enum tc_unit_system units = tc_fill_units(state);
    char words[TC_WORDS_SIZE];
    const struct tc_sale *sale = sale_today(state, region, tank);
    int count = count_in_plan(&state->now.plan, tank->goods.name);
    tc_fill_choice(sheet, tank->goods.name, tank->goods.name);
    tc_sheet_about(sheet, "tank");
    if (count > 0)
        tc_sheet_text(sheet, TANK_COUNT, tc_sheet_format(sheet, "%d ×", count));
    tc_sheet_text(sheet, TANK_SIZE, tc_phrase_size(words, tank->length, tank->width, tank->height, units));
    tc_sheet_text(sheet, TANK_VOLUME,
                  tc_unit_quantity_write(words, tank->nominal_volume, TC_DIM_VOLUME, units, 0));
    tc_fill_price(sheet, TANK_PRICE, state, region, -1, &tank->goods);
    tc_sheet_text(sheet, TANK_SALE, sale ? sale->name : tank->special_order ? "special order" : "");
    tc_sheet_text(sheet, TANK_TITLE, tank->goods.title);
}

static void fill_tanks(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    (void)about;
    const struct tc_stock *stock = state->options->stock;
    const struct tc_region *region = tc_edit_region(state);
    tc_sheet_start(sheet, "tanks", TANK_COLUMNS);
    tc_sheet_head(sheet, "Tanks to compare", "", "tank");
    tc_sheet_column(sheet, TANK_COUNT, "count", "");
    tc_sheet_column(sheet, TANK_SIZE, "outside", "");
    tc_sheet_column(sheet, TANK_VOLUME, "nominal", "");
    tc_sheet_column(sheet, TANK_PRICE, "price", "");
    tc_fill_words(sheet, TANK_SALE, "sale today");
    tc_fill_words(sheet, TANK_TITLE, "");
    for (size_t i = 0; i < stock->tank_count; i++)
        add_tank(sheet, state, region, &stock->tanks[i]);
}

/* The candidate that the list of tanks counts up and down: the last of that tank. */
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
    tc_plan_copy(&plan, &state->now.plan);
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
    tc_edit_plan(state, &plan);
}

static void step_tank(struct tc_state *state, const char *tank, int by)
{
    if (!*tank)
        return;
    int candidate = candidate_of_tank(&state->now.plan, tank);
    int quantity = candidate >= 0 ? state->now.plan.candidate[candidate].quantity : 0;
    set_count(state, tank, quantity + by);
}

static void take_tank(struct tc_state *state, struct tc_list_about about, const char *tank)
{
    (void)about;
    set_count(state, tank, candidate_of_tank(&state->now.plan, tank) < 0);
}

static const char *present_tank(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    const struct tc_candidate *candidate = tc_fill_candidate(state, about);
    (void)buffer;
    return candidate ? candidate->tank : "";
}

const struct tc_list_kind tc_list_tanks = {
    .fill = fill_tanks,
    .present = present_tank,
    .take = take_tank,
    .step = step_tank,
    .counts = true,
};
