/* SPDX-License-Identifier: MIT */
#include "sheet/uncertain_collect.h"
#include "core/base/grow.h"
#include "profile/kind.h"
#include "profile/month_key.h"
#include "profile/plan_path.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static enum tc_status add_target(struct tc_uncertain *uncertain, struct tc_target target)
{
    struct tc_target *targets = tc_grow(uncertain->targets, (size_t)uncertain->target_count,
                                        &uncertain->target_capacity, sizeof *targets);
    if (!targets)
        return TC_NO_MEMORY;
    uncertain->targets = targets;
    target.figure = uncertain->count; /* of the figure being collected */
    targets[uncertain->target_count++] = target;
    return TC_OK;
}

/* Closes the figure whose targets were just added; one without targets does not matter to the study. */
static enum tc_status add_figure(struct tc_uncertain *uncertain, int first_target, struct tc_spread spread,
                                 enum tc_dimension dimension, const char *kind, const char *item,
                                 const char *key)
{
    if (uncertain->target_count == first_target)
        return TC_OK;
    size_t capacity = uncertain->capacity, count = (size_t)uncertain->count;
    struct tc_spread *spreads = tc_grow(uncertain->spreads, count, &capacity, sizeof *spreads);
    if (!spreads)
        return TC_NO_MEMORY;
    uncertain->spreads = spreads;
    capacity = uncertain->capacity;
    struct tc_uncertain_name *names = tc_grow(uncertain->names, count, &capacity, sizeof *names);
    if (!names)
        return TC_NO_MEMORY;
    uncertain->names = names;
    uncertain->capacity = capacity;
    spreads[uncertain->count] = spread;
    struct tc_uncertain_name *name = &names[uncertain->count++];
    snprintf(name->text, sizeof name->text, "%s%s%s %s", kind, item[0] ? " " : "", item, key);
    name->dimension = dimension;
    name->heat_loss = strcmp(kind, "setup") == 0 && strcmp(key, "heat-loss") == 0;
    return TC_OK;
}

/* How much of what names a doubtful figure is its key: "room" of "room jan". */
static size_t key_length(const char *key)
{
    return strcspn(key, " ");
}

/* The dimension of a key's figures: plain for money and rates, which are written without a unit of ours. */
static enum tc_dimension dimension_of(const char *kind, const char *key)
{
    const struct tc_key_table *table = tc_key_table_find(kind);
    char name[TC_NAME_SIZE];
    snprintf(name, sizeof name, "%.*s", (int)key_length(key), key);
    const struct tc_key *found = table ? tc_key_find(table, name) : NULL;
    if (found && (found->form == TC_KEY_QUANTITY || found->form == TC_KEY_MONTHS))
        return found->dimension;
    return TC_DIM_PLAIN;
}

static bool typed_over(const struct tc_plan *plan, const char *kind, const char *key)
{
    for (int i = 0; i < plan->override_count; i++)
        if (strcmp(plan->override[i].kind, kind) == 0 && strlen(plan->override[i].key) == key_length(key) &&
            strncmp(plan->override[i].key, key, key_length(key)) == 0)
            return true;
    return false;
}

/* Whether a doubtful price of a list is that of the study's currency, or no price at all. */
static bool in_currency(const struct tc_study *study, const struct tc_record_range *doubtful)
{
    const char *code = strchr(doubtful->key, ' ');
    return !code || strcmp(code + 1, study->region.currency.code) == 0;
}

/* Targets in the records that all alternatives share. */
static enum tc_status target_shared(struct tc_uncertain *uncertain, const struct tc_record_range *doubtful)
{
    const struct tc_study *study = uncertain->study;
    struct tc_target target = {.offset = doubtful->offset, .span = doubtful->span};
    if (strcmp(doubtful->kind, "setup") == 0 && strcmp(doubtful->item, study->setup.name) == 0 &&
        !typed_over(&study->plan, "setup", doubtful->key)) {
        target.place = TC_AT_SETUP;
        return add_target(uncertain, target);
    }
    if (strcmp(doubtful->kind, "region") == 0 && strcmp(doubtful->item, study->region.name) == 0 &&
        !typed_over(&study->plan, "region", doubtful->key)) {
        target.place = TC_AT_REGION;
        return add_target(uncertain, target);
    }
    if (strcmp(doubtful->kind, "extra") == 0 && in_currency(study, doubtful)) {
        target.place = TC_AT_EXTRA;
        for (int i = 0; i < study->extra_count; i++)
            if (strcmp(doubtful->item, study->extras[i]->name) == 0) {
                target.alternative = i;
                return add_target(uncertain, target);
            }
        return TC_OK;
    }
    if (strcmp(doubtful->kind, "tariff") == 0) {
        target.offset -= offsetof(struct tc_named_tariff, tariff);
        if (strcmp(doubtful->item, study->region.electricity.tariff) == 0) {
            target.place = TC_AT_ELECTRICITY;
            return add_target(uncertain, target);
        }
        if (strcmp(doubtful->item, study->region.water.tariff) == 0) {
            target.place = TC_AT_WATER;
            return add_target(uncertain, target);
        }
    }
    return TC_OK;
}

