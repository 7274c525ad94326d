/* SPDX-License-Identifier: MIT */
#include "profile/plan_read.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "profile/setup_keys.h"
#include "profile/plan_keys.h"
#include "profile/region_keys.h"
#include "profile/section.h"
#include "profile/shop_keys.h"

/* One plan being read: its file's sections, and what it was found to need. */
struct plan_reader {
    struct tc_build *build;
    const struct tc_section *section;                      /* [plan NAME] */
    const struct tc_section *candidate[TC_CANDIDATES_MAX]; /* by number less 1 */
    const struct tc_section *setup, *region;               /* assumptions; may be NULL */
    const struct tc_section *wall, *space;                 /* likewise */
    struct tc_currency currency;                           /* of its region */
    struct tc_plan *plan;
    bool good;
};

static const struct tc_sections *sections_of(const struct plan_reader *reader)
{
    return reader->build->sections;
}

static void fault(struct plan_reader *reader, const struct tc_section *section, const struct tc_ini_key *key,
                  const char *text)
{
    tc_faults_error(reader->build->faults, tc_section_place(sections_of(reader), section, key), "%s", text);
    reader->good = false;
}

/* ---------------------------------------------------------------------- sections */

static void take_candidate(struct plan_reader *reader, const struct tc_section *section)
{
    const struct tc_section **place = &reader->candidate[section->number - 1];
    if (*place)
        fault(reader, section, NULL, "the plan has a candidate of this number already");
    else
        *place = section;
}

/* Finds the sections of the plan's file. */
static void collect(struct plan_reader *reader)
{
    const struct tc_sections *sections = sections_of(reader);
    for (size_t i = 0; i < sections->count; i++) {
        const struct tc_section *section = sections->items[i];
        if (section->file != reader->section->file)
            continue;
        if (strcmp(section->kind, "candidate") == 0)
            take_candidate(reader, section);
        else if (strcmp(section->kind, "assume") == 0 && strcmp(section->name, "setup") == 0)
            reader->setup = section;
        else if (strcmp(section->kind, "assume") == 0 && strcmp(section->name, "region") == 0)
            reader->region = section;
        else if (strcmp(section->kind, "assume") == 0)
            ; /* a shop's, found again when it is read */
        else if (strcmp(section->kind, "wall") == 0)
            reader->wall = section;
        else if (strcmp(section->kind, "space") == 0)
            reader->space = section;
        else if (section->kind[0] != '\0')
            continue; /* an item that shares the file */
        if (section->bad)
            reader->good = false;
    }
}

/* Sets one key. An amount with more decimals than the currency has is noted, and used. */
static void read_key(struct plan_reader *reader, const struct tc_section *section,
                     const struct tc_ini_key *key, const char *path)
{
    char problem[TC_PROBLEM_SIZE], ignored[TC_PROBLEM_SIZE];
    if (tc_plan_set_in(reader->plan, path, key->value, reader->currency, problem))
        return;
    if (reader->currency.code[0] != '\0' &&
        tc_plan_set_in(reader->plan, path, key->value, tc_plan_currency(reader->currency), ignored))
        tc_faults_note(reader->build->faults, tc_section_place(sections_of(reader), section, key),
                       "%s; the amount is rounded", problem);
    else
        fault(reader, section, key, problem);
}

/* Sets every key of a section by its path. */
static void read_section(struct plan_reader *reader, const struct tc_section *section, const char *group,
                         const struct tc_key_table *table)
{
    if (section->bad)
        reader->good = false;
    for (size_t i = 0; i < section->ini->key_count; i++) {
        const struct tc_ini_key *key = &section->ini->keys[i];
        char path[3 * TC_NAME_SIZE];
        snprintf(path, sizeof path, "%s/%s", group, key->name);
        if (!tc_key_find(table, key->name)) {
            tc_record_unknown_key(table, tc_section_place(sections_of(reader), section, key), key->name,
                                  reader->build->faults);
            reader->good = false;
        } else {
            read_key(reader, section, key, path);
        }
    }
    for (size_t i = 0; i < table->count && !section->bad; i++) {
        char text[TC_PROBLEM_SIZE];
        const struct tc_key *key = &table->keys[i];
        if (key->fallback || strcmp(section->kind, "assume") == 0 || tc_ini_key(section->ini, key->name))
            continue;
        tc_problem(text, "has no '%s'; write it like '%s = %s'", key->name, key->name, key->example);
        fault(reader, section, NULL, text);
    }
}

