/* SPDX-License-Identifier: MIT */
#include "sheet/source.h"

#include <stdio.h>
#include <string.h>

#include "profile/kind.h"
#include "profile/region_assumed.h"
#include "profile/region_keys.h"
#include "profile/section.h"

/* The key of a section, or NULL. */
static const struct tc_ini_key *key_in(const struct tc_section *section, const char *name)
{
    for (size_t i = 0; section && !section->bad && i < section->ini->key_count; i++)
        if (strcmp(section->ini->keys[i].name, name) == 0)
            return &section->ini->keys[i];
    return NULL;
}

static struct tc_source written(struct tc_sheet *sheet, const struct tc_study *study,
                                const struct tc_section *section, const struct tc_ini_key *key)
{
    struct tc_place place = tc_section_place(study->stock->sections, section, key);
    return (struct tc_source){TC_TERM_PROFILE, tc_sheet_format(sheet, "%s:%d: %s = %s", place.file,
                                                               place.line, key->name, key->value)};
}

/* What holds where nobody gave a key. */
static struct tc_source fallback(struct tc_sheet *sheet, const char *kind, const char *name)
{
    const struct tc_key_table *table = tc_key_table_find(kind);
    const struct tc_key *key = table ? tc_key_find(table, name) : NULL;
    if (key && key->fallback && key->fallback[0])
        return (struct tc_source){TC_TERM_DEFAULT,
                                  tc_sheet_format(sheet, "default of %s/%s: %s", kind, name, key->fallback)};
    return (struct tc_source){TC_TERM_ASSUMED, tc_sheet_format(sheet, "not given: %s/%s", kind, name)};
}

struct tc_source tc_source_item(struct tc_sheet *sheet, const struct tc_study *study, const char *kind,
                                const char *item, const char *key)
{
    const struct tc_section *section = tc_sections_find(study->stock->sections, kind, item);
    const struct tc_ini_key *found = key_in(section, key);
    return found ? written(sheet, study, section, found) : fallback(sheet, kind, key);
}

/* -------------------------------------------------------------------------- the plan */

/* Kinds of which a plan keeps what is typed in sections of its own. */
static bool is_assumed(const char *kind)
{
    return strcmp(kind, "setup") == 0 || strcmp(kind, "region") == 0 || strcmp(kind, "shop") == 0;
}

/* The section of the plan's own file that a path leads into; NULL where there is none. */
static const struct tc_section *plan_section(const struct tc_study *study, const char *path)
{
    const struct tc_sections *sections = study->stock->sections;
    const struct tc_section *plan = tc_sections_find(sections, "plan", study->plan.name);
    char kind[TC_NAME_SIZE], detail[TC_NAME_SIZE] = "";
    int number = 0;
    size_t length = strcspn(path, " /");
    snprintf(kind, sizeof kind, "%.*s", (int)length, path);
    if (path[length] == ' ')
        snprintf(detail, sizeof detail, "%.*s", (int)strcspn(path + length + 1, "/"), path + length + 1);
    if (!plan || strcmp(kind, "plan") == 0)
        return plan;
    bool assumed = is_assumed(kind);
    const char *end;
    if (strcmp(kind, "candidate") == 0 && tc_number_read_count(detail, &end, &number) != TC_OK)
        return NULL;
    for (size_t i = 0; i < sections->count; i++) {
        const struct tc_section *section = sections->items[i];
        if (section->file != plan->file || section->bad)
            continue;
        if (assumed ? strcmp(section->kind, "assume") == 0 && strcmp(section->name, kind) == 0 &&
                          (number = 0, strcmp(section->detail, detail) == 0)
                    : strcmp(section->kind, kind) == 0 && section->number == number)
            return section;
    }
    return NULL;
}

/* Whether the plan says at a path what another one says. */
static bool says_the_same(const struct tc_plan *plan, const struct tc_plan *other, const char *path)
{
    char mine[TC_VALUE_SIZE], yours[TC_VALUE_SIZE];
    return tc_plan_get(plan, path, mine) && tc_plan_get(other, path, yours) && strcmp(mine, yours) == 0;
}

/* Whether a path of the plan leads to the same thing in the plan as its file has it. */
static bool as_in_file(const struct tc_study *study, const char *path)
{
    const struct tc_plan *stored = tc_stock_plan(study->stock, study->plan.name);
    char tank[2 * TC_NAME_SIZE];
    if (!stored || !says_the_same(&study->plan, stored, path))
        return false;
    if (strncmp(path, "candidate ", 10) != 0)
        return true;
    snprintf(tank, sizeof tank, "%.*s/tank", (int)strcspn(path, "/"), path);
    return says_the_same(&study->plan, stored, tank);
}

