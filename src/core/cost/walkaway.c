/* SPDX-License-Identifier: MIT */
#include "core/cost/walkaway.h"

#include <stdbool.h>
#include <stdlib.h>

struct search {
    const struct tc_case *c;
    const struct tc_equipment *equipment;
    const struct tc_deal *deal; /* as it is */
    struct tc_prices prices;
    struct tc_cost cost;
    tc_money target;
    enum tc_status status;
};

/* Whether the candidate is no dearer to own than the target when a tank costs this much. */
static bool worth_it(struct search *search, tc_money price)
{
    search->prices.deal = *search->deal;
    enum tc_status status = tc_deal_at_price(&search->prices.deal, price);
    if (status == TC_OK)
        status = tc_cost_reprice(search->c, search->equipment, &search->prices, &search->cost);
    if (status != TC_OK)
        search->status = status;
    return status == TC_OK && search->cost.present_value <= search->target;
}

/* The highest price in low..high that is worth it; false where not even low is. */
static bool highest(struct search *search, tc_money low, tc_money high, tc_money *price)
{
    if (low > high || !worth_it(search, low))
        return false;
    while (low < high) {
        tc_money middle = low + (high - low + 1) / 2;
        if (worth_it(search, middle))
            low = middle;
        else
            high = middle - 1;
    }
    *price = low;
    return true;
}

/* The lowest price of a tank at which goods with so much for parts are delivered free, or 0 where no price
 * makes a difference. */
static tc_money free_delivery_from(struct search *search, tc_money free_from, tc_money parts)
{
    tc_money rest = tc_money_subtract(free_from, parts, &search->status);
    int quantity = search->prices.deal.quantity;
    tc_money step = rest > 0 ? (rest + quantity - 1) / quantity : 0;
    return step <= TC_WALKAWAY_MOST ? step : 0;
}

static int dearest_first(const void *a, const void *b)
{
    const tc_money *left = a, *right = b;
    return (*left < *right) - (*left > *right);
}

/*
 * All prices at which delivery may become free, the highest first; how many. In a market any of the parts
 * that the tank's shop sells may be bought with it.
 */
static int find_steps(struct search *search, tc_money steps[1 << TC_SLOT_COUNT])
{
    const struct tc_case *c = search->c;
    const struct tc_deal *deal = search->deal;
    enum tc_status *status = &search->status;
    if (!c->market) {
        const struct tc_region *region = c->region;
        tc_money free_from = tc_currency_money(region->currency, region->delivery_free_from, status);
        tc_money parts = tc_money_sum(&search->cost.buy[TC_BUY_SLOTS], TC_SLOT_COUNT, status);
        steps[0] = free_delivery_from(search, free_from, parts);
        return 1;
    }
    int count = 1;
    tc_money sums[1 << TC_SLOT_COUNT] = {0};
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        tc_money price = tc_purchase_slot_at(c, search->equipment, &search->prices, (enum tc_slot)slot,
                                             deal->shop, status);
        for (int i = 0, before = count; price > 0 && i < before; i++)
            sums[count++] = tc_money_add(sums[i], price, status);
    }
    for (int i = 0; i < count; i++)
        steps[i] = free_delivery_from(search, c->market->shop[deal->shop].free_from, sums[i]);
    qsort(steps, (size_t)count, sizeof *steps, dearest_first);
    return count;
}

enum tc_status tc_walkaway_find(const struct tc_case *c, const struct tc_equipment *equipment,
                                const struct tc_prices *prices, const struct tc_cost *cost, tc_money target,
                                struct tc_walkaway *walkaway)
{
    struct search search = {c, equipment, &prices->deal, *prices, *cost, target, TC_OK};
    tc_money steps[(1 << TC_SLOT_COUNT) + 1], most = TC_WALKAWAY_MOST;
    int count = find_steps(&search, steps);
    bool found = false;
    steps[count++] = 0;
    *walkaway = (struct tc_walkaway){.kind = TC_WALKAWAY_PRICE};
    for (int i = 0; i < count && !found; most = steps[i] - 1, i++)
        found = highest(&search, steps[i], most, &walkaway->price);
    if (!found)
        walkaway->kind = TC_WALKAWAY_NONE;
    else if (walkaway->price == TC_WALKAWAY_MOST)
        walkaway->kind = TC_WALKAWAY_ANY;
    return search.status;
}
