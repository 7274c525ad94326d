/* SPDX-License-Identifier: MIT */
#include "sheet/uncertain.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "sheet/study_market.h"
#include "sheet/uncertain_collect.h"

/* One alternative with everything of it that a figure may change. */
struct tc_varied {
    struct tc_case c;
    struct tc_equipment equipment;
    struct tc_prices prices;
    bool own_setup; /* then the one below, else the plan's */
    struct tc_setup setup;
    struct tc_sale sale;
    struct tc_part parts[TC_SLOT_COUNT];
    struct tc_offer offers[TC_SLOT_COUNT];
    double typed_price; /* major units; NAN where none, like these, by shop: */
    double local_price[TC_SHOPS_MAX], part_local_price[TC_SLOT_COUNT][TC_SHOPS_MAX];
    tc_money asked[TC_SLOT_COUNT][TC_SHOPS_MAX];
    double pin_price[TC_SLOT_COUNT], pin_next[TC_SLOT_COUNT];
};

/* Pointers to what lies in the copy itself or in `shared` are set when it is varied. */
static void copy_alternative(const struct tc_study *study, const struct tc_alternative *alternative,
                             struct tc_varied *varied, struct tc_known_heat *heat)
{
    varied->c = alternative->c;
    varied->equipment = alternative->equipment;
    varied->prices = alternative->prices;
    varied->own_setup = !tc_study_setup_shared(study, alternative);
    varied->setup = *alternative->c.setup;
    if (alternative->prices.deal.sale)
        varied->sale = *alternative->prices.deal.sale;
    int shops = study->shop_count > 0 ? study->shop_count : 1; /* of none there is no list */
    for (int s = 0; s < shops; s++)
        varied->local_price[s] =
            tc_stock_own_price(study->stock, study->shops[s], -1, &alternative->c.tank.goods);
    varied->typed_price = alternative->plan->price;
    heat->c = tc_equipment_heat(&alternative->c, &alternative->equipment);
    heat->year = alternative->cost.running.heat;
    varied->c.known = heat;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const struct tc_offer *offer = alternative->equipment.slot[slot].offer;
        varied->pin_price[slot] = varied->pin_next[slot] = NAN;
        if (!offer)
            continue;
        varied->parts[slot] = *offer->part;
        varied->offers[slot] = *offer;
        for (int s = 0; s < shops; s++)
            varied->part_local_price[slot][s] =
                tc_stock_own_price(study->stock, study->shops[s], slot, &offer->part->goods);
    }
}

/* Whether the household's bill follows a target. */
static bool moves_tariffs(const struct tc_target *target)
{
    static const size_t offsets[] = {
        offsetof(struct tc_region, electricity.price), offsetof(struct tc_region, water.price),
        offsetof(struct tc_region, household_energy), offsetof(struct tc_region, household_water)};
    if (target->place != TC_AT_REGION)
        return target->place == TC_AT_ELECTRICITY || target->place == TC_AT_WATER;
    for (size_t i = 0; i < sizeof offsets / sizeof offsets[0]; i++)
        if (target->offset == offsets[i])
            return true;
    return false;
}

/* Whether what shops take follows a target. */
static bool moves_shops(const struct tc_target *target)
{
    return target->place == TC_AT_SHOP ||
           (target->place == TC_AT_REGION && target->offset == offsetof(struct tc_region, sales_tax));
}

enum tc_status tc_uncertain_find(struct tc_uncertain *uncertain, const struct tc_study *study)
{
    *uncertain = (struct tc_uncertain){.study = study};
    uncertain->alternatives = calloc((size_t)study->alternative_count + 1, sizeof *uncertain->alternatives);
    uncertain->heats = calloc((size_t)study->alternative_count + 1, sizeof *uncertain->heats);
    if (!uncertain->alternatives || !uncertain->heats)
        return TC_NO_MEMORY;
    for (int i = 0; i < study->alternative_count; i++)
        copy_alternative(study, &study->alternatives[i], &uncertain->alternatives[i], &uncertain->heats[i]);
    enum tc_status status = tc_uncertain_collect(uncertain);
    for (int i = 0; i < uncertain->target_count; i++) {
        uncertain->tariffs_vary = uncertain->tariffs_vary || moves_tariffs(&uncertain->targets[i]);
        uncertain->shops_vary = uncertain->shops_vary || moves_shops(&uncertain->targets[i]);
    }
    return status;
}

void tc_uncertain_free(struct tc_uncertain *uncertain)
{
    free(uncertain->spreads);
    free(uncertain->names);
    free(uncertain->targets);
    free(uncertain->heats);
    free(uncertain->alternatives);
    *uncertain = (struct tc_uncertain){.study = NULL};
}

/* ---------------------------------------------------------------- evaluating */

