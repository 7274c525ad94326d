/* SPDX-License-Identifier: MIT */
#include "sheet/figures.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define JOULES_PER_KWH 3.6e6

/* ---------------------------------------------------------------- collecting */

/* One entry with everything of it that a figure may change. */
struct tc_varied {
    struct tc_case c;
    struct tc_setup setup;
    struct tc_prices prices;
    struct tc_tank tank;
    struct tc_sale sale;
    struct tc_part parts[TC_SLOT_COUNT];
    struct tc_offer offers[TC_SLOT_COUNT];
    double local_price, typed_price; /* major units; NAN where none */
    double part_local_price[TC_SLOT_COUNT];
    double pin_price[TC_SLOT_COUNT];
};

/* Room for one more in an array that grows; NULL without memory. */
static void *with_room(void *array, int count, int *room, size_t size)
{
    if (count < *room)
        return array;
    int wanted = *room ? 2 * *room : 16;
    void *larger = realloc(array, (size_t)wanted * size);
    if (larger)
        *room = wanted;
    return larger;
}

static enum tc_status add_target(struct tc_figures *figures, struct tc_target target)
{
    struct tc_target *targets =
        with_room(figures->targets, figures->target_count, &figures->target_room, sizeof *targets);
    if (!targets)
        return TC_NO_MEMORY;
    figures->targets = targets;
    target.figure = figures->count; /* of the figure being collected */
    targets[figures->target_count++] = target;
    return TC_OK;
}

/* Closes the figure whose targets were just added; one without targets does not matter to the study. */
static enum tc_status add_figure(struct tc_figures *figures, int first_target, struct tc_spread spread,
                                 enum tc_dimension dimension, const char *kind, const char *item,
                                 const char *key)
{
    if (figures->target_count == first_target)
        return TC_OK;
    int room = figures->room;
    struct tc_spread *spreads = with_room(figures->spreads, figures->count, &room, sizeof *spreads);
    if (!spreads)
        return TC_NO_MEMORY;
    figures->spreads = spreads;
    room = figures->room;
    struct tc_figure_name *names = with_room(figures->names, figures->count, &room, sizeof *names);
    if (!names)
        return TC_NO_MEMORY;
    figures->names = names;
    figures->room = room;
    spreads[figures->count] = spread;
    struct tc_figure_name *name = &names[figures->count++];
    snprintf(name->text, sizeof name->text, "%s%s%s %s", kind, item[0] ? " " : "", item, key);
    name->dimension = dimension;
    return TC_OK;
}

/* The dimension of a key's figures: plain for money and rates, which are written without a unit of ours. */
static enum tc_dimension dimension_of(const char *kind, const char *key)
{
    const struct tc_key_table *table = tc_key_table_find(kind);
    const struct tc_key *found = table ? tc_key_find(table, key) : NULL;
    if (found && (found->form == TC_KEY_QUANTITY || found->form == TC_KEY_MONTHS))
        return found->dimension;
    return TC_DIM_PLAIN;
}

static bool typed_over(const struct tc_plan *plan, const char *kind, const char *key)
{
    for (int i = 0; i < plan->override_count; i++)
        if (strcmp(plan->override[i].kind, kind) == 0 && strcmp(plan->override[i].key, key) == 0)
            return true;
    return false;
}

/* Targets in the records that all entries share. */
static enum tc_status target_shared(struct tc_figures *figures, const struct tc_doubtful *doubtful)
{
    const struct tc_study *study = figures->study;
    struct tc_target target = {.offset = doubtful->offset, .span = doubtful->span};
    if (strcmp(doubtful->kind, "kit") == 0 && strcmp(doubtful->item, study->kit.name) == 0 &&
        !typed_over(&study->plan, "kit", doubtful->key)) {
        target.place = TC_AT_KIT;
        return add_target(figures, target);
    }
    if (strcmp(doubtful->kind, "region") == 0 && strcmp(doubtful->item, study->region.name) == 0 &&
        !typed_over(&study->plan, "region", doubtful->key)) {
        target.place = TC_AT_REGION;
        return add_target(figures, target);
    }
    if (strcmp(doubtful->kind, "tariff") == 0) {
        target.offset -= offsetof(struct tc_named_tariff, tariff);
        if (strcmp(doubtful->item, study->region.electricity_tariff) == 0) {
            target.place = TC_AT_ELECTRICITY;
            return add_target(figures, target);
        }
        if (strcmp(doubtful->item, study->region.water_tariff) == 0) {
            target.place = TC_AT_WATER;
            return add_target(figures, target);
        }
    }
    return TC_OK;
}

