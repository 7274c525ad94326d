/* SPDX-License-Identifier: MIT */
#include "profile/plan_region.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* A way to buy that the region knows, in place of a sale of another one. */
static int move_sale(const struct tc_stock *stock, const char *region, char sale[TC_NAME_SIZE])
{
    const struct tc_sale *named = tc_stock_sale(stock, sale);
    if (!named || tc_stock_sale_in(stock, named, region))
        return 0;
    memset(sale, 0, TC_NAME_SIZE); /* plans are compared to the last byte */
    memcpy(sale, "best", sizeof "best");
    return 1;
}

/* Takes a figure of the plan back, a range with it. */
static int take_back(struct tc_plan *plan, const char *group, const char *key, const char *ending)
{
    char path[4 * TC_NAME_SIZE], problem[TC_PROBLEM_SIZE];
    snprintf(path, sizeof path, "%s/%s%s", group, key, ending);
    return tc_plan_set(plan, path, "", problem);
}

static int move_candidate(struct tc_plan *plan, const struct tc_stock *stock, int i)
{
    struct tc_candidate *candidate = &plan->candidate[i];
    char group[TC_NAME_SIZE];
    int count = move_sale(stock, plan->region, candidate->sale);
    snprintf(group, sizeof group, "candidate %d", i + 1);
    if (!isnan(candidate->price)) {
        count += take_back(plan, group, "price", "");
        take_back(plan, group, "life", "");
    }
    if (candidate->shop[0] != '\0')
        count += take_back(plan, group, "shop", "");
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const char *kind = tc_slot_name((enum tc_slot)slot);
        if (candidate->pin[slot].shop[0] != '\0')
            count += take_back(plan, group, kind, "-shop");
        if (!isnan(candidate->pin[slot].next))
            count += take_back(plan, group, kind, "-next-price");
        if (isnan(candidate->pin[slot].price))
            continue;
        count += take_back(plan, group, kind, "-price");
        take_back(plan, group, kind, "-life");
    }
    return count;
}

static int leave_money(struct tc_plan *plan)
{
    static const struct {
        const char *group, *key;
    } figures[] = {{"plan", "hour-worth"}, {"plan", "waiting-cost"}, {"wall", "budget"},
                   {"wall", "rack-price"}, {"wall", "timer-price"},  {"space", "budget"}};
    int count = 0;
    for (size_t i = 0; i < sizeof figures / sizeof figures[0]; i++) {
        char path[2 * TC_NAME_SIZE], before[TC_VALUE_SIZE], after[TC_VALUE_SIZE];
        snprintf(path, sizeof path, "%s/%s", figures[i].group, figures[i].key);
        bool known = tc_plan_get(plan, path, before);
        take_back(plan, figures[i].group, figures[i].key, "");
        count += known && tc_plan_get(plan, path, after) && strcmp(before, after) != 0;
    }
    return count;
}

/* Takes back what is typed over the setup, or else over the region and its shops. */
static int drop_overrides(struct tc_plan *plan, bool of_setup)
{
    int count = 0;
    for (int i = plan->override_count; i-- > 0;) {
        char key[TC_NAME_SIZE], group[2 * TC_NAME_SIZE];
        const struct tc_override *override = &plan->override[i];
        bool shop = override->shop[0] != '\0';
        if (strcmp(override->kind, "setup") == 0 ? !of_setup : of_setup)
            continue;
        memcpy(key, override->key, sizeof key); /* a path may not lie in the plan */
        snprintf(group, sizeof group, "%s%s%s", override->kind, shop ? " " : "", override->shop);
        count += take_back(plan, group, key, "");
    }
    return count;
}

int tc_plan_setup(struct tc_plan *plan, const char *setup)
{
    bool first = plan->setup[0] == '\0';
    if (strcmp(plan->setup, setup) == 0)
        return 0;
    memset(plan->setup, 0, sizeof plan->setup);
    snprintf(plan->setup, sizeof plan->setup, "%s", setup);
    return first ? 0 : drop_overrides(plan, true);
}

int tc_plan_region(struct tc_plan *plan, const struct tc_stock *stock, const char *region)
{
    const struct tc_region *from = tc_stock_region(stock, plan->region), *to = tc_stock_region(stock, region);
    bool first = plan->region[0] == '\0';
    int count = 0;
    if (strcmp(plan->region, region) == 0)
        return 0;
    memset(plan->region, 0, sizeof plan->region);
    snprintf(plan->region, sizeof plan->region, "%s", region);
    if (first)
        return 0;
    count += move_sale(stock, region, plan->sale);
    if (tc_plan_shop(plan)[0] != '\0') {
        memset(plan->shop, 0, sizeof plan->shop);
        count++;
    }
    for (int i = 0; i < plan->candidate_count; i++)
        count += move_candidate(plan, stock, i);
    count += drop_overrides(plan, false);
    if (!from || !to || strcmp(from->currency.code, to->currency.code) != 0)
        count += leave_money(plan);
    return count;
}
