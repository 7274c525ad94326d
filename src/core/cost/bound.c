/* SPDX-License-Identifier: MIT */
#include "core/cost/bound.h"

#include <math.h>

/* What rounding each line of a purchase once can come to, and what adding up does, minor units. */
#define ROUNDING 10.0
#define ADDING   0.001

#define JOULES_PER_KWH 3.6e6

/* What a heater's need may be off by. */
#define NEED_SLACK 0.01

/* Whether neither heat nor another slot depends on what fills it. */
static bool is_follower(enum tc_slot slot)
{
    return slot == TC_SLOT_HEATER || slot == TC_SLOT_STAND || slot == TC_SLOT_AIR_PUMP;
}

/* ------------------------------------------------------------------------------- parts */

/* What fills a slot: what it costs over the period but for its energy, its prices, its energy. */
struct sums {
    double money, goods; /* minor units */
    double energy;       /* J a year */
};

static struct sums sums_of(const struct tc_bound *bound, const struct tc_filled *filled)
{
    const struct tc_case *c = bound->c;
    if (!filled->offer)
        return (struct sums){0};
    const struct tc_fit_case fit = tc_equipment_fit_case(c, bound->first, filled->offer->part->slot);
    double pieces = filled->count * (filled->shared ? 1 : c->quantity);
    double energy = tc_fit_energy(&fit, filled->offer);
    return (struct sums){.money = pieces * (filled->each - energy * bound->price),
                         .goods = pieces * (double)filled->offer->price,
                         .energy = pieces * energy};
}

/* What is typed for a slot counts whatever fills it, and what leaves one bag goes into the next tank. */
static bool plainly_priced(const struct tc_bound *bound, enum tc_slot slot)
{
    const struct tc_slot_wish *wish = &bound->c->wish[slot];
    return !bound->billed || (isnan(wish->price) && isnan(wish->next) && isnan(wish->life) &&
                              isnan(wish->resale) && (slot != TC_SLOT_SUBSTRATE || bound->c->quantity == 1));
}

static double energy_least(const struct tc_bound *bound, double joules)
{
    return joules * (joules > 0 ? bound->low : bound->high);
}

/* -------------------------------------------------------------------------- heat, water */

/* What less water to change and to make up could save, minor units. */
static double water_saved(const struct tc_bound *bound, const struct tc_equipment *other)
{
    const struct tc_case *c = bound->c;
    const struct tc_equipment *first = bound->first;
    double changed = c->quantity * 365 * (tc_equipment_changed(c, first) - tc_equipment_changed(c, other));
    double warm = fmax(0, c->setup->temperature - c->region->cold_water) * TC_WATER_HEAT_CAPACITY;
    double evaporated = c->quantity * tc_spared_vapour(&bound->spared, other);
    return fmax(0, changed) * (bound->water + bound->high * warm + bound->fresh) + evaporated * bound->water;
}

/* What less work on the water and the tank itself saves, minor units; that on filters is with them. */
static double work_saved(const struct tc_bound *bound, const struct tc_equipment *other)
{
    struct tc_upkeep_time was = tc_equipment_upkeep(bound->c, bound->first);
    struct tc_upkeep_time is = tc_equipment_upkeep(bound->c, other);
    return bound->hour * fmax(0, was.changes + was.tanks - is.changes - is.tanks);
}

static double heat_saved(const struct tc_bound *bound, const struct tc_equipment *other)
{
    double spared = bound->c->quantity * tc_spared_heat(&bound->spared, other);
    return -energy_least(bound, -spared) +
           (bound->billed ? water_saved(bound, other) + work_saved(bound, other) : 0);
}

/* What delivery may be saved by goods that are worth so much more; in a market by other shops, too. */
static double delivery_saved(const struct tc_bound *bound, double more)
{
    if (bound->c->market)
        return bound->billed ? bound->spread : 0;
    const struct tc_region *region = bound->c->region;
    double scale = tc_currency_scale(region->currency), free_from = region->delivery_free_from * scale;
    bool pays = bound->billed && free_from > 0 && bound->goods < free_from + ROUNDING;
    return pays && bound->goods + more >= free_from - ROUNDING ? region->delivery * scale : 0;
}