/* What all alternatives share in one evaluation. */
struct shared {
    struct tc_setup setup;
    struct tc_region region;
    double discount;
    struct tc_extra extra[TC_EXTRAS_MAX]; /* where they vary */
    struct tc_due due[TC_EXTRAS_MAX];
    const struct tc_tariff_margin *electricity, *water; /* the study's, or else */
    struct tc_tariff_margin own_electricity, own_water; /* these, of these tariffs */
    struct tc_tariffs tariffs;
    const struct tc_market *market; /* the study's, or else these, and what they ask for an order: */
    const tc_money *order_fees;
    struct tc_shop shops[TC_SHOPS_MAX];
    struct tc_market own_market;
    tc_money own_fees[TC_SHOPS_MAX];
    enum tc_status status;
};

static void put(void *record, const struct tc_target *target, double value)
{
    for (int i = 0; i < target->span; i++)
        memcpy((char *)record + target->offset + (size_t)i * sizeof value, &value, sizeof value);
}

static void put_shared(struct shared *shared, const struct tc_target *target, double value)
{
    switch (target->place) {
    case TC_AT_SETUP: put(&shared->setup, target, value); break;
    case TC_AT_REGION: put(&shared->region, target, value); break;
    case TC_AT_ELECTRICITY: put(&shared->tariffs.electricity, target, value); break;
    case TC_AT_WATER: put(&shared->tariffs.water, target, value); break;
    case TC_AT_DISCOUNT: shared->discount = value; break;
    case TC_AT_SHOP: put(&shared->shops[target->shop], target, value); break;
    case TC_AT_EXTRA: put(&shared->extra[target->alternative], target, value); break;
    default: break;
    }
}

static void put_varied(struct tc_varied *varied, const struct tc_target *target, double value)
{
    switch (target->place) {
    case TC_AT_OWN_SETUP: put(&varied->setup, target, value); break;
    case TC_AT_TANK: put(&varied->c.tank, target, value); break;
    case TC_AT_SALE: put(&varied->sale, target, value); break;
    case TC_AT_LOCAL_PRICE: varied->local_price[target->shop] = value; break;
    case TC_AT_TYPED_PRICE: varied->typed_price = value; break;
    case TC_AT_TYPED_LIFE: varied->prices.tank_life = value; break;
    case TC_AT_TYPED_RESALE: varied->prices.tank_resale = value; break;
    case TC_AT_PART: put(&varied->parts[target->slot], target, value); break;
    case TC_AT_PART_LOCAL_PRICE: varied->part_local_price[target->slot][target->shop] = value; break;
    case TC_AT_PIN_PRICE: varied->pin_price[target->slot] = value; break;
    case TC_AT_PIN_NEXT: varied->pin_next[target->slot] = value; break;
    case TC_AT_PIN_LIFE: varied->c.wish[target->slot].life = value; break;
    case TC_AT_PIN_RESALE: varied->c.wish[target->slot].resale = value; break;
    default: break;
    }
}

/* What the shops take anew, and the terms of the first in the region, as where all is bought at one. */
static void make_shops(const struct tc_study *study, struct shared *shared)
{
    bool untaxed = study->shop && study->shop->seller == TC_SELLER_PRIVATE;
    double tax = untaxed ? study->shop_tax : tc_region_added_tax(&shared->region);
    shared->own_market.count = study->market.count;
    shared->market = &shared->own_market;
    shared->order_fees = shared->own_fees;
    for (int s = 0; s < study->shop_count && shared->status == TC_OK; s++)
        shared->status = tc_study_shop_terms(study, tax, &shared->shops[s], &shared->own_market.shop[s],
                                             &shared->own_fees[s]);
    if (study->shop_count == 0)
        return;
    shared->region.delivery = shared->shops[0].delivery;
    shared->region.delivery_free_from = shared->shops[0].delivery_free_from;
    shared->region.order_fee = shared->shops[0].order_fee;
}

/* The region's flat prices, where no tariff is named, are tariffs as well. */
static void make_shared(const struct tc_uncertain *uncertain, const double values[], struct shared *shared)
{
    const struct tc_study *study = uncertain->study;
    shared->setup = study->setup;
    shared->region = study->region;
    shared->discount = study->plan.discount;
    shared->status = TC_OK;
    if (uncertain->shops_vary)
        memcpy(shared->shops, study->own_shops, sizeof shared->shops);
    if (uncertain->tariffs_vary)
        shared->tariffs = study->tariffs;
    for (int i = 0; i < study->extra_count; i++)
        shared->extra[i] = *study->extras[i];
    for (int i = 0; i < uncertain->target_count; i++)
        put_shared(shared, &uncertain->targets[i], values[uncertain->targets[i].figure]);
    for (int i = 0; i < study->extra_count; i++)
        shared->due[i] = tc_extra_due(&shared->extra[i], study->region.currency);
    shared->market = &study->market;
    shared->order_fees = study->order_fees;
    if (uncertain->shops_vary)
        make_shops(study, shared);
    shared->electricity = &study->electricity;
    shared->water = &study->water;
    if (!uncertain->tariffs_vary)
        return;
    tc_utility_flat(&shared->region.electricity, &shared->tariffs.electricity);
    tc_utility_flat(&shared->region.water, &shared->tariffs.water);
    tc_study_margins(&shared->region, &shared->tariffs, NULL, &shared->own_electricity, &shared->own_water);
    shared->electricity = &shared->own_electricity;
    shared->water = &shared->own_water;
}