/* Whether a doubtful price of a list is that of the study's currency, or no price at all. */
static bool in_currency(const struct tc_study *study, const struct tc_doubtful *doubtful)
{
    const char *code = strchr(doubtful->key, ' ');
    return !code || strcmp(code + 1, study->region.currency.code) == 0;
}

static enum tc_status target_tank(struct tc_figures *figures, const struct tc_doubtful *doubtful, int entry)
{
    const struct tc_contender *contender = &figures->study->entries[entry];
    const struct tc_sale *sale = contender->prices.deal.sale;
    struct tc_target target = {.entry = entry, .offset = doubtful->offset, .span = doubtful->span};
    const char *tank = contender->tank.goods.name;
    if (strcmp(doubtful->kind, "tank") == 0 && strcmp(doubtful->item, tank) == 0 &&
        in_currency(figures->study, doubtful)) {
        target.place = TC_AT_TANK;
        return add_target(figures, target);
    }
    if (strcmp(doubtful->kind, "sale") == 0 && sale && strcmp(doubtful->item, sale->name) == 0) {
        target.place = TC_AT_SALE;
        return add_target(figures, target);
    }
    if (strcmp(doubtful->kind, "prices") == 0 && strcmp(doubtful->item, figures->study->region.name) == 0 &&
        strncmp(doubtful->key, "tank ", 5) == 0 && strcmp(doubtful->key + 5, tank) == 0) {
        target.place = TC_AT_LOCAL_PRICE;
        target.offset = 0;
        return add_target(figures, target);
    }
    return TC_OK;
}

static enum tc_status target_parts(struct tc_figures *figures, const struct tc_doubtful *doubtful, int entry)
{
    const struct tc_study *study = figures->study;
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        enum tc_slot slot = (enum tc_slot)i;
        const struct tc_filled *filled = &study->entries[entry].setup.slot[slot];
        const char *kind = tc_slot_name(slot);
        size_t length = strlen(kind);
        if (!filled->offer)
            continue;
        const char *part = filled->offer->part->goods.name;
        struct tc_target target = {
            .entry = entry, .slot = slot, .offset = doubtful->offset, .span = doubtful->span};
        enum tc_status status = TC_OK;
        if (strcmp(doubtful->kind, kind) == 0 && strcmp(doubtful->item, part) == 0 &&
            in_currency(study, doubtful)) {
            target.place = TC_AT_PART;
            status = add_target(figures, target);
        } else if (strcmp(doubtful->kind, "prices") == 0 && strcmp(doubtful->item, study->region.name) == 0 &&
                   strncmp(doubtful->key, kind, length) == 0 && doubtful->key[length] == ' ' &&
                   strcmp(doubtful->key + length + 1, part) == 0) {
            target.place = TC_AT_PART_LOCAL_PRICE;
            target.offset = 0;
            status = add_target(figures, target);
        }
        if (status != TC_OK)
            return status;
    }
    return TC_OK;
}

static enum tc_status find_in_stock(struct tc_figures *figures)
{
    const struct tc_study *study = figures->study;
    for (size_t i = 0; i < study->stock->doubtful_count; i++) {
        const struct tc_doubtful *doubtful = &study->stock->doubtful[i];
        int first = figures->target_count;
        enum tc_status status = target_shared(figures, doubtful);
        for (int entry = 0; status == TC_OK && entry < study->entry_count; entry++) {
            status = target_tank(figures, doubtful, entry);
            if (status == TC_OK)
                status = target_parts(figures, doubtful, entry);
        }
        if (status == TC_OK)
            status = add_figure(figures, first, doubtful->spread, dimension_of(doubtful->kind, doubtful->key),
                                doubtful->kind, doubtful->item, doubtful->key);
        if (status != TC_OK)
            return status;
    }
    return TC_OK;
}

/* Assumptions of kit and region typed over as ranges. */
static enum tc_status find_overrides(struct tc_figures *figures)
{
    const struct tc_plan *plan = &figures->study->plan;
    for (int i = 0; i < plan->override_count; i++) {
        const struct tc_override *override = &plan->override[i];
        const struct tc_key_table *table = tc_key_table_find(override->kind);
        const struct tc_key *key = table ? tc_key_find(table, override->key) : NULL;
        if (override->spread.shape == TC_SPREAD_FIXED || !key)
            continue;
        bool kit = strcmp(override->kind, "kit") == 0;
        int first = figures->target_count;
        enum tc_status status =
            add_target(figures, (struct tc_target){.place = kit ? TC_AT_KIT : TC_AT_REGION,
                                                   .offset = key->offset,
                                                   .span = key->form == TC_KEY_MONTHS ? TC_MONTHS : 1});
        if (status == TC_OK)
            status = add_figure(figures, first, override->spread, dimension_of(override->kind, override->key),
                                override->kind, "", override->key);
        if (status != TC_OK)
            return status;
    }
    return TC_OK;
}