struct tc_source tc_source_path(struct tc_sheet *sheet, const struct tc_study *study, const char *path)
{
    char text[TC_VALUE_SIZE], kind[TC_NAME_SIZE];
    const char *slash = strchr(path, '/'), *name = slash ? slash + 1 : path;
    struct tc_plan start;
    snprintf(kind, sizeof kind, "%.*s", (int)strcspn(path, " /"), path);
    if (as_in_file(study, path)) {
        const struct tc_section *section = plan_section(study, path);
        const struct tc_ini_key *key = key_in(section, name);
        return key ? written(sheet, study, section, key) : fallback(sheet, kind, name);
    }
    tc_plan_start(&start);
    if (strcmp(kind, "candidate") == 0)
        for (int i = 0; i < study->plan.candidate_count; i++)
            tc_plan_add(&start, study->plan.candidate[i].tank);
    if (!tc_plan_get(&study->plan, path, text) || text[0] == '\0' ||
        says_the_same(&study->plan, &start, path))
        return fallback(sheet, kind, name);
    return (struct tc_source){TC_TERM_TYPED, tc_sheet_format(sheet, "typed: %s = %s", path, text)};
}

/* ------------------------------------------------------- what the plan may type over */

static struct tc_source typed_or(struct tc_sheet *sheet, const struct tc_study *study, const char *path,
                                 const char *kind, const char *item, const char *key)
{
    char text[TC_VALUE_SIZE];
    if (tc_plan_get(&study->plan, path, text) && text[0] != '\0')
        return tc_source_path(sheet, study, path);
    return tc_source_item(sheet, study, kind, item, key);
}

struct tc_source tc_source_setup(struct tc_sheet *sheet, const struct tc_study *study,
                                 const struct tc_setup *setup, const char *key)
{
    char path[2 * TC_NAME_SIZE];
    snprintf(path, sizeof path, "setup/%s", key);
    if (strcmp(setup->name, study->setup.name) != 0)
        return tc_source_item(sheet, study, "setup", setup->name, key);
    return typed_or(sheet, study, path, "setup", setup->name, key);
}

struct tc_source tc_source_region(struct tc_sheet *sheet, const struct tc_study *study, const char *key)
{
    char path[2 * TC_NAME_SIZE];
    snprintf(path, sizeof path, "region/%s", key);
    struct tc_source source = typed_or(sheet, study, path, "region", study->region.name, key);
    const struct tc_key *form = tc_key_find(&tc_region_keys, key);
    if (source.from == TC_TERM_PROFILE && form && tc_region_assumes(study->stock, &study->region, form))
        return (struct tc_source){TC_TERM_ASSUMED, tc_sheet_format(sheet, "%s, the usual", source.place)};
    return source;
}

struct tc_source tc_source_shop(struct tc_sheet *sheet, const struct tc_study *study,
                                const struct tc_shop *shop, const char *key)
{
    char path[3 * TC_NAME_SIZE];
    if (!shop)
        return tc_source_assumed("no shop");
    snprintf(path, sizeof path, "shop %s/%s", shop->name, key);
    return typed_or(sheet, study, path, "shop", shop->name, key);
}

struct tc_source tc_source_price(struct tc_sheet *sheet, const struct tc_study *study,
                                 const struct tc_shop *shop, int slot, const struct tc_goods *goods)
{
    const struct tc_sections *sections = study->stock->sections;
    const char *kind = slot < 0 ? "tank" : tc_slot_name((enum tc_slot)slot);
    if (!shop || !tc_stock_listed(study->stock, shop, slot, goods))
        return tc_source_item(sheet, study, kind, goods->name, "price");
    for (size_t i = sections->count; i-- > 0;) { /* of several the last counts */
        const struct tc_section *section = sections->items[i];
        const struct tc_ini_key *key = strcmp(section->kind, "prices") == 0 &&
                                               strcmp(section->name, shop->name) == 0 &&
                                               strcmp(section->detail, kind) == 0
                                           ? key_in(section, goods->name)
                                           : NULL;
        if (key)
            return written(sheet, study, section, key);
    }
    return tc_source_item(sheet, study, kind, goods->name, "price");
}

struct tc_source tc_source_model(struct tc_sheet *sheet, const char *section)
{
    return (struct tc_source){TC_TERM_MODEL, tc_sheet_format(sheet, "tankcost-model(7), %s", section)};
}

struct tc_source tc_source_assumed(const char *why)
{
    return (struct tc_source){TC_TERM_ASSUMED, why};
}
