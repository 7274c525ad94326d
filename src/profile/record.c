/* SPDX-License-Identifier: MIT */
#include "profile/record.h"

#include <string.h>

/* "a title, b or c" of all keys of a table. */
static void list_keys(const struct tc_key_table *table, struct tc_text *text)
{
    for (size_t i = 0; i < table->count; i++) {
        const char *joint = i == 0 ? "" : i == table->count - 1 ? " and " : ", ";
        tc_text_addf(text, "%s%s", joint, table->keys[i].name);
    }
}

void tc_record_unknown_key(const struct tc_key_table *table, struct tc_place place, const char *name,
                           struct tc_faults *faults)
{
    char problem[TC_PROBLEM_SIZE];
    place.key = NULL;
    if (tc_key_unknown(table, name, problem)) {
        tc_faults_error(faults, place, "%s", problem);
        return;
    }
    struct tc_text all = TC_TEXT_EMPTY;
    list_keys(table, &all);
    tc_faults_error(faults, place, "%s; %s %s has %s", problem, strchr("aeiou", table->kind[0]) ? "an" : "a",
                    table->kind, tc_text_string(&all));
    tc_text_free(&all);
}

/* Whether the record cannot do without the key: only a template may have it filled in later. */
static bool required(const struct tc_entry *entry, const struct tc_key *key)
{
    if (key->fallback)
        return false;
    const struct tc_key_table *table = entry->table;
    return key->ask != TC_ASK_NEEDED || !table->is_template || !table->is_template(entry->record);
}

/* Reads one key of the table, if it is there; false where that fails. */
static bool read_key(struct tc_entry *entry, size_t i, const struct tc_ini_key *given,
                     struct tc_reading *reading)
{
    const struct tc_key *key = &entry->table->keys[i];
    if (!tc_key_read_with(key, given->value, entry->record, reading))
        return false;
    if (key->form == TC_KEY_CURRENCY)
        memcpy(&reading->currency, (const char *)entry->record + key->offset, sizeof reading->currency);
    for (int r = 0; r < reading->range_count && entry->range_count < TC_ENTRY_RANGES_MAX; r++) {
        entry->range[entry->range_count].key = i;
        entry->range[entry->range_count++].range = reading->range[r];
    }
    return true;
}

/* Whether what is not said of a key is a range: it then counts like one that is. */
static bool defaults_to_range(const struct tc_key *key)
{
    return key->form == TC_KEY_QUANTITY && key->fallback && strstr(key->fallback, " to ");
}

static bool check(struct tc_entry *entry, const struct tc_sections *sections,
                  const struct tc_section *section, struct tc_faults *faults)
{
    if (!entry->table->check || entry->table->check(entry))
        return true;
    const struct tc_key *key = entry->blame ? tc_key_find(entry->table, entry->blame) : NULL;
    const struct tc_ini_key *given = key ? tc_ini_key(section->ini, key->name) : NULL;
    struct tc_place place = tc_section_place(sections, section, given);
    if (key && !given && key->fallback)
        tc_faults_error(faults, place, "'%s', by default %s, %s", key->name, key->fallback, entry->problem);
    else
        tc_faults_error(faults, place, "%s", entry->problem);
    return false;
}

/*
 * Finds the section's keys in the table: given[i], NULL before, becomes that of
 * the table's i-th key if it is there. Unknown ones are reported; false if there is any.
 */
static bool find_keys(const struct tc_key_table *table, const struct tc_sections *sections,
                      const struct tc_section *section, const struct tc_ini_key *given[TC_ENTRY_KEYS_MAX],
                      struct tc_faults *faults)
{
    bool good = true;
    for (size_t i = 0; i < section->ini->key_count; i++) {
        const struct tc_ini_key *key = &section->ini->keys[i];
        const struct tc_key *known = tc_key_find(table, key->name);
        if (known) {
            given[known - table->keys] = key;
            continue;
        }
        tc_record_unknown_key(table, tc_section_place(sections, section, key), key->name, faults);
        good = false;
    }
    return good;
}

bool tc_record_read(const struct tc_key_table *table, const struct tc_sections *sections,
                    const struct tc_section *section, struct tc_currency currency, void *record,
                    struct tc_entry *entry, struct tc_faults *faults)
{
    struct tc_reading reading;
    const struct tc_ini_key *keys[TC_ENTRY_KEYS_MAX] = {NULL};

    reading.currency = currency;
    entry->table = table;
    entry->record = record;
    entry->typed = false;
    entry->range_count = 0;
    entry->blame = NULL;
    entry->problem[0] = '\0';
    bool good = find_keys(table, sections, section, keys, faults) && !section->bad;
    /* In the order of the table, in which what others need comes first. */
    for (size_t i = 0; i < table->count; i++) {
        const struct tc_key *key = &table->keys[i];
        const struct tc_ini_key *given = keys[i];
        entry->given[i] = given != NULL;
        if (!given && defaults_to_range(key))
            read_key(entry, i, &(struct tc_ini_key){.value = key->fallback}, &reading);
        if (given && !read_key(entry, i, given, &reading)) {
            tc_faults_error(faults, tc_section_place(sections, section, given), "%s", reading.problem);
            good = false;
        } else if (!given && !section->bad && required(entry, key)) {
            tc_faults_error(faults, tc_section_place(sections, section, NULL),
                            "has no '%s'; write it like '%s = %s'", key->name, key->name, key->example);
            good = false;
        }
    }
    return good && check(entry, sections, section, faults);
}
