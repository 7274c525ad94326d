/* SPDX-License-Identifier: MIT */
#include "sheet/study_market.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "sheet/study_fault.h"

/* --------------------------------------------------------------------------- the shops */

/* Whether a candidate says of anything at which shop it is bought. */
static bool shop_pinned(const struct tc_candidate *candidate)
{
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        if (candidate->pin[slot].shop[0])
            return true;
    return candidate->shop[0] != '\0';
}

int tc_study_shop_place(const struct tc_study *study, const char *name)
{
    for (int s = 0; s < study->market.count; s++)
        if (strcmp(study->shops[s]->name, name) == 0)
            return s;
    return -1;
}

/* The shop of that name in the region, or a fault. */
static const struct tc_shop *named_shop(const struct tc_study *study, const char *name,
                                        struct tc_faults *faults)
{
    char problem[TC_PROBLEM_SIZE];
    const struct tc_shop *shop = tc_stock_shop(study->stock, name);
    if (!shop) {
        tc_study_unknown(study, faults, "shop", name);
        return NULL;
    }
    if (strcmp(shop->region, study->region.name) == 0)
        return shop;
    snprintf(problem, sizeof problem, "the shop '%s' is in '%s', not in '%s'", shop->name, shop->region,
             study->region.name);
    tc_study_fault(study, faults, "shop", problem);
    return NULL;
}

enum tc_status tc_study_shop_terms(const struct tc_study *study, double tax, struct tc_shop *shop,
                                   struct tc_shop_terms *terms, tc_money *order_fee)
{
    enum tc_status status = TC_OK;
    struct tc_currency currency = study->region.currency;
    bool once = shop->seller == TC_SELLER_PRIVATE;
    if (study->plan.pick_up && shop->pick_up >= 0)
        shop->delivery = fmin(shop->delivery, shop->pick_up);
    *order_fee = tc_currency_money(currency, shop->order_fee, &status);
    *terms = (struct tc_shop_terms){
        .delivery = tc_currency_money(currency, shop->delivery, &status),
        .free_from = tc_currency_money(currency, shop->delivery_free_from, &status),
        .tax = once ? 0 : tax,
        .once = once,
    };
    return status;
}

/* Adds a shop with what the plan types over it. */
static bool add_shop(struct tc_study *study, const struct tc_shop *of_stock, struct tc_faults *faults,
                     struct tc_shop *shop)
{
    char problem[TC_PROBLEM_SIZE];
    int place = study->shop_count++;
    *shop = *of_stock;
    if (!tc_plan_assume_shop(&study->plan, shop, study->region.currency, problem)) {
        tc_study_fault(study, faults, "shop", problem);
        return false;
    }
    study->shops[place] = of_stock;
    study->own_shops[place] = *shop;
    study->fetched[place] = study->plan.pick_up && shop->pick_up >= 0 && shop->pick_up < shop->delivery;
    enum tc_status status = tc_study_shop_terms(study, study->shop_tax, shop, &study->market.shop[place],
                                                &study->order_fees[place]);
    if (status != TC_OK)
        tc_study_fault(study, faults, "shop", "what it takes is beyond the range of money");
    return status == TC_OK;
}

/* All other sellers of the region, bought at or not. */
static bool add_others(struct tc_study *study, struct tc_faults *faults)
{
    const struct tc_stock *stock = study->stock;
    for (size_t i = 0; i < stock->shop_count && study->shop_count < TC_SHOPS_MAX; i++) {
        const struct tc_shop *shop = &stock->shops[i];
        struct tc_shop ignored;
        if (shop != study->shop && strcmp(shop->region, study->region.name) == 0 &&
            !add_shop(study, shop, faults, &ignored))
            return false;
    }
    return true;
}

/* Whether all shops that candidates name are in the market. */
static bool pins_known(const struct tc_study *study, struct tc_faults *faults)
{
    bool known = true;
    for (int i = 0; i < study->plan.candidate_count; i++) {
        const struct tc_candidate *candidate = &study->plan.candidate[i];
        for (int slot = -1; slot < TC_SLOT_COUNT; slot++) {
            const char *name = slot < 0 ? candidate->shop : candidate->pin[slot].shop;
            if (name[0] && !named_shop(study, name, faults))
                known = false;
        }
    }
    return known;
}

