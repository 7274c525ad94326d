/* SPDX-License-Identifier: MIT */
#include "sheet/region_costs.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "profile/template.h"

void tc_region_costs_free(struct tc_region_costs *regions)
{
    free(regions->regions);
    free(regions->local);
    free(regions->conversion);
    *regions = (struct tc_region_costs){.own = -1};
}

const char *tc_region_costs_head(const struct tc_region_costs *regions, int candidate)
{
    for (size_t i = 0; i < regions->count; i++)
        if (regions->local[i].cost[candidate].there)
            return regions->local[i].cost[candidate].head;
    return NULL;
}

/* ---------------------------------------------------------------------- what is asked */

static enum tc_status refuse(const struct tc_ask *ask, const char *what, const char *name,
                             const char *nearest)
{
    if (ask->problem && nearest)
        snprintf(ask->problem, TC_PROBLEM_SIZE, "%s '%.80s'; did you mean '%s'?", what, name, nearest);
    else if (ask->problem)
        snprintf(ask->problem, TC_PROBLEM_SIZE, "%s '%.80s'", what, name);
    return TC_SYNTAX;
}

static const char *code_at(const void *context, size_t i)
{
    (void)context;
    return tc_currency_code(i);
}

static enum tc_status choose_money(struct tc_region_costs *regions, const struct tc_ask *ask)
{
    regions->money = regions->study->region.currency;
    if (!ask->money || tc_currency_find(ask->money, &regions->money))
        return TC_OK;
    size_t count = 0;
    while (tc_currency_code(count))
        count++;
    return refuse(ask, "no currency", ask->money, tc_name_nearest(ask->money, code_at, NULL, count));
}

static void add_region(struct tc_region_costs *regions, const struct tc_region *region)
{
    for (size_t i = 0; i < regions->count; i++)
        if (regions->regions[i] == region)
            return;
    if (strcmp(region->name, regions->study->plan.region) == 0)
        regions->own = (int)regions->count;
    regions->regions[regions->count++] = region;
}

/* The plan's region first: the others are compared with it. */
static void add_all(struct tc_region_costs *regions)
{
    const struct tc_stock *stock = regions->study->stock;
    const struct tc_plan *plan = &regions->study->plan;
    add_region(regions, tc_stock_region(stock, plan->region));
    for (size_t i = 0; i < stock->region_count; i++) {
        const struct tc_region *region = &stock->regions[i];
        if (tc_template_gaps(stock, region, plan, TC_ASK_NEEDED, NULL) > 0)
            regions->templates++;
        else
            add_region(regions, region);
    }
}

static enum tc_status choose_regions(struct tc_region_costs *regions, const struct tc_ask *ask)
{
    const struct tc_stock *stock = regions->study->stock;
    const struct tc_plan *plan = &regions->study->plan;
    regions->regions = calloc(stock->region_count, sizeof *regions->regions); /* the plan's is one of them */
    if (!regions->regions)
        return TC_NO_MEMORY;
    if (plan->region_count == 0)
        add_all(regions);
    for (int i = 0; i < plan->region_count; i++) {
        const struct tc_region *region = tc_stock_region(stock, plan->regions[i]);
        if (!region)
            return refuse(ask, "no region", plan->regions[i],
                          tc_stock_nearest(stock, "region", plan->regions[i]));
        add_region(regions, region);
    }
    return TC_OK;
}

/* ------------------------------------------------------------------------ working out */

static enum tc_status make_each(struct tc_region_costs *regions, const struct tc_ask *ask,
                                struct tc_sheet *sheet)
{
    enum tc_status status = TC_OK;
    regions->local = calloc(regions->count, sizeof *regions->local);
    if (!regions->local)
        return TC_NO_MEMORY;
    for (size_t i = 0; status == TC_OK && i < regions->count; i++) {
        if (ask->go_on && !ask->go_on(ask->context, (double)i / (double)regions->count)) {
            regions->left = regions->count - i;
            regions->count = i;
            return i > 0 && ask->partial ? TC_OK : TC_STOPPED;
        }
        status = tc_region_cost_make(&regions->local[i], regions->study, regions->regions[i], sheet);
    }
    return status;
}

static enum tc_status find_conversions(struct tc_region_costs *regions)
{
    const struct tc_stock *stock = regions->study->stock;
    struct tc_quote *quotes = tc_region_quotes(stock);
    regions->conversion = calloc(regions->count, sizeof *regions->conversion);
    if (!quotes || !regions->conversion) {
        free(quotes);
        return TC_NO_MEMORY;
    }
    for (size_t i = 0; i < regions->count; i++)
        if (tc_conversion_find(&regions->conversion[i], quotes, (int)stock->region_count,
                               regions->local[i].currency, regions->money) != TC_OK)
            regions->conversion[i].rate = 0;
    free(quotes);
    return TC_OK;
}

enum tc_status tc_region_costs_find(struct tc_region_costs *regions, const struct tc_study *study,
                                    const struct tc_ask *ask)
{
    *regions = (struct tc_region_costs){.study = study, .own = -1};
    enum tc_status status = choose_money(regions, ask);
    if (status == TC_OK)
        status = choose_regions(regions, ask);
    return status;
}

enum tc_status tc_region_costs_make(struct tc_region_costs *regions, const struct tc_ask *ask,
                                    struct tc_sheet *sheet)
{
    enum tc_status status = make_each(regions, ask, sheet);
    return status == TC_OK ? find_conversions(regions) : status;
}
