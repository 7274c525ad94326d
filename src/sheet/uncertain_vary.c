/* SPDX-License-Identifier: MIT */
#include "sheet/uncertain_vary.h"

#include <math.h>
#include <string.h>

#include "sheet/study_market.h"

static void put(void *record, const struct tc_target *target, double value)
{
    for (int i = 0; i < target->span; i++)
        memcpy((char *)record + target->offset + (size_t)i * sizeof value, &value, sizeof value);
}

static void put_shared(struct tc_uncertain_shared *shared, const struct tc_target *target, double value)
{
    switch (target->place) {
    case TC_AT_SETUP: put(&shared->setup, target, value); break;
    case TC_AT_REGION: put(&shared->region, target, value); break;
    case TC_AT_ELECTRICITY: put(&shared->tariffs.electricity, target, value); break;
    case TC_AT_WATER: put(&shared->tariffs.water, target, value); break;
    case TC_AT_DISCOUNT: shared->discount = value; break;
    case TC_AT_HOURS: shared->hours = value; break;
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
static void make_shops(const struct tc_study *study, struct tc_uncertain_shared *shared)
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
void tc_uncertain_share(const struct tc_uncertain *uncertain, const double values[],
                        struct tc_uncertain_shared *shared)
{
    const struct tc_study *study = uncertain->study;
    shared->setup = study->setup;
    shared->region = study->region;
    shared->discount = study->plan.discount;
    shared->hours = 1;
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
                                const struct tc_uncertain_shared *shared)
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

enum tc_status tc_uncertain_vary(const struct tc_uncertain *uncertain, int index, const double values[],
                                 const struct tc_uncertain_shared *shared, struct tc_varied *varied)
{
    const struct tc_alternative *alternative = &uncertain->study->alternatives[index];
    *varied = uncertain->alternatives[index];
    varied->c.setup = varied->own_setup ? &varied->setup : &shared->setup;
    varied->c.region = &shared->region;
    if (varied->c.market)
        varied->c.market = shared->market;
    varied->c.discount = shared->discount;
    varied->c.hour_worth *= shared->hours; /* the same as more hours at what they are worth */
    memcpy(varied->c.due, shared->due, (size_t)varied->c.due_count * sizeof varied->c.due[0]);
    varied->prices.electricity = shared->electricity;
    varied->prices.water = shared->water;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        if (varied->equipment.slot[slot].offer)
            varied->equipment.slot[slot].offer = &varied->offers[slot];
    for (int i = 0; i < uncertain->target_count; i++) {
        const struct tc_target *target = &uncertain->targets[i];
        if (target->place > TC_AT_EXTRA && target->alternative == index)
            put_varied(varied, target, values[target->figure]);
    }
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        if (varied->equipment.slot[slot].offer)
            price_part(varied, shared->region.currency, (enum tc_slot)slot);
    enum tc_status status = make_deal(alternative, varied, shared);
    return status == TC_OK ? measure(varied) : status;
}