/* The target of a figure of the plan itself, by where it lies in the plan; false where it does not matter. */
static bool plan_target(const struct tc_study *study, size_t offset, struct tc_target *target)
{
    target->span = 1;
    if (offset == offsetof(struct tc_plan, discount)) {
        target->place = TC_AT_DISCOUNT;
        return true;
    }
    for (int entry = 0; entry < study->entry_count; entry++) {
        size_t base = offsetof(struct tc_plan, candidate) +
                      (size_t)study->entries[entry].index * sizeof(struct tc_candidate);
        target->entry = entry;
        target->place = TC_AT_TYPED_PRICE;
        if (offset == base + offsetof(struct tc_candidate, price))
            return true;
        target->place = TC_AT_TYPED_LIFE;
        if (offset == base + offsetof(struct tc_candidate, life))
            return true;
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
            size_t pin = base + offsetof(struct tc_candidate, pin) + (size_t)slot * sizeof(struct tc_pin);
            target->slot = (enum tc_slot)slot;
            if (!study->entries[entry].setup.slot[slot].offer)
                continue;
            target->place = TC_AT_PIN_PRICE;
            if (offset == pin + offsetof(struct tc_pin, price))
                return true;
            target->place = TC_AT_PIN_LIFE;
            if (offset == pin + offsetof(struct tc_pin, life))
                return true;
        }
    }
    return false;
}

static enum tc_status find_in_plan(struct tc_figures *figures)
{
    const struct tc_plan *plan = &figures->study->plan;
    for (int i = 0; i < plan->range_count; i++) {
        const struct tc_typed_range *range = &plan->range[i];
        struct tc_target target = {.offset = 0};
        int first = figures->target_count;
        enum tc_status status = TC_OK;
        if (plan_target(figures->study, range->offset, &target))
            status = add_target(figures, target);
        if (status == TC_OK)
            status = add_figure(figures, first, range->spread, TC_DIM_PLAIN, "plan", "", range->path);
        if (status != TC_OK)
            return status;
    }
    return TC_OK;
}

/* The region's own price for a tank (kind "tank") or part, or NAN where it has none. */
static double local_price(const struct tc_study *study, const char *kind, const char *item)
{
    for (size_t i = 0; i < study->stock->price_count; i++) {
        const struct tc_local_price *price = &study->stock->prices[i];
        if (strcmp(price->region, study->region.name) == 0 && strcmp(price->kind, kind) == 0 &&
            strcmp(price->item, item) == 0)
            return price->amount;
    }
    return NAN;
}

/* Pointers to what lies in the copy itself or in `shared` are set when it is varied. */
static void copy_entry(const struct tc_study *study, const struct tc_contender *entry,
                       struct tc_varied *varied, struct tc_known_heat *heat)
{
    varied->c = entry->c;
    varied->setup = entry->setup;
    varied->prices = entry->prices;
    varied->tank = entry->tank;
    if (entry->prices.deal.sale)
        varied->sale = *entry->prices.deal.sale;
    varied->local_price = local_price(study, "tank", entry->tank.goods.name);
    varied->typed_price = entry->plan->price;
    heat->c = tc_setup_heat(&entry->c, &entry->setup);
    heat->year = entry->cost.running.heat;
    varied->c.known = heat;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const struct tc_offer *offer = entry->setup.slot[slot].offer;
        varied->part_local_price[slot] = varied->pin_price[slot] = NAN;
        if (!offer)
            continue;
        varied->parts[slot] = *offer->part;
        varied->offers[slot] = *offer;
        varied->part_local_price[slot] =
            local_price(study, tc_slot_name((enum tc_slot)slot), offer->part->goods.name);
    }
}

/* Whether the household's bill follows a target. */
static bool moves_tariffs(const struct tc_target *target)
{
    static const size_t offsets[] = {
        offsetof(struct tc_region, electricity_price), offsetof(struct tc_region, water_price),
        offsetof(struct tc_region, household_energy), offsetof(struct tc_region, household_water)};
    if (target->place != TC_AT_REGION)
        return target->place == TC_AT_ELECTRICITY || target->place == TC_AT_WATER;
    for (size_t i = 0; i < sizeof offsets / sizeof offsets[0]; i++)
        if (target->offset == offsets[i])
            return true;
    return false;
}

