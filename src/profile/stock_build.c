/* SPDX-License-Identifier: MIT */
#include "profile/stock_build.h"

#include "profile/month_key.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "profile/section.h"

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
    const struct tc_sections *sections = build->sections;
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
    const char *of = range->month > 0 ? tc_month_name(range->month) : range->currency.code;
    snprintf(doubtful->key, sizeof doubtful->key, "%s%s%s", key, of[0] != '\0' ? " " : "", of);
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
    const struct tc_sections *sections = build->sections;
    struct tc_place place = tc_section_place(sections, section, key);
    if (build->stock->sections && tc_sections_find(build->stock->sections, kind, name)) {
        tc_faults_error(build->faults, place, "the %s '%s' was left out for its own faults", kind, name);
        return;
    }
    const char *nearest = tc_stock_nearest(build->stock, kind, name);
    if (nearest)
        tc_faults_error(build->faults, place, "there is no %s '%s'; did you mean '%s'?", kind, name, nearest);
    else
        tc_faults_error(build->faults, place, "there is no %s '%s'", kind, name);
}

/* The value of a key that is a name, in lower case; false where it is not there or none. */
static bool name_of(const struct tc_section *section, const char *key_name, char name[TC_NAME_SIZE])
{
    const struct tc_ini_key *key = tc_ini_key(section->ini, key_name);
    if (!key || strlen(key->value) >= TC_NAME_SIZE)
        return false;
    for (size_t i = 0; i <= strlen(key->value); i++)
        name[i] = tc_name_lower(key->value[i]);
    return true;
}

const struct tc_region *tc_build_region(const struct tc_build *build, const struct tc_section *section)
{
    char name[TC_NAME_SIZE];
    if (name_of(section, "region", name))
        return tc_stock_region(build->stock, name);
    const struct tc_shop *shop = name_of(section, "shop", name) ? tc_stock_shop(build->stock, name) : NULL;
    return shop ? tc_stock_region(build->stock, shop->region) : NULL;
}
