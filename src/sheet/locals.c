/* SPDX-License-Identifier: MIT */
#include "sheet/locals.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "profile/template.h"

void tc_locals_free(struct tc_locals *locals)
{
    free(locals->regions);
    free(locals->local);
    free(locals->conversion);
    *locals = (struct tc_locals){.own = -1};
}

const char *tc_locals_head(const struct tc_locals *locals, int candidate)
{
    for (size_t i = 0; i < locals->count; i++)
        if (locals->local[i].cost[candidate].there)
            return locals->local[i].cost[candidate].head;
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

static enum tc_status choose_money(struct tc_locals *locals, const struct tc_ask *ask)
{
    locals->money = locals->study->region.currency;
    if (!ask->money || tc_currency_find(ask->money, &locals->money))
        return TC_OK;
    size_t count = 0;
    while (tc_currency_code(count))
        count++;
    return refuse(ask, "no currency", ask->money, tc_name_nearest(ask->money, code_at, NULL, count));
}

static void add_region(struct tc_locals *locals, const struct tc_region *region)
{
    for (size_t i = 0; i < locals->count; i++)
        if (locals->regions[i] == region)
            return;
    if (strcmp(region->name, locals->study->plan.region) == 0)
        locals->own = (int)locals->count;
    locals->regions[locals->count++] = region;
}

/* The plan's region first: the others are compared with it. */
static void add_all(struct tc_locals *locals)
{
    const struct tc_stock *stock = locals->study->stock;
    const struct tc_plan *plan = &locals->study->plan;
    add_region(locals, tc_stock_region(stock, plan->region));
    for (size_t i = 0; i < stock->region_count; i++) {
        const struct tc_region *region = &stock->regions[i];
        if (tc_template_gaps(stock, region, plan, TC_ASK_NEEDED, NULL) > 0)
            locals->templates++;
        else
            add_region(locals, region);
    }
}

static enum tc_status choose_regions(struct tc_locals *locals, const struct tc_ask *ask)
{
    const struct tc_stock *stock = locals->study->stock;
    const struct tc_plan *plan = &locals->study->plan;
    locals->regions = calloc(stock->region_count, sizeof *locals->regions); /* the plan's is one of them */
    if (!locals->regions)
        return TC_NO_MEMORY;
    if (plan->region_count == 0)
        add_all(locals);
    for (int i = 0; i < plan->region_count; i++) {
        const struct tc_region *region = tc_stock_region(stock, plan->regions[i]);
        if (!region)
            return refuse(ask, "no region", plan->regions[i],
                          tc_stock_nearest(stock, "region", plan->regions[i]));
        add_region(locals, region);
    }
    return TC_OK;
}

/* ------------------------------------------------------------------------ working out */

static enum tc_status make_each(struct tc_locals *locals, const struct tc_ask *ask)
{
    enum tc_status status = TC_OK;
    locals->local = calloc(locals->count, sizeof *locals->local);
    if (!locals->local)
        return TC_NO_MEMORY;
    for (size_t i = 0; status == TC_OK && i < locals->count; i++) {
        if (ask->go_on && !ask->go_on(ask->context, (double)i / (double)locals->count))
            return TC_STOPPED;
        status = tc_local_make(&locals->local[i], locals->study, locals->regions[i]);
    }
    return status;
}

/* By what all region profiles of the stock quote. */
static enum tc_status find_conversions(struct tc_locals *locals)
{
    const struct tc_stock *stock = locals->study->stock;
    size_t count = stock->region_count;
    struct tc_quote *quotes = calloc(count, sizeof *quotes);
    locals->conversion = calloc(locals->count, sizeof *locals->conversion);
    if (!quotes || !locals->conversion) {
        free(quotes);
        return TC_NO_MEMORY;
    }
    for (size_t i = 0; i < count; i++) {
        const struct tc_region *region = &stock->regions[i];
        quotes[i] = (struct tc_quote){region->currency, region->exchange.currency, region->exchange.amount,
                                      region->exchange_date};
    }
    for (size_t i = 0; i < locals->count; i++)
        if (tc_conversion_find(&locals->conversion[i], quotes, (int)count, locals->local[i].currency,
                               locals->money) != TC_OK)
            locals->conversion[i].rate = 0;
    free(quotes);
    return TC_OK;
}

enum tc_status tc_locals_make(struct tc_locals *locals, const struct tc_study *study,
                              const struct tc_ask *ask)
{
    *locals = (struct tc_locals){.study = study, .own = -1};
    enum tc_status status = choose_money(locals, ask);
    if (status == TC_OK)
        status = choose_regions(locals, ask);
    if (status == TC_OK)
        status = make_each(locals, ask);
    if (status == TC_OK)
        status = find_conversions(locals);
    return status;
}
