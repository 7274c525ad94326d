/* SPDX-License-Identifier: MIT */
#include "profile/stock_build.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/tariff/load.h"
#include "profile/key_table.h"
#include "profile/setup_keys.h"
#include "profile/part_keys.h"
#include "profile/plan_read.h"
#include "profile/region_keys.h"
#include "profile/sale_keys.h"
#include "profile/stock_prices.h"
#include "profile/tank_keys.h"
#include "profile/tariff_keys.h"

void *tc_build_reserve(struct tc_build *build, void **items, size_t count, size_t more, size_t size)
{
    void *grown = realloc(*items, (count + more) * size); /* sections were read: far from an overflow */
    if (!grown) {
        build->status = TC_NO_MEMORY;
        return NULL;
    }
    *items = grown;
    return (char *)grown + count * size;
}

size_t tc_build_count(const struct tc_build *build, const char *kind)
{
    const struct tc_sections *sections = build->stock->sections;
    size_t count = 0;
    for (size_t i = 0; i < sections->count; i++)
        count += !sections->items[i]->replaced && tc_name_same(sections->items[i]->kind, kind);
    return count;
}

void *tc_build_push(struct tc_build *build, void **items, size_t *count, size_t size)
{
    /* Grown whenever the count reaches a power of two: no room has to be kept beside it. */
    if ((*count & (*count - 1)) == 0) {
        if (!tc_build_reserve(build, items, *count, *count == 0 ? 1 : *count, size))
            return NULL;
    }
    return (char *)*items + size * (*count)++;
}

/* ------------------------------------------------------------------- doubtful figures */

void tc_build_range(struct tc_build *build, const char *kind, const char *item, const char *key,
                    const struct tc_key_range *range)
{
    struct tc_stock *stock = build->stock;
    void *items = stock->doubtful;
    struct tc_record_range *doubtful = tc_build_push(build, &items, &stock->doubtful_count, sizeof *doubtful);
    stock->doubtful = items;
    if (!doubtful)
        return;
    memset(doubtful, 0, sizeof *doubtful);
    snprintf(doubtful->kind, sizeof doubtful->kind, "%s", kind);
    snprintf(doubtful->item, sizeof doubtful->item, "%s", item);
    snprintf(doubtful->key, sizeof doubtful->key, "%s%s%s", key, range->currency.code[0] != '\0' ? " " : "",
             range->currency.code);
    doubtful->offset = range->offset;
    doubtful->span = range->span;
    doubtful->spread = range->spread;
}

void tc_build_doubtful(struct tc_build *build, const char *kind, const char *item,
                       const struct tc_entry *entry)
{
    for (int i = 0; i < entry->range_count; i++)
        tc_build_range(build, kind, item, entry->table->keys[entry->range[i].key].name,
                       &entry->range[i].range);
}

/* ---------------------------------------------------------------------- references */

void tc_build_missing(struct tc_build *build, const struct tc_section *section, const struct tc_ini_key *key,
                      const char *kind, const char *name)
{
    const struct tc_sections *sections = build->stock->sections;
    struct tc_place place = tc_section_place(sections, section, key);
    const char *nearest = tc_stock_nearest(build->stock, kind, name);
    if (tc_sections_find(sections, kind, name))
        tc_faults_error(build->faults, place, "the %s '%s' was left out for its own faults", kind, name);
    else if (nearest)
        tc_faults_error(build->faults, place, "there is no %s '%s'; did you mean '%s'?", kind, name, nearest);
    else
        tc_faults_error(build->faults, place, "there is no %s '%s'", kind, name);
}

const struct tc_region *tc_build_region(const struct tc_build *build, const struct tc_section *section)
{
    const struct tc_ini_key *key = tc_ini_key(section->ini, "region");
    char name[TC_NAME_SIZE];
    if (!key || strlen(key->value) >= sizeof name)
        return NULL;
    for (size_t i = 0; i <= strlen(key->value); i++)
        name[i] = tc_name_lower(key->value[i]);
    return tc_stock_region(build->stock, name);
}

/* --------------------------------------------------------------------- plain items */

/* The kinds of records that are read by their table alone, and where they go in the stock. */
struct shelf {
    const struct tc_key_table *table;
    size_t size;         /* of what is kept of the record */
    size_t name, title;  /* offsets in it */
    size_t items, count; /* offsets in the stock */
};

