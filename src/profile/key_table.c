/* SPDX-License-Identifier: MIT */
#include "profile/key_table.h"

#include <stdarg.h>
#include <stdio.h>

#include "profile/setup_keys.h"
#include "profile/part_keys.h"
#include "profile/plan_keys.h"
#include "profile/region_keys.h"
#include "profile/sale_keys.h"
#include "profile/tank_keys.h"
#include "profile/tariff_keys.h"

static const struct tc_key_table *const tables[] = {
    &tc_tank_keys,   &tc_stand_keys,     &tc_lid_keys,   &tc_light_keys,  &tc_filter_keys, &tc_air_pump_keys,
    &tc_heater_keys, &tc_substrate_keys, &tc_setup_keys, &tc_region_keys, &tc_tariff_keys, &tc_sale_keys,
    &tc_plan_keys,   &tc_candidate_keys, &tc_wall_keys,  &tc_space_keys,
};

const struct tc_key_word tc_none_is_zero[] = {{"none", 0}, {NULL, 0}};

const struct tc_key_table *tc_key_table_at(size_t i)
{
    return i < TC_COUNT_OF(tables) ? tables[i] : NULL;
}

const struct tc_key_table *tc_key_table_find(const char *kind)
{
    for (size_t i = 0; i < TC_COUNT_OF(tables); i++)
        if (strcmp(tables[i]->kind, kind) == 0)
            return tables[i];
    return NULL;
}

const struct tc_key *tc_key_find(const struct tc_key_table *table, const char *name)
{
    for (size_t i = 0; i < table->count; i++)
        if (tc_name_same(table->keys[i].name, name))
            return &table->keys[i];
    return NULL;
}

const struct tc_key *tc_key_sibling(const struct tc_key_table *table, const struct tc_key *key)
{
    if (key->instead)
        return tc_key_find(table, key->instead);
    for (size_t i = 0; i < table->count; i++)
        if (table->keys[i].instead && strcmp(table->keys[i].instead, key->name) == 0)
            return &table->keys[i];
    return NULL;
}

static const char *name_at(const void *context, size_t i)
{
    const struct tc_key *keys = context;
    return keys[i].name;
}

const char *tc_key_nearest(const struct tc_key_table *table, const char *name)
{
    return tc_name_nearest(name, name_at, table->keys, table->count);
}

bool tc_entry_given(const struct tc_entry *entry, const char *name)
{
    const struct tc_key *key = tc_key_find(entry->table, name);
    return !entry->typed && key && entry->given[key - entry->table->keys];
}

bool tc_entry_blame(struct tc_entry *entry, const char *key, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(entry->problem, sizeof entry->problem, format, arguments);
    va_end(arguments);
    entry->blame = key;
    return false;
}

/* Reads what a key is by default, if it is anything. */
static void read_fallback(const struct tc_key *key, void *record)
{
    struct tc_reading reading;
    if (!key->fallback || key->fallback[0] == '\0')
        return;
    reading.currency = (struct tc_currency){"", 0};
    tc_key_read_with(key, key->fallback, record, &reading); /* that all of them can be read is tested */
}

void tc_key_defaults(const struct tc_key_table *table, void *record)
{
    memset(record, 0, table->record_size);
    if (table->start)
        table->start(record);
    for (size_t i = 0; i < table->count; i++)
        read_fallback(&table->keys[i], record);
}
