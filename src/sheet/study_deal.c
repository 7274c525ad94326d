/* SPDX-License-Identifier: MIT */
#include "sheet/study_deal.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/cost/choose.h"
#include "core/cost/counter_make.h"
#include "core/cost/swap.h"
#include "sheet/study_market.h"

bool tc_study_sale_here(const struct tc_study *study, const struct tc_alternative *alternative,
                        const struct tc_sale *sale)
{
    if (!alternative->c.market)
        return study->shop && strcmp(sale->shop, study->shop->name) == 0;
    int place = tc_study_shop_place(study, sale->shop);
    return place >= 0 && tc_study_may_buy(study, alternative->plan->shop, place);
}

bool tc_study_way_find(const struct tc_study *study, const char *name, struct tc_way *way)
{
    *way = (struct tc_way){.kind = TC_WAY_SALE};
    if (tc_plan_way(name, &way->kind))
        return true;
    way->sale = tc_stock_sale(study->stock, name);
    return way->sale != NULL;
}

static void describe_deal(const struct tc_deal *deal, char how[TC_NAME_SIZE + 48])
{
    size_t size = TC_NAME_SIZE + 48;
    switch (deal->kind) {
    case TC_DEAL_LIST: snprintf(how, size, "%s", deal->known ? "list price" : "no price here"); break;
    case TC_DEAL_ORDER: snprintf(how, size, "%s", deal->known ? "special order" : "no price here"); break;
    case TC_DEAL_TYPED: snprintf(how, size, "typed by hand"); break;
    case TC_DEAL_SALE: snprintf(how, size, "sale %s", deal->sale->name); break;
    }
}

/* Whether a sale can be had for an alternative's tanks, dates apart. */
static bool on_offer(const struct tc_study *study, const struct tc_alternative *alternative,
                     const struct tc_sale *sale)
{
    return tc_study_sale_here(study, alternative, sale) && tc_sale_covers(sale, &alternative->c.tank);
}

static void put_sale(const struct tc_study *study, const struct tc_sale *sale, struct tc_deal_terms *terms)
{
    int place = tc_study_shop_place(study, sale->shop);
    terms->sale = sale;
    terms->sale_shop = place > 0 ? place : 0;
}

/* The present value with a deal on these terms. TC_NO_RESULT where there is no price. */
static enum tc_status try_terms(const struct tc_study *study, const struct tc_alternative *alternative,
                                const struct tc_deal_terms *terms, struct tc_cost *cost)
{
    struct tc_deal deal;
    struct tc_equipment equipment;
    struct tc_prices prices;
    enum tc_status status = tc_deal_make(terms, &deal);
    if (status == TC_OK && !deal.known)
        status = TC_NO_RESULT;
    return status == TC_OK ? tc_study_cost(study, alternative, &deal, &equipment, &prices, cost) : status;
}

/* What is known of the cheapest of several terms. */
struct best_terms {
    bool compared; /* something was tried */
    bool known;    /* and could be worked out */
    struct tc_cost cost;
};

/* Tries terms; whether they are the best so far. What is not known is no reason to take them. */
static bool is_best(const struct tc_study *study, const struct tc_alternative *alternative,
                    const struct tc_deal_terms *terms, struct best_terms *best, enum tc_status *status)
{
    struct tc_cost cost;
    *status = try_terms(study, alternative, terms, &cost);
    best->compared = true;
    if (*status != TC_OK)
        return false;
    bool better = !best->known || cost.incomplete < best->cost.incomplete ||
                  (cost.incomplete == best->cost.incomplete && cost.present_value < best->cost.present_value);
    if (!better)
        return false;
    best->known = true;
    best->cost = cost;
    return true;
}

static bool goes_on(enum tc_status status)
{
    return status == TC_OK || status == TC_NO_RESULT;
}

/* Puts the sale that is cheapest to own into terms that have none; none where the list price is. */
static enum tc_status find_best(const struct tc_study *study, const struct tc_alternative *alternative,
                                struct tc_deal_terms *terms)
{
    const struct tc_deal_terms listed = *terms;
    struct best_terms best = {.compared = false};
    enum tc_status status = TC_OK;
    for (size_t i = 0; i < study->stock->sale_count && goes_on(status); i++) {
        struct tc_deal_terms other = listed;
        put_sale(study, &study->stock->sales[i], &other);
        if (!on_offer(study, alternative, other.sale) || !tc_sale_runs(other.sale, study->today))
            continue;
        if (!best.compared) /* with the list price, now that there is something to compare */
            (void)is_best(study, alternative, &listed, &best, &status);
        if (goes_on(status) && is_best(study, alternative, &other, &best, &status))
            *terms = other;
    }
    return status == TC_NO_RESULT ? TC_OK : status;
}

