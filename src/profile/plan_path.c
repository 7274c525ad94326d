/* SPDX-License-Identifier: MIT */
#include "profile/plan_path.h"

#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "core/base/number.h"
#include "core/base/name.h"
#include "profile/key_table.h"
#include "profile/setup_keys.h"
#include "profile/plan_keys.h"
#include "profile/region_keys.h"
#include "profile/shop_keys.h"

/* So that a candidate's places come after the plan's and before the wall's. */
enum {
    POSITIONS = TC_ENTRY_KEYS_MAX,
    WALL_GROUP = TC_CANDIDATES_MAX + 1,
    SPACE_GROUP,
    SETUP_GROUP,
    REGION_GROUP,
    SHOP_GROUP
};

int tc_plan_path_candidate(const char *path, const char **rest)
{
    static const char start[] = "candidate ";
    int number;
    if (strncmp(path, start, sizeof start - 1) != 0 ||
        tc_number_read_count(path + sizeof start - 1, rest, &number) != TC_OK || **rest != '/')
        return 0;
    ++*rest;
    return number;
}

/* Reads "shop NAME/..." ; false for other paths. */
static bool shop_of(const char *path, const char **rest, char shop[TC_NAME_SIZE])
{
    static const char start[] = "shop ";
    const char *name = path + sizeof start - 1;
    if (strncmp(path, start, sizeof start - 1) != 0)
        return false;
    size_t length = strcspn(name, "/");
    if (name[length] != '/' || length >= TC_NAME_SIZE)
        return false;
    memset(shop, 0, TC_NAME_SIZE);
    memcpy(shop, name, length);
    *rest = name + length + 1;
    return tc_name_valid(shop);
}

static int find_group(const struct tc_plan *plan, const char *path, const char **key,
                      struct tc_plan_place *place)
{
    int number = tc_plan_path_candidate(path, key);
    place->assumed = false;
    memset(place->shop, 0, sizeof place->shop);
    if (shop_of(path, key, place->shop)) {
        place->table = &tc_shop_keys;
        place->offset = 0;
        place->assumed = true;
        return SHOP_GROUP;
    }
    if (number > 0 && number <= plan->candidate_count) {
        place->table = &tc_candidate_keys;
        place->offset =
            offsetof(struct tc_plan, candidate) + (size_t)(number - 1) * sizeof plan->candidate[0];
        return number;
    }
    static const struct {
        const char *start;
        const struct tc_key_table *table;
        size_t offset;
        bool assumed;
        int group;
    } groups[] = {
        {"plan/", &tc_plan_keys, 0, false, 0},
        {"wall/", &tc_wall_keys, offsetof(struct tc_plan, wall), false, WALL_GROUP},
        {"space/", &tc_space_keys, offsetof(struct tc_plan, space), false, SPACE_GROUP},
        {"setup/", &tc_setup_keys, 0, true, SETUP_GROUP},
        {"region/", &tc_region_keys, 0, true, REGION_GROUP},
    };
    for (size_t i = 0; i < TC_COUNT_OF(groups); i++) {
        size_t length = strlen(groups[i].start);
        if (strncmp(path, groups[i].start, length) != 0)
            continue;
        place->table = groups[i].table;
        place->offset = groups[i].offset;
        place->assumed = groups[i].assumed;
        *key = path + length;
        return groups[i].group;
    }
    return -1;
}

/* Assumptions that are no figures of the setup, region or shop but what it is. */
static bool can_be_assumed(const char *key)
{
    static const char *const what_it_is[] = {"title",    "template",      "invented", "currency",
                                             "exchange", "exchange-date", "region",   "seller"};
    for (size_t i = 0; i < sizeof what_it_is / sizeof what_it_is[0]; i++)
        if (strcmp(key, what_it_is[i]) == 0)
            return false;
    return true;
}

bool tc_plan_place_find(const struct tc_plan *plan, const char *path, struct tc_plan_place *place,
                        char problem[TC_PROBLEM_SIZE])
{
    char shown[TC_SHOWN_SIZE];
    const char *name;
    int group = find_group(plan, path, &name, place);
    tc_quantity_shown(shown, path);
    if (group < 0 && strncmp(path, "kit/", 4) == 0)
        return tc_problem(problem, "'%s': a kit is called a setup; write 'setup/%.40s'", shown, path + 4);
    if (group < 0)
        return tc_problem(problem,
                          "'%s' is nothing of a plan; write plan/KEY, candidate N/KEY, setup/KEY, "
                          "region/KEY, shop NAME/KEY, wall/KEY or space/KEY",
                          shown);
    place->key = tc_key_find(place->table, name);
    if (!place->key) {
        char unknown[TC_PROBLEM_SIZE];
        bool told = tc_key_unknown(place->table, name, unknown);
        return tc_problem(problem, told ? "%s" : "%s of a %s", unknown, place->table->kind);
    }
    if (place->assumed && !can_be_assumed(name))
        return tc_problem(problem, "'%s' is not an assumption; change it in the profile of the %s", name,
                          place->table->kind);
    place->position = group * POSITIONS + (int)(place->key - place->table->keys);
    if (place->table == &tc_candidate_keys)
        snprintf(place->path, sizeof place->path, "candidate %d/%s", group, place->key->name);
    else if (place->table == &tc_shop_keys)
        snprintf(place->path, sizeof place->path, "shop %s/%s", place->shop, place->key->name);
    else
        snprintf(place->path, sizeof place->path, "%s/%s", place->table->kind, place->key->name);
    return true;
}

struct tc_plan_place tc_plan_place_of_range(const struct tc_plan *plan, const struct tc_typed_range *range)
{
    struct tc_plan_place place = {.position = 0};
    char ignored[TC_PROBLEM_SIZE];
    tc_plan_place_find(plan, range->path, &place, ignored);
    return place;
}

struct tc_plan_place tc_plan_place_of_override(const struct tc_plan *plan, const struct tc_override *override)
{
    struct tc_plan_place place = {.position = 0};
    char path[3 * TC_NAME_SIZE], ignored[TC_PROBLEM_SIZE];
    snprintf(path, sizeof path, "%s%s%s/%s", override->kind, override->shop[0] != '\0' ? " " : "",
             override->shop, override->key);
    tc_plan_place_find(plan, path, &place, ignored);
    return place;
}
