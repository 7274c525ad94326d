/* SPDX-License-Identifier: MIT */
#include "profile/template.h"

#include <stdio.h>
#include <string.h>

#include "profile/region_keys.h"
#include "profile/section.h"

/* ------------------------------------------------------------------------- gaps */

static bool typed_over(const struct tc_plan *plan, const char *key)
{
    for (int i = 0; i < plan->override_count; i++)
        if (strcmp(plan->override[i].kind, tc_region_keys.kind) == 0 &&
            strcmp(plan->override[i].key, key) == 0)
            return true;
    return false;
}

/* Whether the section or the plan (or NULL) has a key (or NULL). */
static bool has(const struct tc_section *section, const struct tc_plan *plan, const char *key)
{
    return key && (tc_ini_key(section->ini, key) || (plan && typed_over(plan, key)));
}

/* The section of a template; NULL where the region is none. */
static const struct tc_section *section_of(const struct tc_stock *stock, const struct tc_region *region)
{
    return region->is_template && stock->sections
               ? tc_sections_find(stock->sections, tc_region_keys.kind, region->name)
               : NULL;
}

bool tc_template_lacks(const struct tc_stock *stock, const struct tc_region *region,
                       const struct tc_plan *plan, const struct tc_key *key)
{
    const struct tc_section *section = section_of(stock, region);
    if (plan && strcmp(plan->region, region->name) != 0)
        plan = NULL;
    return section && key->ask == TC_ASK_NEEDED && !has(section, plan, key->name) &&
           !has(section, plan, key->instead);
}

int tc_template_gaps(const struct tc_stock *stock, const struct tc_region *region, const struct tc_plan *plan,
                     enum tc_key_ask ask, struct tc_text *keys)
{
    const struct tc_section *section = section_of(stock, region);
    const char *gap[TC_ENTRY_KEYS_MAX];
    int count = 0;
    if (!section)
        return 0;
    if (plan && strcmp(plan->region, region->name) != 0)
        plan = NULL;
    for (size_t i = 0; i < tc_region_keys.count; i++) {
        const struct tc_key *key = &tc_region_keys.keys[i];
        if (key->ask == ask && !has(section, plan, key->name) && !has(section, plan, key->instead))
            gap[count++] = key->name;
    }
    for (int i = 0; keys && i < count; i++)
        tc_text_addf(keys, "%s%s", i == 0 ? "" : i == count - 1 ? " and " : ", ", gap[i]);
    return count;
}

/* ------------------------------------------------------------------------ notes */

/* What one more name takes of a fault's text, with what joins it to the others. */
#define ROOM_FOR_NAME (TC_NAME_SIZE + 16)

/* How much has no price in the region: "; without a price in HUF: 9 of 9 tanks, 40 of 42 parts". */
static void add_unpriced(const struct tc_stock *stock, const struct tc_region *region, struct tc_text *text)
{
    size_t tanks = 0, parts = 0;
    double amount;
    for (size_t i = 0; i < stock->tank_count; i++)
        tanks += !tc_stock_price(stock, region, -1, &stock->tanks[i].goods, &amount);
    for (size_t i = 0; i < stock->part_count; i++)
        parts += !tc_stock_price(stock, region, (int)stock->parts[i].slot, &stock->parts[i].goods, &amount);
    if (tanks > 0 || parts > 0)
        tc_text_addf(text, "; without a price in %s: ", region->currency.code);
    if (tanks > 0)
        tc_text_addf(text, "%zu of %zu tanks%s", tanks, stock->tank_count, parts > 0 ? ", " : "");
    if (parts > 0)
        tc_text_addf(text, "%zu of %zu parts", parts, stock->part_count);
}

/* What there is to say of a template; false if out of memory. */
static bool say(const struct tc_stock *stock, const struct tc_region *region, struct tc_text *text)
{
    struct tc_text worth = TC_TEXT_EMPTY;
    tc_text_add(text, "a template, still to be filled in: ");
    if (tc_template_gaps(stock, region, NULL, TC_ASK_NEEDED, text) == 0) {
        tc_text_clear(text);
        tc_text_add(text, "a complete template; take out 'template = yes' once its figures are your own");
    }
    if (tc_template_gaps(stock, region, NULL, TC_ASK_WORTH, &worth) > 0)
        tc_text_addf(text, "; worth filling in: %s", tc_text_string(&worth));
    add_unpriced(stock, region, text);
    bool good = !text->failed && !worth.failed;
    tc_text_free(&worth);
    return good;
}

/* Templates of one file that follow each other and lack the same are told of together. */
struct telling {
    struct tc_faults *faults;
    const struct tc_region *first; /* NULL: nobody yet */
    struct tc_place place;         /* of the first */
    struct tc_text text, others;
};

/* Adds the note of those gathered so far; false if out of memory. */
static bool tell(struct telling *telling)
{
    char section[TC_NAME_SIZE + 8];
    bool good = !telling->text.failed && !telling->others.failed;
    if (telling->first && good) {
        snprintf(section, sizeof section, "%s %s", tc_region_keys.kind, telling->first->name);
        telling->place.section = section;
        bool more = telling->others.length > 0;
        tc_faults_note(telling->faults, telling->place, "%s%s%s", tc_text_string(&telling->text),
                       more ? "; the same of " : "", tc_text_string(&telling->others));
    }
    telling->first = NULL;
    tc_text_free(&telling->text);
    tc_text_free(&telling->others);
    return good;
}

/* Takes one more template in, with what there is to say of it, which is handed over. */
static bool take(struct telling *telling, const struct tc_region *region, struct tc_place place,
                 struct tc_text *text)
{
    if (telling->first &&
        telling->text.length + telling->others.length < TC_FAULT_TEXT_SIZE - ROOM_FOR_NAME &&
        strcmp(place.file, telling->place.file) == 0 &&
        strcmp(tc_text_string(text), tc_text_string(&telling->text)) == 0) {
        tc_text_addf(&telling->others, "%s%s", telling->others.length > 0 ? ", " : "", region->name);
        tc_text_free(text);
        return true;
    }
    bool good = tell(telling);
    telling->first = region;
    telling->place = place;
    telling->text = *text;
    return good;
}

enum tc_status tc_template_notes(const struct tc_stock *stock,
                                 bool (*wanted)(const void *context, const char *file), const void *context,
                                 struct tc_faults *faults)
{
    struct telling telling = {.faults = faults};
    bool good = true;
    for (size_t i = 0; i < stock->region_count && good; i++) {
        const struct tc_region *region = &stock->regions[i];
        struct tc_place place = {.file = NULL};
        struct tc_text text = TC_TEXT_EMPTY;
        if (!region->is_template ||
            !tc_stock_where(stock, tc_region_keys.kind, region->name, &place.file, &place.line) ||
            (wanted && !wanted(context, place.file)))
            continue;
        good = say(stock, region, &text);
        good = take(&telling, region, place, &text) && good;
    }
    good = tell(&telling) && good;
    return good ? TC_OK : TC_NO_MEMORY;
}
