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

/* What a shop asks for each tank, or for that of one candidate; NULL: any shop, of which nothing is told. */
static void add_shop(struct tc_sheet *sheet, const struct tc_state *state, const struct tc_shop *shop,
                     const char *name, const char *label, const char *when, int only)
{
    const struct tc_study *study = state->study;
    size_t column = 0;
    tc_fill_choice(sheet, label, tc_fill_shop(sheet, name));
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        enum tc_status status = TC_OK;
        double amount;
        if (only >= 0 && alternative->index != only)
            continue;
        const struct tc_goods *goods = &alternative->c.tank.goods;
        if (shop && tc_stock_asked(study->stock, &study->region, shop, -1, goods, &amount))
            tc_sheet_money(sheet, column, tc_currency_money(study->region.currency, amount, &status),
                           study->region.currency);
        else if (shop)
            tc_sheet_missing(sheet, column, "no price");
        column++;
    }
    const struct tc_candidate *candidate = only < 0 ? NULL : &state->now.plan.candidate[only];
    const char *now = candidate ? tc_fill_now(candidate->shop, "plan", name)
                                : tc_fill_now(state->now.plan.shop, "any", name);
    tc_sheet_text(sheet, column, *now ? tc_sheet_format(sheet, "%s; %s", now, when) : when);
}

/* At which shop: of a place that has several. */
static void add_shops(struct tc_sheet *sheet, const struct tc_state *state, int only)
{
    const struct tc_study *study = state->study;
    if (!study || study->shop_count < 2)
        return;
    if (only < 0) {
        add_shop(sheet, state, study->shops[0], "any", "all at the first shop",
                 "everything at one shop, the first of the region", only);
        add_shop(sheet, state, NULL, TC_ONE_SHOP, "all at one shop",
                 "the one where all of a tank costs least", only);
        add_shop(sheet, state, NULL, TC_SEVERAL, "at several shops",
                 "each thing where all together costs least", only);
    } else {
        add_shop(sheet, state, NULL, "plan", "shop: as the plan says", "", only);
    }
    for (int s = 0; s < study->shop_count; s++) {
        const struct tc_shop *shop = study->shops[s];
        add_shop(sheet, state, shop, shop->name,
                 tc_sheet_format(sheet, only < 0 ? "all at %s" : "at %s", shop->name), shop->title, only);
    }
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
    add_shops(sheet, state, only);
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
    const char *shop = tc_fill_shop_of(way);
    (void)about;
    tc_fill_take(state, shop ? "plan/shop" : "plan/sale", shop ? shop : way);
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
    const char *shop = tc_fill_shop_of(way);
    snprintf(path, sizeof path, "candidate %d/%s", about.candidate + 1, shop ? "shop" : "sale");
    tc_fill_take(state, path, shop ? shop : way);
}

const struct tc_list_kind tc_list_buying_one = {
    .fill = fill_buying_one,
    .present = present_buying_one,
    .take = take_buying_one,
};