static void read_candidates(struct plan_reader *reader)
{
    for (int i = 0; i < TC_CANDIDATES_MAX; i++) {
        const struct tc_section *section = reader->candidate[i];
        if (!section)
            continue;
        if (reader->plan->candidate_count != i) {
            fault(reader, section, NULL, "there is no candidate of the number before; number them from 1");
            return;
        }
        char group[TC_NAME_SIZE];
        tc_plan_add(reader->plan, "");
        snprintf(group, sizeof group, "candidate %d", i + 1);
        read_section(reader, section, group, &tc_candidate_keys);
    }
}

/* What is assumed of shops, each of which has to be one of the plan's region. */
static void read_shops(struct plan_reader *reader)
{
    const struct tc_sections *sections = sections_of(reader);
    for (size_t i = 0; i < sections->count; i++) {
        const struct tc_section *section = sections->items[i];
        char group[2 * TC_NAME_SIZE];
        if (section->file != reader->section->file || strcmp(section->kind, "assume") != 0 ||
            strcmp(section->name, "shop") != 0)
            continue;
        if (!tc_stock_shop(reader->build->stock, section->detail)) {
            tc_build_missing(reader->build, section, NULL, "shop", section->detail);
            reader->good = false;
            continue;
        }
        snprintf(group, sizeof group, "shop %s", section->detail);
        read_section(reader, section, group, &tc_shop_keys);
    }
}

/* Of two keys that exclude each other both cannot be assumed, a price and the tariff in its place. */
static void check_siblings(struct plan_reader *reader)
{
    for (size_t i = 0; i < tc_region_keys.count; i++) {
        const struct tc_key *key = &tc_region_keys.keys[i];
        const struct tc_ini_key *other = key->instead ? tc_ini_key(reader->region->ini, key->instead) : NULL;
        char text[TC_PROBLEM_SIZE];
        if (!other || !tc_ini_key(reader->region->ini, key->name))
            continue;
        tc_problem(text, "says the same as '%s'; write one of them", key->name);
        fault(reader, reader->region, other, text);
    }
}

/* ------------------------------------------------------------------------- names */

static void missing(struct plan_reader *reader, const struct tc_section *section, const char *key,
                    const char *kind, const char *name)
{
    tc_build_missing(reader->build, section, tc_ini_key(section->ini, key), kind, name);
    reader->good = false;
}

static void check_sale(struct plan_reader *reader, const struct tc_section *section, const char *name)
{
    enum tc_way_kind way;
    if (name[0] == '\0' || tc_plan_way(name, &way))
        return;
    const struct tc_sale *sale = tc_stock_sale(reader->build->stock, name);
    if (!sale) {
        missing(reader, section, "sale", "sale", name);
    } else if (!tc_stock_sale_in(reader->build->stock, sale, reader->plan->region)) {
        char text[TC_PROBLEM_SIZE];
        tc_problem(text, "the sale '%s' is held by '%s', which is not in '%s'", name, sale->shop,
                   reader->plan->region);
        fault(reader, section, tc_ini_key(section->ini, "sale"), text);
    }
}

static void check_shop(struct plan_reader *reader, const struct tc_section *section, const char *key,
                       const char *name)
{
    const struct tc_shop *shop = tc_stock_shop(reader->build->stock, name);
    char text[TC_PROBLEM_SIZE];
    if (name[0] == '\0')
        return;
    if (!shop) {
        missing(reader, section, key, "shop", name);
    } else if (strcmp(shop->region, reader->plan->region) != 0) {
        tc_problem(text, "the shop '%s' is in '%s', not in '%s'", name, shop->region, reader->plan->region);
        fault(reader, section, tc_ini_key(section->ini, key), text);
    }
}