double tc_bound_change(const struct tc_bound *bound, const struct tc_equipment *other)
{
    double money = 0, goods = 0, energy = 0;
    if (!bound->c)
        return -INFINITY;
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        const struct tc_filled *was = &bound->first->slot[i], *is = &other->slot[i];
        if (was->offer == is->offer && was->count == is->count)
            continue;
        if (!plainly_priced(bound, (enum tc_slot)i) || (i == TC_SLOT_HEATER && !is->offer))
            return -INFINITY; /* without a heater fresh water is not warmed either */
        struct sums before = sums_of(bound, was), after = sums_of(bound, is);
        money += after.money - before.money;
        goods += after.goods - before.goods;
        energy += after.energy - before.energy;
    }
    return money + energy_least(bound, energy) - heat_saved(bound, other) - delivery_saved(bound, goods) -
           bound->rounding;
}

/* ---------------------------------------------------------------------------- followers */

/* What a part's worth is at least, as a share, where a J may cost less than parts are compared at. */
static double cheap_energy(const struct tc_bound *bound)
{
    return fmin(1, bound->low / bound->price);
}

/* The least that pumps cost for a m3/s of air in each tank; any part of one counts. */
static double least_air(const struct tc_bound *bound)
{
    const struct tc_counter *counter = bound->c->counter;
    double least = INFINITY;
    if (bound->c->wish[TC_SLOT_AIR_PUMP].part)
        return 0;
    for (int i = counter->begin[TC_SLOT_AIR_PUMP]; i < counter->begin[TC_SLOT_AIR_PUMP + 1]; i++)
        least =
            fmin(least, fmax(0, counter->items[i].each) / counter->items[i].offer->part->as.air_pump.flow);
    return isfinite(least) ? least * cheap_energy(bound) : 0;
}

/* What one of the cheapest of a slot costs, its energy as cheap as it can be. */
static double cheapest(const struct tc_bound *bound, enum tc_slot slot)
{
    const struct tc_counter *counter = bound->c->counter;
    int first = counter->begin[slot];
    bool open = !bound->c->wish[slot].part && first < counter->begin[slot + 1];
    return open ? fmax(0, counter->items[first].each) * cheap_energy(bound) : 0;
}

/* The least that a slot costs in all tanks after another part was taken. */
static double follower_least(const struct tc_bound *bound, const struct tc_equipment *other,
                             enum tc_slot slot)
{
    const struct tc_case *c = bound->c;
    const struct tc_offer *filter = other->slot[TC_SLOT_FILTER].offer;
    bool wanted = slot == TC_SLOT_HEATER || slot == TC_SLOT_STAND ||
                  (slot == TC_SLOT_AIR_PUMP && filter && filter->part->as.filter.air > 0);
    if (!wanted)
        return 0;
    if (slot == TC_SLOT_HEATER && tc_spared_need(&bound->spared, other) == 0 &&
        !tc_spared_closes(&bound->spared, other))
        return bound->heater;
    if (slot == TC_SLOT_AIR_PUMP) {
        double air = other->slot[TC_SLOT_FILTER].count * filter->part->as.filter.air * c->quantity;
        return fmax(bound->air * air, cheapest(bound, slot) * (c->setup->shared_air ? 1 : c->quantity));
    }
    int count = slot == TC_SLOT_HEATER && c->setup->heater_count > 1 ? c->setup->heater_count : 1;
    return cheapest(bound, slot) * count * c->quantity;
}

static double follower_saved(const struct tc_bound *bound, const struct tc_equipment *other,
                             enum tc_slot slot)
{
    const struct tc_filled *filled = &bound->first->slot[slot];
    if (!filled->offer)
        return 0;
    struct sums now = sums_of(bound, filled);
    return fmax(0, now.money + now.energy * bound->high - follower_least(bound, other, slot));
}

/* Whether another part may leave the tank without a need for its heater, and so for warm fresh water. */
static bool may_need_no_heater(const struct tc_bound *bound, const struct tc_equipment *other)
{
    const struct tc_filled *heater = &bound->first->slot[TC_SLOT_HEATER];
    double need = heater->demand.heat / (1 + bound->c->setup->heater_margin);
    double spared = tc_spared_need(&bound->spared, other);
    bool closed = tc_spared_closes(&bound->spared, other) &&
                  !(tc_spared_closes_within(&bound->spared, other) && spared == 0);
    return heater->offer && (closed || spared >= need * (1 - NEED_SLACK));
}