/* The price of one part, as figures and region have it; at the shops that sell it. */
static void price_part(struct tc_varied *varied, struct tc_currency currency, enum tc_slot slot)
{
    const struct tc_market *market = varied->c.market;
    const struct tc_offer was = varied->offers[slot];
    bool open[TC_SHOPS_MAX];
    for (int s = 0; market && was.asked && s < market->count; s++)
        open[s] = was.asked[s] != TC_NOT_SOLD;
    varied->offers[slot] =
        market && was.asked
            ? tc_offer_spread(&varied->parts[slot], varied->part_local_price[slot], open, market, currency,
                              varied->asked[slot])
            : tc_offer_make(&varied->parts[slot], varied->part_local_price[slot][0], currency);
    if (!isnan(varied->pin_price[slot]))
        varied->c.wish[slot].price = round(varied->pin_price[slot] * tc_currency_scale(currency));
    if (!isnan(varied->pin_next[slot]))
        varied->c.wish[slot].next = round(varied->pin_next[slot] * tc_currency_scale(currency));
}

/* The deal anew, on the study's terms but for the figures. */
static enum tc_status make_deal(const struct tc_alternative *alternative, struct tc_varied *varied,
                                const struct shared *shared)
{
    const struct tc_region *region = &shared->region;
    enum tc_status status = shared->status;
    struct tc_deal_terms terms = alternative->terms;
    double list;
    terms.listed = tc_goods_price(&varied->c.tank.goods, varied->local_price[0], region->currency, &list);
    terms.list = tc_currency_money(region->currency, list, &status);
    for (int s = 0; s < terms.shops; s++) {
        struct tc_deal_shop *shop = &terms.shop[s];
        if (shop->listed &&
            tc_goods_price(&varied->c.tank.goods, varied->local_price[s], region->currency, &list))
            shop->list = tc_currency_money(region->currency, list, &status);
        shop->order_fee = shared->order_fees[s];
    }
    terms.nominal_volume = varied->c.tank.nominal_volume;
    terms.order_fee = tc_currency_money(region->currency, region->order_fee, &status);
    if (terms.typed)
        terms.price = tc_currency_money(region->currency, varied->typed_price, &status);
    if (terms.sale)
        terms.sale = &varied->sale;
    return status == TC_OK ? tc_deal_make(&terms, &varied->prices.deal) : status;
}

static enum tc_status measure(struct tc_varied *varied)
{
    struct tc_bed bed = {.depth = varied->c.setup->bed_depth, .void_share = 1};
    const struct tc_offer *substrate = varied->equipment.slot[TC_SLOT_SUBSTRATE].offer;
    if (substrate) {
        bed.bulk_density = substrate->part->as.substrate.bulk_density;
        bed.void_share = substrate->part->as.substrate.void_share;
    } else {
        bed.depth = 0;
    }
    return tc_tank_measure(&varied->c.tank, bed, varied->c.setup->temperature, &varied->equipment.size);
}

static double alternative_cost(const struct tc_uncertain *uncertain, int index, const double values[],
                               const struct shared *shared)
{
    const struct tc_alternative *alternative = &uncertain->study->alternatives[index];
    struct tc_varied varied = uncertain->alternatives[index];
    double value = NAN;
    varied.c.setup = varied.own_setup ? &varied.setup : &shared->setup;
    varied.c.region = &shared->region;
    if (varied.c.market)
        varied.c.market = shared->market;
    varied.c.discount = shared->discount;
    memcpy(varied.c.due, shared->due, (size_t)varied.c.due_count * sizeof varied.c.due[0]);
    varied.prices.electricity = shared->electricity;
    varied.prices.water = shared->water;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        if (varied.equipment.slot[slot].offer)
            varied.equipment.slot[slot].offer = &varied.offers[slot];
    for (int i = 0; i < uncertain->target_count; i++) {
        const struct tc_target *target = &uncertain->targets[i];
        if (target->place > TC_AT_EXTRA && target->alternative == index)
            put_varied(&varied, target, values[target->figure]);
    }
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        if (varied.equipment.slot[slot].offer)
            price_part(&varied, shared->region.currency, (enum tc_slot)slot);
    enum tc_status status = make_deal(alternative, &varied, shared);
    if (status == TC_OK)
        status = measure(&varied);
    if (status == TC_OK)
        status = tc_cost_value(&varied.c, &varied.equipment, &varied.prices, &value);
    return status == TC_OK ? value : NAN;
}

void tc_uncertain_costs(void *context, const double values[], double costs[])
{
    const struct tc_uncertain *uncertain = context;
    struct shared shared;
    make_shared(uncertain, values, &shared);
    for (int i = 0; i < uncertain->study->alternative_count; i++)
        costs[i] = alternative_cost(uncertain, i, values, &shared);
}
