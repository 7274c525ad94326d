/* SPDX-License-Identifier: MIT */
#include "profile/value_set.h"

#include <stdlib.h>
#include <string.h>

#include "core/base/grow.h"

/* The place of a value; that after the last where it is new; UINT32_MAX where memory ran out. */
static uint32_t place_of(struct tc_value_set *set, const char *value)
{
    uint32_t hash = tc_index_hash(TC_INDEX_HASH, value);
    const struct tc_index_entry *entry = NULL;
    while ((entry = tc_index_next(&set->index, hash, entry)))
        if (strcmp(set->values[entry->place].key->value, value) == 0)
            return entry->place;
    return tc_index_add(&set->index, hash, set->count) ? (uint32_t)set->count : UINT32_MAX;
}

bool tc_value_set_add(struct tc_value_set *set, struct tc_ini *ini, struct tc_ini_key *key)
{
    uint32_t *of = tc_grow(set->of, set->key_count, &set->key_capacity, sizeof *of);
    struct tc_value *values = tc_grow(set->values, set->count, &set->capacity, sizeof *values);
    if (of)
        set->of = of;
    if (values)
        set->values = values;
    uint32_t place = of && values ? place_of(set, key->value) : UINT32_MAX;
    if (place == UINT32_MAX)
        return false;
    if (place == set->count)
        set->values[set->count++] = (struct tc_value){ini, key};
    set->of[set->key_count++] = place;
    return true;
}

const struct tc_ini_key *tc_value_set_first(const struct tc_value_set *set, size_t n)
{
    return n < set->key_count ? set->values[set->of[n]].key : NULL;
}

void tc_value_set_free(struct tc_value_set *set)
{
    free(set->values);
    free(set->of);
    tc_index_free(&set->index);
    *set = (struct tc_value_set){.values = NULL};
}