enum tc_status tc_figures_find(struct tc_figures *figures, const struct tc_study *study)
{
    *figures = (struct tc_figures){.study = study};
    figures->entries = calloc((size_t)study->entry_count + 1, sizeof *figures->entries);
    figures->heats = calloc((size_t)study->entry_count + 1, sizeof *figures->heats);
    if (!figures->entries || !figures->heats)
        return TC_NO_MEMORY;
    for (int i = 0; i < study->entry_count; i++)
        copy_entry(study, &study->entries[i], &figures->entries[i], &figures->heats[i]);
    enum tc_status status = find_in_stock(figures);
    if (status == TC_OK)
        status = find_overrides(figures);
    if (status == TC_OK)
        status = find_in_plan(figures);
    for (int i = 0; i < figures->target_count; i++)
        figures->tariffs_vary = figures->tariffs_vary || moves_tariffs(&figures->targets[i]);
    return status;
}

void tc_figures_free(struct tc_figures *figures)
{
    free(figures->spreads);
    free(figures->names);
    free(figures->targets);
    free(figures->heats);
    free(figures->entries);
    *figures = (struct tc_figures){.study = NULL};
}

/* ---------------------------------------------------------------- evaluating */

/* What all entries share in one evaluation. */
struct shared {
    struct tc_kit kit;
    struct tc_region region;
    double discount;
    const struct tc_tariff_margin *electricity, *water; /* the study's, or else */
    struct tc_tariff_margin own_electricity, own_water; /* these, of these tariffs */
    struct tc_tariffs tariffs;
};

static void put(void *record, const struct tc_target *target, double value)
{
    for (int i = 0; i < target->span; i++)
        memcpy((char *)record + target->offset + (size_t)i * sizeof value, &value, sizeof value);
}

static void put_shared(struct shared *shared, const struct tc_target *target, double value)
{
    switch (target->place) {
    case TC_AT_KIT: put(&shared->kit, target, value); break;
    case TC_AT_REGION: put(&shared->region, target, value); break;
    case TC_AT_ELECTRICITY: put(&shared->tariffs.electricity, target, value); break;
    case TC_AT_WATER: put(&shared->tariffs.water, target, value); break;
    case TC_AT_DISCOUNT: shared->discount = value; break;
    default: break;
    }
}

static void put_varied(struct tc_varied *varied, const struct tc_target *target, double value)
{
    switch (target->place) {
    case TC_AT_TANK: put(&varied->tank, target, value); break;
    case TC_AT_SALE: put(&varied->sale, target, value); break;
    case TC_AT_LOCAL_PRICE: varied->local_price = value; break;
    case TC_AT_TYPED_PRICE: varied->typed_price = value; break;
    case TC_AT_TYPED_LIFE: varied->prices.tank_life = value; break;
    case TC_AT_PART: put(&varied->parts[target->slot], target, value); break;
    case TC_AT_PART_LOCAL_PRICE: varied->part_local_price[target->slot] = value; break;
    case TC_AT_PIN_PRICE: varied->pin_price[target->slot] = value; break;
    case TC_AT_PIN_LIFE: varied->c.wish[target->slot].life = value; break;
    default: break;
    }
}

/* The region's flat prices, where no tariff is named, are tariffs as well. */
static void make_shared(const struct tc_figures *figures, const double values[], struct shared *shared)
{
    const struct tc_study *study = figures->study;
    shared->kit = study->kit;
    shared->region = study->region;
    shared->discount = study->plan.discount;
    if (figures->tariffs_vary)
        shared->tariffs = study->tariffs;
    for (int i = 0; i < figures->target_count; i++)
        put_shared(shared, &figures->targets[i], values[figures->targets[i].figure]);
    shared->electricity = &study->electricity;
    shared->water = &study->water;
    if (!figures->tariffs_vary)
        return;
    if (!shared->region.electricity_tariff[0])
        shared->tariffs.electricity = tc_tariff_flat(shared->region.electricity_price);
    if (!shared->region.water_tariff[0])
        shared->tariffs.water = tc_tariff_flat(shared->region.water_price);
    tc_study_margins(&shared->region, &shared->tariffs, NULL, &shared->own_electricity, &shared->own_water);
    shared->electricity = &shared->own_electricity;
    shared->water = &shared->own_water;
}