/* Whether a bed leaves so much other water that it takes another number of filters, and of pumps for them. */
static bool other_filters(const struct tc_bound *bound, const struct tc_equipment *other)
{
    const struct tc_filled *filter = &bound->first->slot[TC_SLOT_FILTER];
    struct tc_fit_case fit = tc_equipment_fit_case(bound->c, other, TC_SLOT_FILTER);
    if (!filter->offer)
        return false;
    fit.demand.flow = tc_equipment_flow(bound->c, other);
    return tc_fit_judge_ready(&fit, TC_SLOT_FILTER,
                              (struct tc_ready_offer){filter->offer, filter->each, 0, 0}, filter->pinned)
               .count != filter->count;
}

/* What is chosen, or counted, anew with another part in a slot. */
static bool depends(enum tc_slot slot, enum tc_slot from)
{
    bool counted = slot == TC_SLOT_FILTER || slot == TC_SLOT_AIR_PUMP;
    return tc_equipment_follows(slot, from) || (from == TC_SLOT_SUBSTRATE && counted);
}

struct tc_reserve tc_bound_reserve(const struct tc_bound *bound, enum tc_slot slot)
{
    const struct tc_case *c = bound->c;
    if (!c || !plainly_priced(bound, slot))
        return (struct tc_reserve){0, INFINITY};
    const struct tc_filled *was = &bound->first->slot[slot];
    struct sums now = sums_of(bound, was);
    double most = now.money + now.energy * bound->high + delivery_saved(bound, INFINITY) + bound->rounding;
    struct tc_reserve reserve = {(was->shared ? 1 : c->quantity) * cheap_energy(bound), most};
    if (is_follower(slot))
        return reserve;
    double warm = fmax(0, c->setup->temperature - c->region->cold_water) * TC_WATER_HEAT_CAPACITY;
    double fresh = c->quantity * 365 * tc_equipment_changed(c, bound->first);
    double evaporated = c->quantity * bound->spared.year.evaporated_total;
    struct tc_upkeep_time work = tc_equipment_upkeep(c, bound->first);
    reserve.most += c->quantity * bound->spared.year.heater_total * bound->high + evaporated * bound->water +
                    fresh * (bound->water + bound->fresh + bound->high * warm) +
                    bound->hour * (work.changes + work.tanks);
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        struct sums follower = sums_of(bound, &bound->first->slot[i]);
        if (depends((enum tc_slot)i, slot))
            reserve.most += follower.money + follower.energy * bound->high;
    }
    return reserve;
}

double tc_bound_change_from(const struct tc_reserve *reserve, double pieces)
{
    return pieces >= 0 ? pieces * reserve->share - reserve->most : -INFINITY;
}

double tc_bound_change_of(const struct tc_bound *bound, enum tc_slot slot, const struct tc_verdict *verdict)
{
    if (!bound->c || !plainly_priced(bound, slot))
        return -INFINITY;
    const struct tc_filled *was = &bound->first->slot[slot];
    struct tc_filled is = *was;
    is.offer = verdict->offer;
    is.count = verdict->count;
    is.each = verdict->each;
    struct sums before = sums_of(bound, was), after = sums_of(bound, &is);
    double change = after.money - before.money + energy_least(bound, after.energy - before.energy);
    change -= bound->rounding;
    if (is_follower(slot)) /* on these no heat depends, and nothing else */
        return change - delivery_saved(bound, after.goods - before.goods);
    struct tc_equipment other = *bound->first;
    other.slot[slot] = is;
    if (slot == TC_SLOT_LIGHT)
        return change - delivery_saved(bound, after.goods - before.goods) - heat_saved(bound, &other);
    bool bed = slot == TC_SLOT_SUBSTRATE;
    bool other_light = slot == TC_SLOT_LID && other.slot[TC_SLOT_LIGHT].offer; /* of another heat */
    if ((bed && tc_equipment_measure(bound->c, &other) != TC_OK) || (bed && other_filters(bound, &other)) ||
        other_light || may_need_no_heater(bound, &other))
        return -INFINITY;
    for (int i = 0; i < TC_SLOT_COUNT; i++)
        if (tc_equipment_follows((enum tc_slot)i, slot))
            change -= follower_saved(bound, &other, (enum tc_slot)i);
    return change - heat_saved(bound, &other) - delivery_saved(bound, INFINITY);
}

/* ------------------------------------------------------------------------------ made */

/* The least that heaters cost that are as strong as the first; those as well that are too strong for now. */
static double least_heater(const struct tc_case *c, const struct tc_equipment *first)
{
    const struct tc_demand *demand = &first->slot[TC_SLOT_HEATER].demand;
    const struct tc_counter *counter = c->counter;
    double least = INFINITY;
    if (c->wish[TC_SLOT_HEATER].part)
        return 0;
    for (int i = counter->begin[TC_SLOT_HEATER]; i < counter->begin[TC_SLOT_HEATER + 1]; i++)
        least = fmin(least, fmax(0, tc_fit_least(demand, TC_SLOT_HEATER, counter->items[i])));
    return isfinite(least) ? c->quantity * least : 0;
}