/* The terms of a way of the shop's, no price typed. */
static enum tc_status shop_terms(const struct tc_study *study, const struct tc_alternative *alternative,
                                 struct tc_way way, struct tc_deal_terms *terms)
{
    *terms = alternative->terms;
    terms->typed = false;
    terms->ordered = alternative->c.tank.special_order || way.kind == TC_WAY_ORDER;
    terms->sale = NULL;
    for (int s = 0; s < terms->shops; s++) /* another way may be cheaper at another shop */
        terms->shop[s].open = tc_study_may_buy(study, alternative->plan->shop, s);
    if (way.sale && on_offer(study, alternative, way.sale))
        put_sale(study, way.sale, terms);
    return way.kind == TC_WAY_BEST ? find_best(study, alternative, terms) : TC_OK;
}

enum tc_status tc_study_deal(const struct tc_study *study, const struct tc_alternative *alternative,
                             struct tc_way way, struct tc_deal *deal)
{
    struct tc_deal_terms terms = alternative->terms;
    enum tc_status status = TC_OK;
    if (way.kind != TC_WAY_PLAN) {
        status = shop_terms(study, alternative, way, &terms);
        terms.typed = alternative->terms.typed && way.kind == TC_WAY_SALE;
    }
    return status == TC_OK ? tc_deal_make(&terms, deal) : status;
}

/*
 * A bundle's parts fill the slots that the setup wants and the plan leaves open,
 * where they fit; what does not fit is left in its box.
 */
static enum tc_status choose_with_bundle(struct tc_case *c, const struct tc_sale *sale,
                                         struct tc_equipment *equipment)
{
    enum tc_status status = tc_equipment_choose(c, equipment);
    for (int i = 0; status == TC_OK && i < sale->part_count; i++) {
        enum tc_slot slot = sale->parts[i].slot;
        if (!equipment->slot[slot].demand.wanted || c->wish[slot].part)
            continue;
        c->wish[slot].part = sale->parts[i].name;
        status = tc_equipment_choose(c, equipment);
        if (status == TC_OK && (equipment->slot[slot].ill_fitting || equipment->slot[slot].missing)) {
            c->wish[slot].part = NULL;
            status = tc_equipment_choose(c, equipment);
        }
    }
    return status;
}

/* The study's counter that was made for what a case asks for; NULL: none was. */
static const struct tc_counter *counter_of(const struct tc_study *study, const struct tc_case *c)
{
    bool alike = c->region == &study->region && c->years == (int)study->plan.years &&
                 c->discount == study->plan.discount && c->energy_price == study->energy_price;
    for (int i = 0; alike && c->offers == study->offers && i < TC_CANDIDATES_MAX; i++)
        if (c->setup == &study->own_setup[i] && study->own_counters[i].items)
            return &study->own_counters[i];
    alike = alike && c->setup == &study->setup;
    for (int i = 0; alike && i <= TC_SHOPS_MAX && study->counters[i].items; i++)
        if (c->offers == study->offers + i * study->offer_count)
            return &study->counters[i];
    return NULL;
}

/* The cost of a case of the alternative. */
static enum tc_status cost_of(const struct tc_study *study, const struct tc_alternative *alternative,
                              struct tc_case c, const struct tc_deal *deal, struct tc_equipment *equipment,
                              struct tc_prices *prices, struct tc_cost *cost)
{
    const struct tc_counter *all = counter_of(study, &c);
    struct tc_counter counter = {.items = NULL};
    struct tc_heat_memory memory;
    memory.count = 0;
    c.memory = &memory;
    *prices = (struct tc_prices){.deal = *deal,
                                 .tank_life = alternative->plan->life,
                                 .tank_resale = alternative->plan->resale,
                                 .electricity = &study->electricity,
                                 .water = &study->water};
    enum tc_status status = TC_OK;
    if (all) {
        status = tc_counter_narrow(all, &c, &counter);
        c.counter = &counter;
    }
    if (status != TC_OK) {
        /* it cannot be measured */
    } else if (deal->sale && deal->sale->part_count > 0) {
        status = choose_with_bundle(&c, deal->sale, equipment);
        for (int i = 0; i < deal->sale->part_count; i++) {
            const struct tc_filled *filled = &equipment->slot[deal->sale->parts[i].slot];
            if (filled->offer && strcmp(filled->offer->part->goods.name, deal->sale->parts[i].name) == 0)
                prices->included[deal->sale->parts[i].slot] += deal->first;
        }
    } else {
        status = tc_equipment_choose(&c, equipment);
    }
    if (status == TC_OK)
        status = tc_swap_parts(&c, prices, equipment);
    if (status == TC_OK)
        status = tc_cost_make(&c, equipment, prices, cost);
    tc_counter_free(&counter);
    if (status == TC_OK && c.market && cost->shop[TC_BUY_TANK] >= 0)
        tc_deal_settle(&prices->deal, cost->shop[TC_BUY_TANK]);
    return status;
}