/* The place of a shop among those that are bought at; -1: it is not. */
static int at_shop(const struct tc_study *study, const char *name)
{
    for (int s = 0; s < study->shop_count; s++)
        if (strcmp(study->shops[s]->name, name) == 0)
            return s;
    return -1;
}

/* Whether an alternative is bought at more than the study's own shop, or it is that. */
static bool may_buy_at(const struct tc_alternative *alternative, int shop)
{
    return shop == 0 || (shop > 0 && alternative->c.market);
}

/* The setup of an alternative that has one of its own. */
static enum tc_status target_setup(struct tc_uncertain *uncertain, const struct tc_record_range *doubtful,
                                   int index)
{
    const struct tc_alternative *alternative = &uncertain->study->alternatives[index];
    if (tc_study_setup_shared(uncertain->study, alternative) || strcmp(doubtful->kind, "setup") != 0 ||
        strcmp(doubtful->item, alternative->c.setup->name) != 0)
        return TC_OK;
    return add_target(uncertain, (struct tc_target){.place = TC_AT_OWN_SETUP,
                                                    .alternative = index,
                                                    .offset = doubtful->offset,
                                                    .span = doubtful->span});
}

static enum tc_status target_tank(struct tc_uncertain *uncertain, const struct tc_record_range *doubtful,
                                  int index)
{
    const struct tc_alternative *alternative = &uncertain->study->alternatives[index];
    const struct tc_sale *sale = alternative->prices.deal.sale;
    struct tc_target target = {.alternative = index, .offset = doubtful->offset, .span = doubtful->span};
    const char *tank = alternative->c.tank.goods.name;
    if (strcmp(doubtful->kind, "tank") == 0 && strcmp(doubtful->item, tank) == 0 &&
        in_currency(uncertain->study, doubtful)) {
        target.place = TC_AT_TANK;
        return add_target(uncertain, target);
    }
    if (strcmp(doubtful->kind, "sale") == 0 && sale && strcmp(doubtful->item, sale->name) == 0) {
        target.place = TC_AT_SALE;
        return add_target(uncertain, target);
    }
    target.shop = at_shop(uncertain->study, doubtful->item);
    if (strcmp(doubtful->kind, "prices") == 0 && may_buy_at(alternative, target.shop) &&
        strncmp(doubtful->key, "tank ", 5) == 0 && strcmp(doubtful->key + 5, tank) == 0) {
        target.place = TC_AT_LOCAL_PRICE;
        target.offset = 0;
        return add_target(uncertain, target);
    }
    return TC_OK;
}

static enum tc_status target_parts(struct tc_uncertain *uncertain, const struct tc_record_range *doubtful,
                                   int index)
{
    const struct tc_study *study = uncertain->study;
    const struct tc_alternative *alternative = &study->alternatives[index];
    int shop = at_shop(study, doubtful->item);
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        enum tc_slot slot = (enum tc_slot)i;
        const struct tc_filled *filled = &alternative->equipment.slot[slot];
        const char *kind = tc_slot_name(slot);
        size_t length = strlen(kind);
        if (!filled->offer)
            continue;
        const char *part = filled->offer->part->goods.name;
        struct tc_target target = {.alternative = index,
                                   .slot = slot,
                                   .shop = shop,
                                   .offset = doubtful->offset,
                                   .span = doubtful->span};
        enum tc_status status = TC_OK;
        if (strcmp(doubtful->kind, kind) == 0 && strcmp(doubtful->item, part) == 0 &&
            in_currency(study, doubtful)) {
            target.place = TC_AT_PART;
            status = add_target(uncertain, target);
        } else if (strcmp(doubtful->kind, "prices") == 0 && may_buy_at(alternative, shop) &&
                   strncmp(doubtful->key, kind, length) == 0 && doubtful->key[length] == ' ' &&
                   strcmp(doubtful->key + length + 1, part) == 0) {
            target.place = TC_AT_PART_LOCAL_PRICE;
            target.offset = 0;
            status = add_target(uncertain, target);
        }
        if (status != TC_OK)
            return status;
    }
    return TC_OK;
}