#define SHELF(table_, type, name_, title_, items_, count_)                                                   \
    {                                                                                                        \
        .table = &table_, .size = sizeof(type), .name = offsetof(type, name_),                               \
        .title = offsetof(type, title_), .items = offsetof(struct tc_stock, items_),                         \
        .count = offsetof(struct tc_stock, count_)                                                           \
    }

#define PART_SHELF(table_) SHELF(table_, struct tc_part, goods.name, goods.title, parts, part_count)

static const struct shelf shelves[] = {
    SHELF(tc_tariff_keys, struct tc_named_tariff, name, title, tariffs, tariff_count),
    SHELF(tc_region_keys, struct tc_region, name, title, regions, region_count),
    SHELF(tc_tank_keys, struct tc_tank, goods.name, goods.title, tanks, tank_count),
    PART_SHELF(tc_stand_keys),
    PART_SHELF(tc_lid_keys),
    PART_SHELF(tc_light_keys),
    PART_SHELF(tc_filter_keys),
    PART_SHELF(tc_air_pump_keys),
    PART_SHELF(tc_heater_keys),
    PART_SHELF(tc_substrate_keys),
    SHELF(tc_setup_keys, struct tc_setup, name, title, setups, setup_count),
    SHELF(tc_sale_keys, struct tc_sale, name, title, sales, sale_count),
};

/* What a region names has to be there before it is of use. */
static bool check_region(struct tc_build *build, const struct tc_section *section,
                         const struct tc_region *region)
{
    static const char *const keys[] = {"electricity-tariff", "water-tariff"};
    const char *names[] = {region->electricity_tariff, region->water_tariff};
    char problem[TC_PROBLEM_SIZE];
    struct tc_tariffs tariffs;
    bool good = true;
    for (int i = 0; i < 2; i++) {
        if (names[i][0] == '\0' || tc_stock_tariff(build->stock, names[i]))
            continue;
        tc_build_missing(build, section, tc_ini_key(section->ini, keys[i]), "tariff", names[i]);
        good = false;
    }
    if (good && !tc_stock_tariffs(build->stock, region, &tariffs, problem)) {
        tc_faults_error(build->faults, tc_section_place(build->stock->sections, section, NULL), "%s",
                        problem);
        good = false;
    }
    return good;
}

static bool check_sale(struct tc_build *build, const struct tc_section *section, const struct tc_sale *sale)
{
    bool good = true;
    if (sale->region[0] != '\0' && !tc_stock_region(build->stock, sale->region)) {
        tc_build_missing(build, section, tc_ini_key(section->ini, "region"), "region", sale->region);
        good = false;
    }
    for (int i = 0; i < sale->tank_count; i++) {
        if (tc_stock_tank(build->stock, sale->tanks[i]))
            continue;
        tc_build_missing(build, section, tc_ini_key(section->ini, "tanks"), "tank", sale->tanks[i]);
        good = false;
    }
    for (int i = 0; i < sale->part_count; i++) {
        if (tc_stock_part(build->stock, sale->parts[i].slot, sale->parts[i].name))
            continue;
        tc_build_missing(build, section, tc_ini_key(section->ini, "includes"),
                         tc_slot_name(sale->parts[i].slot), sale->parts[i].name);
        good = false;
    }
    return good;
}

/* A shelf being filled. */
struct filling {
    const struct shelf *shelf;
    void *usual;  /* a record with every default */
    void *record; /* the one being made */
    struct tc_entry entry;
    char *place; /* in the stock, of the next record */
};

/* Makes the record of one section; false where it has a fault. */
static bool make_record(struct tc_build *build, struct filling *filling, const struct tc_section *section)
{
    const struct shelf *shelf = filling->shelf;
    void *record = filling->record;
    struct tc_currency currency = {"", 0};
    bool sale = shelf->table == &tc_sale_keys;
    const struct tc_region *region = sale ? tc_build_region(build, section) : NULL;
    if (region)
        currency = region->currency;
    memcpy(record, filling->usual, shelf->table->record_size);
    bool good = tc_record_read(shelf->table, build->stock->sections, section, currency, record,
                               &filling->entry, build->faults);
    char *name = (char *)record + shelf->name, *title = (char *)record + shelf->title;
    memcpy(name, section->name, TC_NAME_SIZE);
    if (title[0] == '\0')
        memcpy(title, section->name, TC_NAME_SIZE);
    if (sale)
        return check_sale(build, section, record) && good; /* all its faults, also of a bad one */
    if (good && shelf->table == &tc_region_keys)
        return check_region(build, section, record);
    return good;
}