/* An alternative with all of it bought at one shop. */
struct at_shop {
    struct tc_equipment equipment;
    struct tc_prices prices;
    struct tc_cost cost;
};

/* Whether all is there, as far as it can be; then what it costs to own. */
static bool cheaper(const struct at_shop *a, const struct at_shop *b)
{
    int more = 0;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        more += a->equipment.slot[slot].missing - b->equipment.slot[slot].missing;
    more += !a->prices.deal.known - !b->prices.deal.known;
    if (a->cost.incomplete != b->cost.incomplete || more != 0)
        return a->cost.incomplete != b->cost.incomplete ? b->cost.incomplete : more < 0;
    return a->cost.present_value < b->cost.present_value;
}

/* The cost at the one shop of the market where it is least. */
static enum tc_status cost_at_one(const struct tc_study *study, const struct tc_alternative *alternative,
                                  const struct tc_deal *deal, struct at_shop *best)
{
    struct at_shop other;
    bool any = false;
    for (int s = 0; s < study->market.count; s++) {
        struct tc_case c = alternative->c;
        struct tc_deal here = *deal;
        if (!tc_study_shop_serves(study, alternative, s))
            continue;
        tc_study_keep_to(alternative, s, &c);
        if (!alternative->plan->shop[0])
            tc_deal_keep_to(&here, s);
        enum tc_status status =
            cost_of(study, alternative, c, &here, &other.equipment, &other.prices, &other.cost);
        if (status != TC_OK)
            return status;
        if (!any || cheaper(&other, best))
            *best = other;
        any = true;
    }
    return TC_OK;
}

enum tc_status tc_study_cost(const struct tc_study *study, const struct tc_alternative *alternative,
                             const struct tc_deal *deal, struct tc_equipment *equipment,
                             struct tc_prices *prices, struct tc_cost *cost)
{
    if (!study->one)
        return cost_of(study, alternative, alternative->c, deal, equipment, prices, cost);
    struct at_shop best = {.cost = {.incomplete = true}};
    enum tc_status status = cost_at_one(study, alternative, deal, &best);
    if (status != TC_OK)
        return status;
    *equipment = best.equipment;
    *prices = best.prices;
    *cost = best.cost;
    return TC_OK;
}

enum tc_status tc_study_deal_planned(const struct tc_study *study, struct tc_alternative *alternative,
                                     struct tc_deal *deal)
{
    struct tc_deal_terms terms;
    enum tc_status status = shop_terms(study, alternative, alternative->way, &terms);
    if (status != TC_OK)
        return status;
    terms.typed = alternative->terms.typed;
    alternative->terms = terms;
    status = tc_deal_make(&terms, deal);
    describe_deal(deal, alternative->how);
    return status;
}

enum tc_status tc_study_terms(const struct tc_study *study, struct tc_alternative *alternative)
{
    const struct tc_candidate *plan = alternative->plan;
    struct tc_currency currency = study->region.currency;
    enum tc_status status = TC_OK;
    double list = 0;
    bool typed = !isnan(plan->price);
    bool listed =
        tc_stock_asked(study->stock, &study->region, study->shop, -1, &alternative->c.tank.goods, &list);
    alternative->terms = (struct tc_deal_terms){
        .quantity = plan->quantity,
        .currency = currency,
        .nominal_volume = alternative->c.tank.nominal_volume,
        .listed = listed,
        .list = tc_currency_money(currency, list, &status),
        .typed = typed,
        .price = tc_currency_money(currency, typed ? plan->price : 0, &status),
        .ordered = alternative->c.tank.special_order,
        .order_fee = tc_currency_money(currency, study->region.order_fee, &status),
    };
    tc_study_market_terms(study, alternative, &status);
    return status;
}
