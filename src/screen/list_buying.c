/* SPDX-License-Identifier: MIT */
#include "screen/list_buying.h"

#include <stdio.h>

#include "screen/edit.h"
#include "screen/list_fill.h"
#include "sheet/study_deal.h"

/* -------------------------------------------------------------------------- buying */

static void add_way(struct tc_sheet *sheet, const struct tc_state *state, const char *way, const char *label,
                    const char *when, int only)
{
    size_t column = 0;
    tc_fill_choice(sheet, label, way);
    for (int i = 0; state->study && i < state->study->alternative_count; i++) {
        const struct tc_alternative *alternative = &state->study->alternatives[i];
        struct tc_way bought;
        struct tc_deal deal;
        if (only >= 0 && alternative->index != only)
            continue;
        if (tc_study_way_find(state->study, way, &bought) &&
            tc_study_deal(state->study, alternative, bought, &deal) == TC_OK && deal.known)
            tc_sheet_money(sheet, column, deal.each, state->study->region.currency);
        else
            tc_sheet_missing(sheet, column, "no price");
        column++;
    }
    tc_sheet_text(sheet, column, when);
}

/* The prices of all candidates each way, or of one. */
static void make_buying(const struct tc_state *state, int only, struct tc_sheet *sheet)
{
    const struct tc_stock *stock = state->options->stock;
    const struct tc_region *region = tc_edit_region(state);
    int alternatives = state->study ? state->study->alternative_count : 0;
    size_t columns = 0;
    for (int i = 0; i < alternatives; i++)
        columns += only < 0 || state->study->alternatives[i].index == only;
    tc_sheet_start(sheet, "buying", columns + 1);
    tc_sheet_head(sheet, only < 0 ? "How the tanks are bought" : "How this tank is bought", "",
                  "price of one");
    columns = 0;
    for (int i = 0; i < alternatives; i++)
        if (only < 0 || state->study->alternatives[i].index == only)
            tc_sheet_column(sheet, columns++, state->study->alternatives[i].plan->tank, "");
    tc_fill_words(sheet, columns, "");
    if (only >= 0)
        add_way(sheet, state, state->now.plan.sale, "as the plan says", "", only);
    if (only >= 0)
        tc_sheet_edit(sheet, 0, "plan");
    add_way(sheet, state, "best", "best",
            "the cheapest to own of the list price and the sales that run today", only);
    add_way(sheet, state, "list", "list", "the list price", only);
    add_way(sheet, state, "order", "order", "special order: the list price and the region's fee", only);
    for (size_t i = 0; region && i < stock->sale_count; i++) {
        const struct tc_sale *sale = &stock->sales[i];
        if (!tc_stock_sale_in(stock, sale, region->name))
            continue;
        const char *when = tc_sale_runs(sale, state->options->today) ? "runs today" : "does not run today";
        if (sale->title[0])
            when = tc_sheet_format(sheet, "%s; %s", sale->title, when);
        add_way(sheet, state, sale->name, sale->name, when, only);
    }
}

static void fill_buying(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    (void)about;
    make_buying(state, -1, sheet);
}

static const char *present_buying(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    (void)about;
    (void)buffer;
    return state->now.plan.sale;
}

static void take_buying(struct tc_state *state, struct tc_list_about about, const char *way)
{
    (void)about;
    tc_fill_take(state, "plan/sale", way);
}

const struct tc_list_kind tc_list_buying = {
    .fill = fill_buying,
    .present = present_buying,
    .take = take_buying,
};

static void fill_buying_one(const struct tc_state *state, struct tc_list_about about, struct tc_sheet *sheet)
{
    make_buying(state, about.candidate, sheet);
}

static const char *present_buying_one(const struct tc_state *state, struct tc_list_about about, char *buffer)
{
    const struct tc_candidate *candidate = tc_fill_candidate(state, about);
    (void)buffer;
    return candidate && candidate->sale[0] ? candidate->sale : "plan";
}

static void take_buying_one(struct tc_state *state, struct tc_list_about about, const char *way)
{
    char path[48];
    snprintf(path, sizeof path, "candidate %d/sale", about.candidate + 1);
    tc_fill_take(state, path, way);
}

const struct tc_list_kind tc_list_buying_one = {
    .fill = fill_buying_one,
    .present = present_buying_one,
    .take = take_buying_one,
};
