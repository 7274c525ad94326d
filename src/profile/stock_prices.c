/* SPDX-License-Identifier: MIT */
#include "profile/stock_prices.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "profile/key_table.h"
#include "profile/kind.h"
#include "profile/section.h"

/* How a price of a section of prices is read: its key is the item's name. */
static const struct tc_key price_key =
    TC_MONEY_KEY("price", struct tc_shop_price, amount, 1e8, NULL, "89", "price of one at this shop");

/* A price as it was read, before it is known whether another one takes its place. */
struct found {
    struct tc_shop_price price;
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

static int compare_found(const void *a, const void *b)
{
    const struct found *x = a, *y = b;
    int order = tc_shop_price_compare(&x->price, &y->price);
    return order != 0 ? order : (x->order > y->order) - (x->order < y->order);
}

/* A name that no thing of the list's kind has; perhaps one of another kind has it. */
static void no_item(struct tc_build *build, const struct tc_section *section, const struct tc_ini_key *key)
{
    for (size_t i = 0; tc_kind_at(i); i++) {
        const struct tc_kind *kind = tc_kind_at(i);
        if (!tc_kind_is_goods(kind) || strcmp(kind->name, section->detail) == 0 ||
            !tc_sections_find(build->sections, kind->name, key->name))
            continue;
        tc_faults_error(build->faults, tc_section_place(build->sections, section, key),
                        "'%s' is a %s; write its price in '[prices %s %s]'", key->name, kind->name,
                        section->name, kind->name);
        return;
    }
    tc_build_missing(build, section, key, section->detail, key->name);
}

/* Reads the prices of one section. */
static void read_section(struct tc_build *build, const struct tc_section *section, const struct tc_shop *shop,
                         struct tc_currency currency, struct finds *finds)
{
    const struct tc_sections *sections = build->sections;
    const struct tc_kind *kind = tc_kind_find(section->detail);
    for (size_t i = 0; i < section->ini->key_count; i++) {
        const struct tc_ini_key *key = &section->ini->keys[i];
        struct tc_reading reading = {.currency = currency};
        struct found found = {.section = section, .key = key, .layer = sections->files[section->file].layer};
        const struct tc_section *item = tc_sections_find(sections, section->detail, key->name);
        if (!item) {
            no_item(build, section, key);
            continue;
        }
        if (item->record == 0) {
            tc_build_missing(build, section, key, section->detail, key->name);
            continue;
        }
        if (!tc_key_read_with(&price_key, key->value, &found.price, &reading)) {
            tc_faults_error(build->faults, tc_section_place(sections, section, key), "%s", reading.problem);
            continue;
        }
        found.price.shop = (int)(shop - build->stock->shops);
        found.price.slot = kind->slot;
        found.price.item = (int)item->record - 1;
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
    const struct tc_sections *sections = build->sections;
    for (size_t i = 1; i < finds->count; i++) {
        struct found *before = &finds->items[i - 1], *now = &finds->items[i];
        if (tc_shop_price_compare(&before->price, &now->price) != 0)
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
    struct tc_shop_price *price = tc_build_push(build, &items, &stock->price_count, sizeof *price);
    stock->prices = items;
    if (!price)
        return;
    *price = found->price;
    if (found->spread.shape == TC_SPREAD_FIXED)
        return;
    const struct tc_key_range range = {
        .offset = offsetof(struct tc_shop_price, amount), .span = 1, .spread = found->spread};
    char key[2 * TC_NAME_SIZE];
    snprintf(key, sizeof key, "%s %s", found->section->detail, found->key->name);
    tc_build_range(build, "prices", found->section->name, key, &range);
}

/* Lists were a region's before they were a shop's. */
static void no_shop(struct tc_build *build, const struct tc_section *section)
{
    if (!tc_stock_region(build->stock, section->name)) {
        tc_build_missing(build, section, NULL, "shop", section->name);
        return;
    }
    tc_faults_error(
        build->faults, tc_section_place(build->sections, section, NULL),
        "'%s' is a region, and prices are a shop's; write '[shop NAME]' with 'region = %s', and here "
        "'[prices NAME %s]'",
        section->name, section->name, section->detail);
}

void tc_build_prices(struct tc_build *build)
{
    const struct tc_sections *sections = build->sections;
    struct finds finds = {NULL, 0};
    for (size_t i = 0; i < sections->count && build->status == TC_OK; i++) {
        const struct tc_section *section = sections->items[i];
        if (strcmp(section->kind, "prices") != 0)
            continue;
        const struct tc_shop *shop = tc_stock_shop(build->stock, section->name);
        const struct tc_region *region = shop ? tc_stock_region(build->stock, shop->region) : NULL;
        if (!shop)
            no_shop(build, section);
        else if (region && !section->bad)
            read_section(build, section, shop, region->currency, &finds);
    }
    if (finds.count > 0)
        qsort(finds.items, finds.count, sizeof *finds.items, compare_found);
    drop_earlier(build, &finds);
    for (size_t i = 0; i < finds.count && build->status == TC_OK; i++)
        if (!finds.items[i].bad)
            keep(build, &finds.items[i]);
    free(finds.items);
}