static bool any_pinned(const struct tc_plan *plan)
{
    for (int i = 0; i < plan->candidate_count; i++)
        if (shop_pinned(&plan->candidate[i]))
            return true;
    return false;
}

/* The terms of all sellers, those of the study's own shop in its region; the market, where it is used. */
static bool find_market(struct tc_study *study, bool pinned, struct tc_faults *faults)
{
    const struct tc_plan *plan = &study->plan;
    struct tc_shop shop;
    if (!add_shop(study, study->shop, faults, &shop))
        return false;
    study->region.delivery = shop.delivery;
    study->region.delivery_free_from = shop.delivery_free_from;
    study->region.order_fee = shop.order_fee;
    if (shop.seller == TC_SELLER_PRIVATE)
        study->region.sales_tax = 0;
    if (!add_others(study, faults))
        return false;
    bool searched = tc_plan_several(plan) || tc_plan_one_shop(plan);
    bool used = (pinned || searched) && !tc_plan_has_wall(plan) && study->shop_count > 1;
    study->market.count = used ? study->shop_count : 0;
    study->several = used && tc_plan_several(plan);
    study->one = used && tc_plan_one_shop(plan);
    return true;
}

enum tc_status tc_study_shops(struct tc_study *study, struct tc_faults *faults)
{
    const struct tc_plan *plan = &study->plan;
    const char *name = tc_plan_shop(plan);
    bool pinned = any_pinned(plan);
    study->shop_tax = tc_region_added_tax(&study->region);
    study->shop =
        name[0] ? named_shop(study, name, faults) : tc_stock_first_shop(study->stock, study->region.name);
    if (name[0] && !study->shop)
        return TC_SYNTAX;
    if (pinned && !pins_known(study, faults))
        return TC_SYNTAX;
    if (!study->shop)
        return TC_OK;
    return find_market(study, pinned, faults) ? TC_OK : TC_SYNTAX;
}

/* -------------------------------------------------------------------------- the offers */

/* So often the parts are on offer: at all shops, and at each alone where one is looked for. */
static size_t offer_blocks(const struct tc_study *study)
{
    return study->one ? (size_t)study->market.count + 1 : 1;
}

bool tc_study_may_buy(const struct tc_study *study, const char *pinned, int place)
{
    return pinned[0] ? tc_study_shop_place(study, pinned) == place
                     : study->several || study->one || place == 0;
}

/* All parts at the shops of the market; of a slot at the one that its pin names, else at `only`, or at all
 * that are open where that is -1. No pins: NULL. */
static void spread_offers(const struct tc_study *study, const struct tc_pin *pins, int only,
                          struct tc_offer *offers, tc_money *asked)
{
    const struct tc_stock *stock = study->stock;
    int shops = study->market.count;
    for (size_t i = 0; i < stock->part_count; i++) {
        const struct tc_part *part = &stock->parts[i];
        const char *pinned = pins ? pins[part->slot].shop : "";
        double own[TC_SHOPS_MAX];
        bool open[TC_SHOPS_MAX];
        for (int s = 0; s < shops; s++) {
            own[s] = tc_stock_own_price(stock, study->shops[s], (int)part->slot, &part->goods);
            open[s] = tc_study_may_buy(study, pinned, s) && (pinned[0] || only < 0 || only == s);
        }
        offers[i] = tc_offer_spread(part, own, open, &study->market, study->region.currency,
                                    &asked[i * (size_t)shops]);
    }
}

/* The same at all shops and at each alone; owned by the caller. TC_NO_MEMORY. */
static enum tc_status make_offers(const struct tc_study *study, const struct tc_pin *pins,
                                  struct tc_offer **offers, tc_money **asked)
{
    size_t parts = study->stock->part_count, shops = (size_t)study->market.count;
    size_t blocks = offer_blocks(study);
    *offers = calloc(blocks * parts + 1, sizeof **offers);
    *asked = calloc(blocks * parts * shops + 1, sizeof **asked);
    if (!*offers || !*asked)
        return TC_NO_MEMORY;
    for (size_t i = 0; i < blocks; i++)
        spread_offers(study, pins, (int)i - 1, *offers + i * parts, *asked + i * parts * shops);
    return TC_OK;
}

