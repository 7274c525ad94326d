/* SPDX-License-Identifier: MIT */
#include "profile/key_table.h"

#include <stdarg.h>
#include <stdio.h>

const struct tc_key_word tc_none_is_zero[] = {{"none", 0}, {NULL, 0}};

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

char *tc_key_overruling(const struct tc_key_table *table, const struct tc_key *key, void *record)
{
    const struct tc_key *other = key->instead ? tc_key_find(table, key->instead) : NULL;
    return other && other->form == TC_KEY_NAME ? (char *)record + other->offset : NULL;
}

static const char *name_at(const void *context, size_t i)
{
    const struct tc_key *keys = context;
    return keys[i].name;
}

/* What to write for a key that is none of the table but is known to be meant otherwise, or NULL. */
static const char *former(const struct tc_key_table *table, const char *name)
{
    for (const struct tc_key_former *f = table->former; f && f->name; f++)
        if (tc_name_same(f->name, name))
            return f->now;
    return NULL;
}

const char *tc_key_nearest(const struct tc_key_table *table, const char *name)
{
    return tc_name_nearest(name, name_at, table->keys, table->count);
}

bool tc_key_unknown(const struct tc_key_table *table, const char *name, char problem[TC_PROBLEM_SIZE])
{
    char shown[TC_SHOWN_SIZE];
    const char *now = former(table, name), *nearest = tc_key_nearest(table, name);
    tc_quantity_shown(shown, name);
    if (now)
        tc_problem(problem, "unknown key '%s': %s", shown, now);
    else if (nearest)
        tc_problem(problem, "unknown key '%s'; did you mean '%s'?", shown, nearest);
    else
        tc_problem(problem, "unknown key '%s'", shown);
    return now || nearest;
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