static void check_candidate(struct plan_reader *reader, const struct tc_section *section,
                            const struct tc_candidate *candidate)
{
    const struct tc_stock *stock = reader->build->stock;
    bool measured = !isnan(candidate->length) && !isnan(candidate->width) && !isnan(candidate->height);
    if (candidate->tank[0] != '\0' && !measured && !tc_stock_tank(stock, candidate->tank))
        missing(reader, section, "tank", "tank", candidate->tank);
    check_sale(reader, section, candidate->sale);
    check_shop(reader, section, "shop", candidate->shop);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const char *part = candidate->pin[slot].part, *kind = tc_slot_name((enum tc_slot)slot);
        char key[TC_NAME_SIZE];
        snprintf(key, sizeof key, "%s-shop", kind);
        check_shop(reader, section, key, candidate->pin[slot].shop);
        if (part[0] != '\0' && strcmp(part, "none") != 0 && strcmp(part, "unnamed") != 0 &&
            !tc_stock_part(stock, (enum tc_slot)slot, part))
            missing(reader, section, kind, kind, part);
    }
}

static void check_names(struct plan_reader *reader)
{
    const struct tc_plan *plan = reader->plan;
    const struct tc_stock *stock = reader->build->stock;
    if (plan->setup[0] != '\0' && !tc_stock_setup(stock, plan->setup))
        missing(reader, reader->section, "setup", "setup", plan->setup);
    if (plan->region[0] != '\0' && !tc_stock_region(stock, plan->region))
        missing(reader, reader->section, "region", "region", plan->region);
    for (int i = 0; i < plan->region_count; i++)
        if (!tc_stock_region(stock, plan->regions[i]))
            missing(reader, reader->section, "regions", "region", plan->regions[i]);
    for (int i = 0; i < plan->extra_count; i++)
        if (!tc_stock_extra(stock, plan->extras[i]))
            missing(reader, reader->section, "extras", "extra", plan->extras[i]);
    check_shop(reader, reader->section, "shop", tc_plan_shop(plan));
    check_sale(reader, reader->section, plan->sale);
    for (int i = 0; i < plan->candidate_count; i++)
        check_candidate(reader, reader->candidate[i], &plan->candidate[i]);
}

/* Whether what is assumed can be typed over the setup and region it is for. */
static void check_assumptions(struct plan_reader *reader)
{
    const struct tc_setup *setup = tc_stock_setup(reader->build->stock, reader->plan->setup);
    const struct tc_region *region = tc_stock_region(reader->build->stock, reader->plan->region);
    char problem[TC_PROBLEM_SIZE];
    if (setup && reader->setup) {
        struct tc_setup copy = *setup;
        if (!tc_plan_assume_setup(reader->plan, &copy, problem))
            fault(reader, reader->setup, NULL, problem);
    }
    if (region && reader->region) {
        struct tc_region copy = *region;
        struct tc_tariffs tariffs;
        if (!tc_plan_assume_region(reader->plan, &copy, problem) ||
            !tc_stock_tariffs(reader->build->stock, &copy, &tariffs, problem))
            fault(reader, reader->region, NULL, problem);
    }
}

/* -------------------------------------------------------------------------- plan */

bool tc_build_plan(struct tc_build *build, const struct tc_section *section, struct tc_plan *plan)
{
    struct plan_reader reader = {.build = build, .section = section, .plan = plan, .good = true};
    tc_plan_start(plan);
    memcpy(plan->name, section->name, sizeof section->name);
    const struct tc_region *region = tc_build_region(build, section);
    if (region)
        reader.currency = region->currency;
    collect(&reader);
    read_section(&reader, section, "plan", &tc_plan_keys);
    read_candidates(&reader);
    if (reader.setup)
        read_section(&reader, reader.setup, "setup", &tc_setup_keys);
    if (reader.region) {
        read_section(&reader, reader.region, "region", &tc_region_keys);
        check_siblings(&reader);
    }
    read_shops(&reader);
    if (reader.wall)
        read_section(&reader, reader.wall, "wall", &tc_wall_keys);
    if (reader.space)
        read_section(&reader, reader.space, "space", &tc_space_keys);
    check_names(&reader);
    if (reader.good)
        check_assumptions(&reader);
    return reader.good;
}
