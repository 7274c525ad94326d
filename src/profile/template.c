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

int tc_template_gaps(const struct tc_stock *stock, const struct tc_region *region, const struct tc_plan *plan,
                     enum tc_key_ask ask, struct tc_text *keys)
{
    const struct tc_section *section =
        region->is_template && stock->sections
            ? tc_sections_find(stock->sections, tc_region_keys.kind, region->name)
            : NULL;
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

static enum tc_status add_note(const struct tc_stock *stock, const struct tc_region *region,
                               struct tc_place place, struct tc_faults *faults)
{
    struct tc_text text = TC_TEXT_EMPTY, worth = TC_TEXT_EMPTY;
    tc_text_add(&text, "a template, still to be filled in: ");
    if (tc_template_gaps(stock, region, NULL, TC_ASK_NEEDED, &text) == 0) {
        tc_text_clear(&text);
        tc_text_add(&text, "a complete template; take out 'template = yes' once its figures are your own");
    }
    if (tc_template_gaps(stock, region, NULL, TC_ASK_WORTH, &worth) > 0)
        tc_text_addf(&text, "; worth filling in: %s", tc_text_string(&worth));
    add_unpriced(stock, region, &text);
    bool failed = text.failed || worth.failed;
    if (!failed)
        tc_faults_note(faults, place, "%s", tc_text_string(&text));
    tc_text_free(&text);
    tc_text_free(&worth);
    return failed ? TC_NO_MEMORY : TC_OK;
}

enum tc_status tc_template_notes(const struct tc_stock *stock,
                                 bool (*wanted)(void *context, const char *file), void *context,
                                 struct tc_faults *faults)
{
    enum tc_status status = TC_OK;
    for (size_t i = 0; i < stock->region_count && status == TC_OK; i++) {
        const struct tc_region *region = &stock->regions[i];
        struct tc_place place = {.file = NULL};
        char section[TC_NAME_SIZE + 8];
        if (!region->is_template ||
            !tc_stock_where(stock, tc_region_keys.kind, region->name, &place.file, &place.line) ||
            (wanted && !wanted(context, place.file)))
            continue;
        snprintf(section, sizeof section, "%s %s", tc_region_keys.kind, region->name);
        place.section = section;
        status = add_note(stock, region, place, faults);
    }
    return status;
}
