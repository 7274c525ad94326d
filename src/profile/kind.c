/* SPDX-License-Identifier: MIT */
#include "profile/kind.h"

#include <stdlib.h>
#include <string.h>

#include "profile/key_table.h"
#include "profile/extra_keys.h"
#include "profile/setup_keys.h"
#include "profile/part_keys.h"
#include "profile/plan_keys.h"
#include "profile/region_keys.h"
#include "profile/sale_keys.h"
#include "profile/shop_keys.h"
#include "profile/tank_keys.h"
#include "profile/tariff_keys.h"

#define SHELF(type, name_, title_, items_, count_)                                                           \
    {                                                                                                        \
        .size = sizeof(type), .name = offsetof(type, name_), .title = offsetof(type, title_),                \
        .items = offsetof(struct tc_stock, items_), .count = offsetof(struct tc_stock, count_)               \
    }
#define PART(kind, slot_, table_)                                                                            \
    {                                                                                                        \
        kind, TC_HEAD_ITEM, slot_, &table_,                                                                  \
            SHELF(struct tc_part, goods.name, goods.title, parts, part_count), "parts"                       \
    }

static const struct tc_kind kinds[] = {
    {"tank", TC_HEAD_ITEM, -1, &tc_tank_keys,
     SHELF(struct tc_tank, goods.name, goods.title, tanks, tank_count), "tanks"},
    PART("stand", TC_SLOT_STAND, tc_stand_keys),
    PART("lid", TC_SLOT_LID, tc_lid_keys),
    PART("light", TC_SLOT_LIGHT, tc_light_keys),
    PART("filter", TC_SLOT_FILTER, tc_filter_keys),
    PART("air-pump", TC_SLOT_AIR_PUMP, tc_air_pump_keys),
    PART("heater", TC_SLOT_HEATER, tc_heater_keys),
    PART("substrate", TC_SLOT_SUBSTRATE, tc_substrate_keys),
    {"setup", TC_HEAD_ITEM, -1, &tc_setup_keys, SHELF(struct tc_setup, name, title, setups, setup_count),
     "setups"},
    {"region", TC_HEAD_ITEM, -1, &tc_region_keys, SHELF(struct tc_region, name, title, regions, region_count),
     "regions"},
    {"shop", TC_HEAD_ITEM, -1, &tc_shop_keys, SHELF(struct tc_shop, name, title, shops, shop_count), "shops"},
    {"tariff", TC_HEAD_ITEM, -1, &tc_tariff_keys,
     SHELF(struct tc_named_tariff, name, title, tariffs, tariff_count), "regions"},
    {"sale", TC_HEAD_ITEM, -1, &tc_sale_keys, SHELF(struct tc_sale, name, title, sales, sale_count), "shops"},
    {"extra", TC_HEAD_ITEM, -1, &tc_extra_keys, SHELF(struct tc_extra, name, title, extras, extra_count),
     "setups"},
    {"prices", TC_HEAD_PRICES, -1, NULL, {.size = 0}, "shops"},
    {"plan", TC_HEAD_PLAN, -1, &tc_plan_keys, SHELF(struct tc_plan, name, title, plans, plan_count), "plans"},
    {"candidate", TC_HEAD_CANDIDATE, -1, &tc_candidate_keys, {.size = 0}, NULL},
    {"assume", TC_HEAD_ASSUME, -1, NULL, {.size = 0}, NULL},
    {"wall", TC_HEAD_ALONE, -1, &tc_wall_keys, {.size = 0}, NULL},
    {"space", TC_HEAD_ALONE, -1, &tc_space_keys, {.size = 0}, NULL},
};

const struct tc_kind *tc_kind_at(size_t i)
{
    return i < TC_COUNT_OF(kinds) ? &kinds[i] : NULL;
}

const struct tc_kind *tc_kind_find(const char *name)
{
    for (size_t i = 0; i < TC_COUNT_OF(kinds); i++)
        if (tc_name_same(kinds[i].name, name))
            return &kinds[i];
    return NULL;
}

bool tc_kind_is_goods(const struct tc_kind *kind)
{
    return kind->slot >= 0 || kind->table == &tc_tank_keys;
}

size_t tc_kind_count(const struct tc_kind *kind, const struct tc_stock *stock)
{
    size_t count = 0;
    if (kind->shelf.size > 0)
        memcpy(&count, (const char *)stock + kind->shelf.count, sizeof count);
    return count;
}

bool tc_kind_has(const struct tc_kind *kind, const struct tc_stock *stock, size_t i)
{
    return kind->slot < 0 || (int)stock->parts[i].slot == kind->slot;
}

const void *tc_kind_record(const struct tc_kind *kind, const struct tc_stock *stock, size_t i)
{
    const char *items;
    memcpy(&items, (const char *)stock + kind->shelf.items, sizeof items);
    return items + i * kind->shelf.size;
}

void tc_kind_free_records(struct tc_stock *stock)
{
    for (size_t k = 0; k < TC_COUNT_OF(kinds); k++) {
        bool before = kinds[k].shelf.size == 0; /* parts of all slots share a shelf */
        for (size_t i = 0; i < k; i++)
            before = before || (kinds[i].shelf.size > 0 && kinds[i].shelf.items == kinds[k].shelf.items);
        if (before)
            continue;
        void *items;
        memcpy(&items, (const char *)stock + kinds[k].shelf.items, sizeof items);
        free(items);
    }
}

const struct tc_key_table *tc_key_table_find(const char *kind)
{
    const struct tc_kind *found = tc_kind_find(kind);
    return found ? found->table : NULL;
}

const struct tc_key_table *tc_key_table_at(size_t i)
{
    for (size_t k = 0; k < TC_COUNT_OF(kinds); k++)
        if (kinds[k].table && i-- == 0)
            return kinds[k].table;
    return NULL;
}

void tc_kind_list(struct tc_text *text, bool goods, const char *joint)
{
    const struct tc_kind *before = NULL;
    for (size_t i = 0; tc_kind_at(i); i++) {
        const struct tc_kind *kind = tc_kind_at(i);
        bool alone = kind->head == TC_HEAD_ITEM || kind->head == TC_HEAD_PLAN || kind->head == TC_HEAD_PRICES;
        if (goods ? !tc_kind_is_goods(kind) : !alone)
            continue;
        if (before)
            tc_text_addf(text, "%s%s", text->length > 0 ? ", " : "", before->name);
        before = kind;
    }
    if (before)
        tc_text_addf(text, " %s %s", joint, before->name);
}

/* Whether a folder stands in an earlier row as well. */
static bool folder_before(size_t row)
{
    for (size_t i = 0; i < row; i++)
        if (kinds[i].folder && strcmp(kinds[i].folder, kinds[row].folder) == 0)
            return true;
    return false;
}

const char *tc_kind_folder_at(size_t i)
{
    for (size_t k = 0; k < TC_COUNT_OF(kinds); k++)
        if (kinds[k].folder && !folder_before(k) && i-- == 0)
            return kinds[k].folder;
    return NULL;
}

void tc_kind_list_folders(struct tc_text *text)
{
    for (size_t i = 0; tc_kind_folder_at(i); i++)
        tc_text_addf(text, "%s%s",
                     i == 0                     ? ""
                     : tc_kind_folder_at(i + 1) ? ", "
                                                : " or ",
                     tc_kind_folder_at(i));
}
