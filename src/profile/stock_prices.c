/* SPDX-License-Identifier: MIT */
#include "profile/stock_prices.h"

#include <stdlib.h>
#include <string.h>

#include "profile/key_table.h"

/* How a price of a section of prices is read: its key is the item's name. */
static const struct tc_key price_key =
    TC_MONEY_KEY("price", struct tc_region_price, amount, 1e8, NULL, "89", "price of one in this region");

/* A price as it was read, before it is known whether another one takes its place. */
struct found {
    struct tc_region_price price;
    struct tc_spread spread;
    const struct tc_section *section;
    const struct tc_ini_key *key;
    int layer;
    size_t order; /* of reading */
    bool bad;
};

struct finds {
    struct found *items;
    size_t count;
};

int tc_region_price_compare(const void *a, const void *b)
{
    const struct tc_region_price *x = a, *y = b;
    int order = strcmp(x->region, y->region);
    if (order == 0)
        order = strcmp(x->kind, y->kind);
    return order != 0 ? order : strcmp(x->item, y->item);
}

static int compare_found(const void *a, const void *b)
{
    const struct found *x = a, *y = b;
    int order = tc_region_price_compare(&x->price, &y->price);
    return order != 0 ? order : (x->order > y->order) - (x->order < y->order);
}

static bool item_there(const struct tc_stock *stock, const char *kind, const char *name)
{
    enum tc_slot slot;
    if (tc_slot_find(kind, &slot))
        return tc_stock_part(stock, slot, name) != NULL;
    return tc_stock_tank(stock, name) != NULL;
}

/* Reads the prices of one section. */
static void read_section(struct tc_build *build, const struct tc_section *section,
                         const struct tc_region *region, struct finds *finds)
{
    const struct tc_sections *sections = build->stock->sections;
    for (size_t i = 0; i < section->ini->key_count; i++) {
        const struct tc_ini_key *key = &section->ini->keys[i];
        struct tc_reading reading = {.currency = region->currency};
        struct found found = {.section = section, .key = key, .layer = sections->files[section->file].layer};
        if (!item_there(build->stock, section->detail, key->name)) {
            tc_build_missing(build, section, key, section->detail, key->name);
            continue;
        }
        if (!tc_key_read_with(&price_key, key->value, &found.price, &reading)) {
            tc_faults_error(build->faults, tc_section_place(sections, section, key), "%s", reading.problem);
            continue;
        }
        memcpy(found.price.region, region->name, sizeof found.price.region);
        memcpy(found.price.kind, section->detail, sizeof found.price.kind - 1);
        memcpy(found.price.item, key->name, strlen(key->name));
        found.spread =
            reading.range_count > 0 ? reading.range[0].spread : tc_spread_fixed(found.price.amount);
        found.order = finds->count;
        void *items = finds->items;
        struct found *place = tc_build_push(build, &items, &finds->count, sizeof *place);
        finds->items = items;
        if (!place)
            return;
        *place = found;
    }
}

/* Of several prices of one item the last counts; two of one layer are a fault. */
static void drop_earlier(struct tc_build *build, struct finds *finds)
{
    const struct tc_sections *sections = build->stock->sections;
    for (size_t i = 1; i < finds->count; i++) {
        struct found *before = &finds->items[i - 1], *now = &finds->items[i];
        if (tc_region_price_compare(&before->price, &now->price) != 0)
            continue;
        if (before->layer == now->layer) {
            struct tc_place place = tc_section_place(sections, before->section, before->key);
            tc_faults_error(build->faults, tc_section_place(sections, now->section, now->key),
                            "the price is there already, in %s:%d; neither is used: remove one", place.file,
                            place.line);
            now->bad = true;
        }
        before->bad = true;
    }
}

static void keep(struct tc_build *build, const struct found *found)
{
    struct tc_stock *stock = build->stock;
    void *items = stock->prices;
    struct tc_region_price *price = tc_build_push(build, &items, &stock->price_count, sizeof *price);
    stock->prices = items;
    if (!price)
        return;
    *price = found->price;
    if (found->spread.shape == TC_SPREAD_FIXED)
        return;
    const struct tc_key_range range = {
        .offset = offsetof(struct tc_region_price, amount), .span = 1, .spread = found->spread};
    char key[2 * TC_NAME_SIZE];
    size_t length = strlen(price->kind);
    memcpy(key, price->kind, length);
    key[length] = ' ';
    memcpy(key + length + 1, price->item, strlen(price->item) + 1);
    tc_build_range(build, "prices", price->region, key, &range);
}

void tc_build_prices(struct tc_build *build)
{
    const struct tc_sections *sections = build->stock->sections;
    struct finds finds = {NULL, 0};
    for (size_t i = 0; i < sections->count && build->status == TC_OK; i++) {
        const struct tc_section *section = sections->items[i];
        if (strcmp(section->kind, "prices") != 0)
            continue;
        const struct tc_region *region = tc_stock_region(build->stock, section->name);
        if (!region)
            tc_build_missing(build, section, NULL, "region", section->name);
        else if (!section->bad)
            read_section(build, section, region, &finds);
    }
    if (finds.count > 0)
        qsort(finds.items, finds.count, sizeof *finds.items, compare_found);
    drop_earlier(build, &finds);
    for (size_t i = 0; i < finds.count && build->status == TC_OK; i++)
        if (!finds.items[i].bad)
            keep(build, &finds.items[i]);
    free(finds.items);
}