/* The price of one part, in its own money, as figures and region have it. */
static void price_part(struct tc_varied *varied, struct tc_currency currency, enum tc_slot slot)
{
    struct tc_offer *offer = &varied->offers[slot];
    enum tc_status status = TC_OK;
    const struct tc_price *price = tc_price_in(&varied->parts[slot].goods.price, currency);
    const struct tc_price *upkeep = tc_price_in(&varied->parts[slot].goods.upkeep, currency);
    double amount = varied->part_local_price[slot];
    if (isnan(amount) && price)
        amount = price->amount;
    offer->part = &varied->parts[slot];
    offer->price = isnan(amount) ? offer->price : tc_currency_money(currency, amount, &status);
    offer->upkeep = upkeep ? tc_currency_money(currency, upkeep->amount, &status) : 0;
    offer->priced = offer->priced && status == TC_OK;
    if (!isnan(varied->pin_price[slot]))
        varied->c.wish[slot].price = round(varied->pin_price[slot] * tc_currency_scale(currency));
}

/* The deal anew, by the same kind as the study's. */
static enum tc_status make_deal(const struct tc_contender *entry, struct tc_varied *varied,
                                const struct tc_region *region)
{
    enum tc_status status = TC_OK;
    struct tc_deal *deal = &varied->prices.deal;
    const struct tc_deal *known = &entry->prices.deal;
    const struct tc_price *price = tc_price_in(&varied->tank.goods.price, region->currency);
    double amount = varied->local_price;
    if (isnan(amount) && price)
        amount = price->amount;
    bool listed = entry->listed && !isnan(amount);
    tc_money list = listed ? tc_currency_money(region->currency, amount, &status) : 0;
    tc_money fee = tc_currency_money(region->currency, region->order_fee, &status);
    if (status != TC_OK)
        return status;
    switch (known->kind) {
    case TC_DEAL_LIST: return tc_deal_at_list(deal, known->quantity, listed, list);
    case TC_DEAL_ORDER: return tc_deal_on_order(deal, known->quantity, listed, list, fee);
    case TC_DEAL_SALE:
        return tc_deal_on_sale(deal, known->quantity, listed, list, &varied->sale, &varied->tank,
                               region->currency);
    case TC_DEAL_TYPED: {
        tc_money typed = tc_currency_money(region->currency, varied->typed_price, &status);
        if (status == TC_OK)
            status = tc_deal_typed(deal, known->quantity, listed, list, typed);
        deal->fee = known->fee > 0 ? tc_money_times(fee, known->quantity, &status) : 0;
        return status;
    }
    }
    return TC_RANGE;
}

static enum tc_status measure(struct tc_varied *varied)
{
    struct tc_bed bed = {.depth = varied->c.kit->bed_depth, .void_share = 1};
    const struct tc_offer *substrate = varied->setup.slot[TC_SLOT_SUBSTRATE].offer;
    if (substrate) {
        bed.bulk_density = substrate->part->as.substrate.bulk_density;
        bed.void_share = substrate->part->as.substrate.void_share;
    } else {
        bed.depth = 0;
    }
    return tc_tank_measure(&varied->tank, bed, varied->c.kit->temperature, &varied->setup.size);
}

static double entry_cost(const struct tc_figures *figures, int index, const double values[],
                         const struct shared *shared)
{
    const struct tc_contender *entry = &figures->study->entries[index];
    struct tc_varied varied = figures->entries[index];
    double value = NAN;
    varied.c.tank = &varied.tank;
    varied.c.kit = &shared->kit;
    varied.c.region = &shared->region;
    varied.c.discount = shared->discount;
    varied.prices.electricity = shared->electricity;
    varied.prices.water = shared->water;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        if (varied.setup.slot[slot].offer)
            varied.setup.slot[slot].offer = &varied.offers[slot];
    for (int i = 0; i < figures->target_count; i++) {
        const struct tc_target *target = &figures->targets[i];
        if (target->place > TC_AT_DISCOUNT && target->entry == index)
            put_varied(&varied, target, values[target->figure]);
    }
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        if (varied.setup.slot[slot].offer)
            price_part(&varied, shared->region.currency, (enum tc_slot)slot);
    enum tc_status status = make_deal(entry, &varied, &shared->region);
    if (status == TC_OK)
        status = measure(&varied);
    if (status == TC_OK)
        status = tc_cost_value(&varied.c, &varied.setup, &varied.prices, &value);
    return status == TC_OK ? value : NAN;
}

void tc_figures_costs(void *context, const double values[], double costs[])
{
    const struct tc_figures *figures = context;
    struct shared shared;
    make_shared(figures, values, &shared);
    for (int i = 0; i < figures->study->entry_count; i++)
        costs[i] = entry_cost(figures, i, values, &shared);
}