/* How sure the model of the heat is: one doubt, in whichever setups the tanks stand. */
static bool is_heat_loss(const struct tc_record_range *doubtful)
{
    return strcmp(doubtful->kind, "setup") == 0 && strcmp(doubtful->key, "heat-loss") == 0;
}

static bool any_unmeasured(const struct tc_study *study)
{
    for (int i = 0; i < study->alternative_count; i++)
        if (isnan(study->alternatives[i].c.loss_factor))
            return true;
    return false;
}

/* Whether two records of the stock hold the same figure: then what is said of the first counts for both. */
static bool same_figure(const struct tc_record_range *a, const struct tc_record_range *b)
{
    return a == b || (is_heat_loss(a) && is_heat_loss(b) && a->spread.shape == b->spread.shape &&
                      a->spread.low == b->spread.low && a->spread.high == b->spread.high &&
                      a->spread.likely == b->spread.likely);
}

static bool seen_before(const struct tc_stock *stock, size_t i)
{
    for (size_t k = 0; k < i; k++)
        if (same_figure(&stock->doubtful[k], &stock->doubtful[i]))
            return true;
    return false;
}

/* All places of one record's figure. */
static enum tc_status target_all(struct tc_uncertain *uncertain, const struct tc_record_range *doubtful)
{
    enum tc_status status = target_shared(uncertain, doubtful);
    for (int i = 0; status == TC_OK && i < uncertain->study->alternative_count; i++) {
        status = target_setup(uncertain, doubtful, i);
        if (status == TC_OK)
            status = target_tank(uncertain, doubtful, i);
        if (status == TC_OK)
            status = target_parts(uncertain, doubtful, i);
    }
    return status;
}

static enum tc_status find_in_stock(struct tc_uncertain *uncertain)
{
    const struct tc_stock *stock = uncertain->study->stock;
    for (size_t i = 0; i < stock->doubtful_count; i++) {
        const struct tc_record_range *doubtful = &stock->doubtful[i];
        bool heat = is_heat_loss(doubtful);
        int first = uncertain->target_count;
        enum tc_status status = TC_OK;
        if (heat && (!any_unmeasured(uncertain->study) || seen_before(stock, i)))
            continue;
        for (size_t k = i; status == TC_OK && k < (heat ? stock->doubtful_count : i + 1); k++)
            if (same_figure(doubtful, &stock->doubtful[k]))
                status = target_all(uncertain, &stock->doubtful[k]);
        if (status == TC_OK)
            status =
                add_figure(uncertain, first, doubtful->spread, dimension_of(doubtful->kind, doubtful->key),
                           doubtful->kind, heat ? "" : doubtful->item, doubtful->key);
        if (status != TC_OK)
            return status;
    }
    return TC_OK;
}

/* Of what is typed over for months: all alike, or each that is a range. */
static enum tc_status find_months(struct tc_uncertain *uncertain, const struct tc_override *override,
                                  const struct tc_key *key)
{
    struct tc_region scratch;
    struct tc_reading reading = {.currency = uncertain->study->region.currency};
    enum tc_status status = TC_OK;
    if (!tc_key_read_with(key, override->value, &scratch, &reading))
        return TC_OK; /* it was read before */
    for (int i = 0; status == TC_OK && i < reading.range_count; i++) {
        const struct tc_key_range *range = &reading.range[i];
        char name[2 * TC_NAME_SIZE];
        int first = uncertain->target_count;
        snprintf(name, sizeof name, "%s%s%s", key->name, range->month > 0 ? " " : "",
                 range->month > 0 ? tc_month_name(range->month) : "");
        status = add_target(
            uncertain,
            (struct tc_target){.place = TC_AT_REGION, .offset = range->offset, .span = range->span});
        if (status == TC_OK)
            status = add_figure(uncertain, first, range->spread, key->dimension, override->kind, "", name);
    }
    return status;
}