enum tc_status tc_study_offers(struct tc_study *study)
{
    const struct tc_stock *stock = study->stock;
    study->offer_count = (int)stock->part_count;
    if (study->several || study->one)
        return make_offers(study, NULL, &study->offers, &study->asked);
    study->offers = calloc(stock->part_count + 1, sizeof *study->offers);
    if (!study->offers)
        return TC_NO_MEMORY;
    for (size_t i = 0; i < stock->part_count; i++) {
        const struct tc_part *part = &stock->parts[i];
        double own = tc_stock_own_price(stock, study->shop, (int)part->slot, &part->goods);
        study->offers[i] = tc_offer_make(part, own, study->region.currency);
    }
    return TC_OK;
}

enum tc_status tc_study_market(struct tc_study *study, struct tc_alternative *alternative)
{
    const struct tc_candidate *plan = alternative->plan;
    bool searched = study->several || study->one, own = !searched;
    if (study->market.count == 0 || (!searched && !shop_pinned(plan)))
        return TC_OK;
    alternative->c.market = &study->market;
    alternative->c.at_one = !searched;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const char *pinned = plan->pin[slot].shop;
        own = own || pinned[0] != '\0';
        /* A price that was typed holds where the part is bought. */
        int place = pinned[0] ? tc_study_shop_place(study, pinned) : searched ? -1 : 0;
        alternative->c.wish[slot].at = place + 1;
    }
    if (!own)
        return TC_OK;
    struct tc_own_offers *offers = &study->own_offers[alternative->index];
    enum tc_status status = make_offers(study, plan->pin, &offers->offers, &offers->asked);
    alternative->c.offers = alternative->offers = offers->offers;
    return status;
}

/* Whether the prices typed for parts may be those of a shop: one that sells the part, where any does. */
static bool typed_at(const struct tc_study *study, const struct tc_alternative *alternative, int shop)
{
    const struct tc_case *c = &alternative->c;
    for (int i = 0; i < c->offer_count; i++) {
        const struct tc_offer *offer = &alternative->offers[i], *here = offer + (shop + 1) * c->offer_count;
        const struct tc_pin *pin = &alternative->plan->pin[offer->part->slot];
        bool typed = !isnan(pin->price) && !pin->shop[0] && strcmp(pin->part, offer->part->goods.name) == 0;
        for (int s = 0; typed && offer->asked && s < study->market.count; s++)
            if (offer->asked[s] != TC_NOT_SOLD && here->asked[shop] == TC_NOT_SOLD)
                return false;
    }
    return true;
}

bool tc_study_shop_serves(const struct tc_study *study, const struct tc_alternative *alternative, int shop)
{
    if (typed_at(study, alternative, shop))
        return true;
    for (int s = 0; s < study->market.count; s++)
        if (typed_at(study, alternative, s))
            return false;
    return true;
}

void tc_study_keep_to(const struct tc_alternative *alternative, int shop, struct tc_case *c)
{
    c->at_one = true;
    c->offers = alternative->offers + (shop + 1) * c->offer_count;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        if (!alternative->plan->pin[slot].shop[0])
            c->wish[slot].at = shop + 1;
}

int tc_study_kept_to(const struct tc_alternative *alternative, const struct tc_equipment *equipment,
                     const struct tc_cost *cost)
{
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        if (equipment->slot[slot].offer)
            return (int)(equipment->slot[slot].offer - alternative->offers) / alternative->c.offer_count - 1;
    return cost->shop[TC_BUY_TANK] > 0 ? cost->shop[TC_BUY_TANK] : 0;
}

/* --------------------------------------------------------------------------- the terms */

void tc_study_market_terms(const struct tc_study *study, struct tc_alternative *alternative,
                           enum tc_status *status)
{
    struct tc_deal_terms *terms = &alternative->terms;
    terms->shops = alternative->c.market ? study->market.count : 0;
    for (int s = 0; s < terms->shops; s++) {
        double list = 0;
        bool listed = tc_stock_asked(study->stock, &study->region, study->shops[s], -1,
                                     &alternative->c.tank.goods, &list);
        terms->shop[s] = (struct tc_deal_shop){
            .open = tc_study_may_buy(study, alternative->plan->shop, s),
            .once = study->market.shop[s].once,
            .listed = listed,
            .list = tc_currency_money(study->region.currency, list, status),
            .order_fee = study->order_fees[s],
        };
    }
}