static double energy_factor(const struct tc_case *c)
{
    return tc_escalated_present_value(c->discount, c->region->electricity_escalation, c->years);
}

void tc_bound_parts(struct tc_bound *bound, const struct tc_case *c, const struct tc_equipment *first,
                    const struct tc_heat_year *year)
{
    double price = c->energy_price * energy_factor(c);
    *bound = (struct tc_bound){.first = first};
    if (!c->counter || !(price > 0) || first->slot[TC_SLOT_HEATER].ill_fitting)
        return; /* a heater that is too weak spares what it does not give */
    *bound = (struct tc_bound){
        .c = c, .first = first, .price = price, .low = price, .high = price, .rounding = ADDING};
    tc_spared_start(&bound->spared, c, first, year);
    bound->heater = least_heater(c, first);
    bound->air = least_air(bound);
}

/* The prices of a bill between the use of the first parts and any other. */
static void find_prices(struct tc_bound *bound, const struct tc_prices *prices,
                        const struct tc_running_sums *sums)
{
    const struct tc_case *c = bound->c;
    const struct tc_region *region = c->region;
    double power = 0, water = 0, ignored, scale = tc_currency_scale(region->currency);
    for (int month = 0; month < TC_MONTHS; month++) {
        power = fmax(power, sums->energy[month]);
        water = fmax(water, sums->water[month]);
    }
    bound->hour = c->hour_worth * tc_uniform_present_value(c->discount, c->years);
    double energy = energy_factor(c), rise = fmax(0, c->setup->temperature - region->cold_water);
    tc_tariff_slopes(prices->electricity, INFINITY, &bound->low, &ignored);
    tc_tariff_slopes(prices->electricity, power, &ignored, &bound->high);
    tc_tariff_slopes(prices->water, water, &ignored, &bound->water);
    bound->low *= energy / JOULES_PER_KWH;
    bound->high *= energy / JOULES_PER_KWH;
    bound->water *= tc_escalated_present_value(c->discount, region->water_escalation, c->years);
    bound->fresh = region->conditioner * (1 + tc_region_added_tax(region)) * scale *
                       tc_uniform_present_value(c->discount, c->years) +
                   region->warm_water_price * scale * energy * TC_WATER_HEAT_CAPACITY / JOULES_PER_KWH * rise;
}

/* What the first parts are bought for beyond the least that things could cost; false where it fails. */
static bool find_spread(struct tc_bound *bound, const struct tc_prices *prices)
{
    struct tc_purchase purchase;
    if (bound->c->apart)
        return true;
    enum tc_status status = tc_purchase_make(bound->c, bound->first, prices, &purchase);
    purchase.buy[TC_BUY_EXTRAS] = 0;
    double paid = status == TC_OK ? (double)tc_money_sum(purchase.buy, TC_BUY_COUNT, &status) : 0;
    bound->spread = fmax(0, paid - tc_purchase_least(bound->c, bound->first, prices));
    return status == TC_OK;
}

void tc_bound_bill(struct tc_bound *bound, const struct tc_case *c, const struct tc_equipment *first,
                   const struct tc_prices *prices)
{
    const struct tc_heat_year *year;
    struct tc_heat_year room;
    struct tc_running_sums sums;
    *bound = (struct tc_bound){.first = first};
    for (int i = 0; i < TC_SLOT_COUNT; i++)
        if (prices->included[i] > 0)
            return; /* what a deal brings along costs nothing, and another one does */
    if (!c->counter || c->room_heat || tc_equipment_heat_year(c, first, &room, &year) != TC_OK)
        return;
    if (tc_running_add_up(c, first, &sums, NULL) != TC_OK)
        return;
    tc_bound_parts(bound, c, first, year);
    if (!bound->c)
        return;
    bound->billed = true;
    bound->rounding = ROUNDING;
    bound->goods = tc_cost_goods(c, first, prices);
    if (c->market && !find_spread(bound, prices)) {
        bound->c = NULL;
        return;
    }
    find_prices(bound, prices, &sums);
    bound->air = least_air(bound);
    if (!isfinite(bound->low) || !isfinite(bound->high) || !isfinite(bound->water))
        bound->c = NULL;
}