/* Assumptions of setup and region typed over as ranges. */
static enum tc_status find_overrides(struct tc_uncertain *uncertain)
{
    const struct tc_plan *plan = &uncertain->study->plan;
    for (int i = 0; i < plan->override_count; i++) {
        const struct tc_override *override = &plan->override[i];
        const struct tc_key_table *table = tc_key_table_find(override->kind);
        const struct tc_key *key = table ? tc_key_find(table, override->key) : NULL;
        int shop = override->shop[0] != '\0' ? at_shop(uncertain->study, override->shop) : 0;
        bool bought_at = shop == 0 || (shop > 0 && uncertain->study->market.count > 0);
        if (override->spread.shape == TC_SPREAD_FIXED || !key || !bought_at)
            continue;
        if (key->form == TC_KEY_MONTHS) {
            enum tc_status status = find_months(uncertain, override, key); /* of the region alone */
            if (status != TC_OK)
                return status;
            continue;
        }
        bool setup = strcmp(override->kind, "setup") == 0;
        int first = uncertain->target_count;
        struct tc_target target = {.place = setup                       ? TC_AT_SETUP
                                            : override->shop[0] != '\0' ? TC_AT_SHOP
                                                                        : TC_AT_REGION,
                                   .shop = shop,
                                   .offset = key->offset,
                                   .span = 1};
        enum tc_status status = add_target(uncertain, target);
        if (status == TC_OK)
            status =
                add_figure(uncertain, first, override->spread, dimension_of(override->kind, override->key),
                           override->kind, override->shop, override->key);
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
    for (int index = 0; index < study->alternative_count; index++) {
        size_t base = offsetof(struct tc_plan, candidate) +
                      (size_t)study->alternatives[index].index * sizeof(struct tc_candidate);
        target->alternative = index;
        target->place = TC_AT_TYPED_PRICE;
        if (offset == base + offsetof(struct tc_candidate, price))
            return true;
        target->place = TC_AT_TYPED_LIFE;
        if (offset == base + offsetof(struct tc_candidate, life))
            return true;
        target->place = TC_AT_TYPED_RESALE;
        if (offset == base + offsetof(struct tc_candidate, resale))
            return true;
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
            size_t pin = base + offsetof(struct tc_candidate, pin) + (size_t)slot * sizeof(struct tc_pin);
            target->slot = (enum tc_slot)slot;
            if (!study->alternatives[index].equipment.slot[slot].offer)
                continue;
            target->place = TC_AT_PIN_PRICE;
            if (offset == pin + offsetof(struct tc_pin, price))
                return true;
            target->place = TC_AT_PIN_NEXT;
            if (offset == pin + offsetof(struct tc_pin, next))
                return true;
            target->place = TC_AT_PIN_LIFE;
            if (offset == pin + offsetof(struct tc_pin, life))
                return true;
            target->place = TC_AT_PIN_RESALE;
            if (offset == pin + offsetof(struct tc_pin, resale))
                return true;
        }
    }
    return false;
}

/* The dimension of a range of the plan: plain for money. */
static enum tc_dimension dimension_at(const struct tc_plan *plan, const struct tc_typed_range *range)
{
    const struct tc_key *key = tc_plan_place_of_range(plan, range).key;
    return key && key->form == TC_KEY_QUANTITY ? key->dimension : TC_DIM_PLAIN;
}

static enum tc_status find_in_plan(struct tc_uncertain *uncertain)
{
    const struct tc_plan *plan = &uncertain->study->plan;
    for (int i = 0; i < plan->range_count; i++) {
        const struct tc_typed_range *range = &plan->range[i];
        struct tc_target target = {.offset = 0};
        int first = uncertain->target_count;
        enum tc_status status = TC_OK;
        if (plan_target(uncertain->study, range->offset, &target))
            status = add_target(uncertain, target);
        if (status == TC_OK)
            status = add_figure(uncertain, first, range->spread, dimension_at(plan, range), "plan", "",
                                range->path);
        if (status != TC_OK)
            return status;
    }
    return TC_OK;
}

/* How long a keeper takes, where an hour counts: one doubt of all tanks, since it is the keeper's. */
static enum tc_status find_hours(struct tc_uncertain *uncertain)
{
    int first = uncertain->target_count;
    if (!(uncertain->study->plan.hour_worth > 0))
        return TC_OK;
    enum tc_status status = add_target(uncertain, (struct tc_target){.place = TC_AT_HOURS, .span = 1});
    return status == TC_OK
               ? add_figure(uncertain, first, tc_spread_triangular(TC_UPKEEP_LEAST, 1, TC_UPKEEP_MOST),
                            TC_DIM_SHARE, TC_UNCERTAIN_UPKEEP, "", "hours")
               : status;
}

enum tc_status tc_uncertain_collect(struct tc_uncertain *uncertain)
{
    enum tc_status status = find_in_stock(uncertain);
    if (status == TC_OK)
        status = find_overrides(uncertain);
    if (status == TC_OK)
        status = find_in_plan(uncertain);
    if (status == TC_OK)
        status = find_hours(uncertain);
    return status;
}