/* Makes the records of one kind in the places reserved for them. */
static void fill_places(struct tc_build *build, struct filling *filling, size_t *count)
{
    const struct tc_sections *sections = build->stock->sections;
    const struct shelf *shelf = filling->shelf;
    tc_key_defaults(shelf->table, filling->usual);
    for (size_t i = 0; i < sections->count && build->status == TC_OK; i++) {
        const struct tc_section *section = sections->items[i];
        if (section->replaced || !tc_name_same(section->kind, shelf->table->kind) ||
            !make_record(build, filling, section))
            continue;
        memcpy(filling->place, filling->record, shelf->size);
        filling->place += shelf->size;
        ++*count;
        tc_build_doubtful(build, shelf->table->kind, section->name, &filling->entry);
    }
}

/* Makes all records of one kind. */
static void fill_shelf(struct tc_build *build, const struct shelf *shelf)
{
    size_t wanted = tc_build_count(build, shelf->table->kind);
    size_t *count = (size_t *)(void *)((char *)build->stock + shelf->count);
    struct filling *filling = malloc(sizeof *filling);
    void *records = malloc(2 * shelf->table->record_size), *items;
    memcpy(&items, (char *)build->stock + shelf->items, sizeof items);
    if (!filling || !records) {
        build->status = TC_NO_MEMORY;
    } else if (wanted > 0) {
        filling->shelf = shelf;
        filling->usual = records;
        filling->record = (char *)records + shelf->table->record_size;
        filling->place = tc_build_reserve(build, &items, *count, wanted, shelf->size);
        memcpy((char *)build->stock + shelf->items, &items, sizeof items);
        if (filling->place)
            fill_places(build, filling, count);
    }
    free(records);
    free(filling);
}

/* ------------------------------------------------------------------------- stock */

static void fill_kind(struct tc_build *build, const char *kind)
{
    for (size_t i = 0; i < TC_COUNT_OF(shelves) && build->status == TC_OK; i++)
        if (tc_name_same(shelves[i].table->kind, kind))
            fill_shelf(build, &shelves[i]);
}

static void fill_plans(struct tc_build *build)
{
    const struct tc_sections *sections = build->stock->sections;
    struct tc_stock *stock = build->stock;
    size_t wanted = tc_build_count(build, "plan");
    void *plans = stock->plans;
    if (wanted == 0 || !tc_build_reserve(build, &plans, 0, wanted, sizeof *stock->plans))
        return;
    stock->plans = plans;
    for (size_t i = 0; i < sections->count; i++)
        if (tc_name_same(sections->items[i]->kind, "plan") && !sections->items[i]->replaced &&
            tc_build_plan(build, sections->items[i], &stock->plans[stock->plan_count]))
            stock->plan_count++;
}

/* Takes away what was made before, but for the sections. */
static void empty(struct tc_stock *stock)
{
    struct tc_sections *sections = stock->sections;
    stock->sections = NULL;
    tc_stock_free(stock);
    stock->sections = sections;
}

enum tc_status tc_stock_finish(struct tc_stock *stock, struct tc_faults *faults)
{
    struct tc_build build = {.stock = stock, .faults = faults, .status = TC_OK};
    empty(stock);
    if (!stock->sections)
        return TC_OK;
    build.status = tc_sections_values(stock->sections, faults);
    if (build.status != TC_OK)
        return build.status;
    /* Each kind after those it refers to; parts between tanks and setups, in the order of the slots. */
    fill_kind(&build, "tariff");
    fill_kind(&build, "region");
    fill_kind(&build, "tank");
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        fill_kind(&build, tc_slot_name((enum tc_slot)slot));
    fill_kind(&build, "setup");
    fill_kind(&build, "sale");
    tc_build_prices(&build);
    fill_plans(&build);
    tc_faults_sort(faults);
    return build.status;
}
