/* SPDX-License-Identifier: MIT */
#include "profile/stock_finish.h"

#include <stdlib.h>
#include <string.h>

#include "core/base/parallel.h"
#include "profile/kind.h"
#include "profile/plan_read.h"
#include "profile/region_keys.h"
#include "profile/sale_keys.h"
#include "profile/section.h"
#include "profile/shop_keys.h"
#include "profile/stock_build.h"
#include "profile/stock_prices.h"

/* --------------------------------------------------------------------- plain items */

/* What a region names has to be there before it is of use. */
static bool check_region(struct tc_build *build, const struct tc_section *section,
                         const struct tc_region *region)
{
    static const char *const keys[] = {"electricity-tariff", "water-tariff"};
    const char *names[] = {region->electricity.tariff, region->water.tariff};
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
        tc_faults_error(build->faults, tc_section_place(build->sections, section, NULL), "%s", problem);
        good = false;
    }
    return good;
}

static bool check_shop(struct tc_build *build, const struct tc_section *section, const struct tc_shop *shop)
{
    if (shop->region[0] == '\0' || tc_stock_region(build->stock, shop->region))
        return true;
    tc_build_missing(build, section, tc_ini_key(section->ini, "region"), "region", shop->region);
    return false;
}

static bool check_sale(struct tc_build *build, const struct tc_section *section, const struct tc_sale *sale)
{
    bool good = true;
    if (sale->shop[0] != '\0' && !tc_stock_shop(build->stock, sale->shop)) {
        tc_build_missing(build, section, tc_ini_key(section->ini, "shop"), "shop", sale->shop);
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

/* Very many records are made by several threads, each of at least so many. */
enum { RECORDS_OF_A_THREAD = 1000 };

/* A shelf being filled, or the share of it that one thread fills. */
struct filling {
    const struct tc_kind *kind;
    const void *usual; /* a record with every default */
    void *record;      /* the one being made */
    struct tc_entry entry;
};

/* What one thread makes: records one behind the other, with their numbers among them; and what it finds. */
struct share {
    struct tc_section **sections;
    size_t count, made;
    char *place;           /* of the first record */
    struct tc_stock stock; /* that of all, but with doubtful figures of its own */
    struct tc_build build;
    struct tc_faults faults;
    const struct tc_kind *kind;
    const void *usual;
};

/* Makes the record of one section; false where it has a fault. */
static bool make_record(struct tc_build *build, struct filling *filling, const struct tc_section *section)
{
    const struct tc_kind *kind = filling->kind;
    void *record = filling->record;
    struct tc_currency currency = {"", 0};
    bool sale = kind->table == &tc_sale_keys, shop = kind->table == &tc_shop_keys;
    const struct tc_region *region = sale || shop ? tc_build_region(build, section) : NULL;
    if (region)
        currency = region->currency;
    memcpy(record, filling->usual, kind->table->record_size);
    bool good = tc_record_read(kind->table, build->sections, section, currency, record, &filling->entry,
                               build->faults);
    char *name = (char *)record + kind->shelf.name, *title = (char *)record + kind->shelf.title;
    memcpy(name, section->name, TC_NAME_SIZE);
    if (title[0] == '\0')
        memcpy(title, section->name, TC_NAME_SIZE);
    if (shop)
        return check_shop(build, section, record) && good;
    if (sale)
        return check_sale(build, section, record) && good; /* all its faults, also of a bad one */
    if (good && kind->table == &tc_region_keys)
        return check_region(build, section, record);
    return good;
}

static void fill_share(void *context, int index, struct tc_parallel *parallel)
{
    struct share *share = (struct share *)context + index;
    struct tc_build *build = &share->build;
    const struct tc_kind *kind = share->kind;
    struct filling *filling = malloc(sizeof *filling);
    void *record = malloc(kind->table->record_size);
    (void)parallel;
    if (filling && record) {
        filling->kind = kind;
        filling->usual = share->usual;
        filling->record = record;
    } else {
        build->status = TC_NO_MEMORY;
    }
    for (size_t i = 0; i < share->count && build->status == TC_OK; i++) {
        struct tc_section *section = share->sections[i];
        if (!make_record(build, filling, section))
            continue;
        memcpy(share->place + share->made * kind->shelf.size, record, kind->shelf.size);
        section->record = ++share->made;
        tc_build_doubtful(build, kind->name, section->name, &filling->entry);
    }
    free(record);
    free(filling);
}

/* Moves the records of a share behind those that were made before it, and all that it found. */
static void take_share(struct tc_build *build, struct share *share, size_t *count)
{
    struct tc_stock *stock = build->stock;
    size_t size = share->kind->shelf.size;
    char *items;
    memcpy(&items, (char *)stock + share->kind->shelf.items, sizeof items);
    if (share->made > 0)
        memmove(items + *count * size, share->place, share->made * size);
    for (size_t i = 0; i < share->count; i++)
        if (share->sections[i]->record > 0)
            share->sections[i]->record += *count;
    *count += share->made;
    void *doubtful = stock->doubtful;
    for (size_t i = 0; i < share->stock.doubtful_count; i++) {
        struct tc_record_range *range =
            tc_build_push(build, &doubtful, &stock->doubtful_count, sizeof *range);
        if (range)
            *range = share->stock.doubtful[i];
    }
    stock->doubtful = doubtful;
    free(share->stock.doubtful);
    tc_faults_move(build->faults, &share->faults);
    if (build->status == TC_OK)
        build->status = share->build.status;
}

/* Makes the records of these sections in the places reserved for them. */
static void fill_places(struct tc_build *build, const struct tc_kind *kind, struct tc_section **sections,
                        size_t wanted, char *place, const void *usual)
{
    struct share shares[TC_THREADS_MOST];
    size_t *count = (size_t *)(void *)((char *)build->stock + kind->shelf.count);
    size_t most = (size_t)tc_parallel_processors(), threads = wanted / RECORDS_OF_A_THREAD + 1;
    threads = threads < most ? threads : most;
    for (size_t i = 0; i < threads; i++) {
        size_t from = wanted * i / threads, to = wanted * (i + 1) / threads;
        struct share *share = &shares[i];
        *share = (struct share){.sections = sections + from,
                                .count = to - from,
                                .place = place + from * kind->shelf.size,
                                .stock = *build->stock,
                                .faults = TC_FAULTS_EMPTY,
                                .kind = kind,
                                .usual = usual};
        share->stock.doubtful = NULL;
        share->stock.doubtful_count = 0;
        share->build = (struct tc_build){
            .stock = &share->stock, .sections = build->sections, .faults = &share->faults, .status = TC_OK};
    }
    tc_parallel_run((int)threads, (int)threads, fill_share, shares, NULL, NULL);
    for (size_t i = 0; i < threads; i++)
        take_share(build, &shares[i], count);
}

/* Makes all records of one kind. */
static void fill_shelf(struct tc_build *build, const struct tc_kind *kind)
{
    const struct tc_sections *all = build->sections;
    size_t wanted = tc_build_count(build, kind->name), found = 0;
    if (wanted == 0)
        return;
    size_t count = tc_kind_count(kind, build->stock);
    void *usual = malloc(kind->table->record_size), *items;
    struct tc_section **sections = malloc(wanted * sizeof(struct tc_section *));
    memcpy(&items, (char *)build->stock + kind->shelf.items, sizeof items);
    char *place = usual && sections ? tc_build_reserve(build, &items, count, wanted, kind->shelf.size) : NULL;
    memcpy((char *)build->stock + kind->shelf.items, &items, sizeof items);
    for (size_t i = 0; sections && i < all->count; i++)
        if (!all->items[i]->replaced && tc_name_same(all->items[i]->kind, kind->name))
            sections[found++] = all->items[i];
    if (place) {
        tc_key_defaults(kind->table, usual);
        fill_places(build, kind, sections, wanted, place, usual);
    } else {
        build->status = TC_NO_MEMORY;
    }
    free(usual);
    free(sections);
}

/* ------------------------------------------------------------------------- stock */

static void fill_kind(struct tc_build *build, const char *kind)
{
    if (build->status == TC_OK)
        fill_shelf(build, tc_kind_find(kind));
}

static void fill_plans(struct tc_build *build)
{
    const struct tc_sections *sections = build->sections;
    struct tc_stock *stock = build->stock;
    size_t wanted = tc_build_count(build, "plan");
    void *plans = stock->plans;
    if (wanted == 0 || !tc_build_reserve(build, &plans, 0, wanted, sizeof *stock->plans))
        return;
    stock->plans = plans;
    for (size_t i = 0; i < sections->count; i++) {
        struct tc_section *section = sections->items[i];
        if (tc_name_same(section->kind, "plan") && !section->replaced &&
            tc_build_plan(build, section, &stock->plans[stock->plan_count]))
            section->record = ++stock->plan_count;
    }
}

/* Takes away what was made before, but for the sections. */
static void empty(struct tc_stock *stock)
{
    struct tc_sections *sections = stock->sections;
    stock->sections = NULL;
    tc_stock_free(stock);
    stock->sections = sections;
    for (size_t i = 0; sections && i < sections->count; i++)
        sections->items[i]->record = 0;
}

/* Fills each kind after those it refers to: these first, the others in the order of their table. */
static void fill_kinds(struct tc_build *build)
{
    static const char *const first[] = {"tariff", "region", "shop"};
    for (size_t i = 0; i < sizeof first / sizeof first[0]; i++)
        fill_kind(build, first[i]);
    for (size_t k = 0; tc_kind_at(k); k++) {
        bool filled = tc_kind_at(k)->head != TC_HEAD_ITEM;
        for (size_t i = 0; i < sizeof first / sizeof first[0]; i++)
            filled = filled || strcmp(first[i], tc_kind_at(k)->name) == 0;
        if (!filled)
            fill_kind(build, tc_kind_at(k)->name);
    }
}

enum tc_status tc_stock_finish(struct tc_stock *stock, struct tc_faults *faults)
{
    struct tc_build build = {.stock = stock, .sections = stock->sections, .faults = faults, .status = TC_OK};
    empty(stock);
    if (!stock->sections)
        return TC_OK;
    build.status = tc_sections_values(stock->sections, faults);
    if (build.status != TC_OK)
        return build.status;
    fill_kinds(&build);
    tc_build_prices(&build);
    fill_plans(&build);
    tc_faults_sort(faults);
    return build.status;
}
