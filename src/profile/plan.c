/* SPDX-License-Identifier: MIT */
#include "profile/plan.h"

#include <stdio.h>
#include <string.h>

#include "profile/key_table.h"
#include "profile/setup_keys.h"
#include "profile/plan_keys.h"
#include "profile/plan_path.h"
#include "profile/region_keys.h"
#include "profile/shop_keys.h"

/* ------------------------------------------------------------------------ whole */

void tc_plan_start(struct tc_plan *plan)
{
    struct tc_wall_plan wall;
    struct tc_space space;
    tc_key_defaults(&tc_plan_keys, plan);
    tc_key_defaults(&tc_wall_keys, &wall);
    tc_key_defaults(&tc_space_keys, &space);
    memcpy(&plan->wall, &wall, sizeof wall);
    memcpy(&plan->space, &space, sizeof space);
}

struct tc_candidate *tc_plan_add(struct tc_plan *plan, const char *tank)
{
    if (plan->candidate_count == TC_CANDIDATES_MAX)
        return NULL;
    struct tc_candidate *candidate = &plan->candidate[plan->candidate_count++];
    tc_key_defaults(&tc_candidate_keys, candidate);
    size_t length = strlen(tank);
    if (length < sizeof candidate->tank)
        memcpy(candidate->tank, tank, length + 1);
    return candidate;
}

void tc_plan_remove(struct tc_plan *plan, int i)
{
    if (i < 0 || i >= plan->candidate_count)
        return;
    int last = plan->candidate_count - 1, kept = 0;
    memmove(&plan->candidate[i], &plan->candidate[i + 1], (size_t)(last - i) * sizeof plan->candidate[0]);
    memset(&plan->candidate[last], 0, sizeof plan->candidate[0]);
    plan->candidate_count = last;
    for (int r = 0; r < plan->range_count; r++) {
        struct tc_typed_range range;
        const char *rest;
        memcpy(&range, &plan->range[r], sizeof range);
        int number = tc_plan_path_candidate(range.path, &rest);
        if (number == i + 1)
            continue;
        if (number > i + 1) {
            char key[TC_NAME_SIZE];
            snprintf(key, sizeof key, "%s", rest);
            memset(range.path, 0, sizeof range.path);
            snprintf(range.path, sizeof range.path, "candidate %d/%s", number - 1, key);
            range.offset -= sizeof plan->candidate[0];
        }
        memcpy(&plan->range[kept++], &range, sizeof range);
    }
    memset(&plan->range[kept], 0, (size_t)(plan->range_count - kept) * sizeof plan->range[0]);
    plan->range_count = kept;
}

/*
 * What is not used of a plan is zero, gaps between its fields too: plans are
 * zeroed when they start, filled field by field, and moved as bytes. So the
 * bytes tell.
 */
bool tc_plan_equal(const struct tc_plan *a, const struct tc_plan *b)
{
    return memcmp(a, b, sizeof *a) == 0; /* NOLINT(bugprone-suspicious-memory-comparison) */
}

bool tc_plan_several(const struct tc_plan *plan)
{
    return strcmp(plan->shop, TC_SEVERAL) == 0;
}

bool tc_plan_one_shop(const struct tc_plan *plan)
{
    return strcmp(plan->shop, TC_ONE_SHOP) == 0;
}

const char *tc_plan_shop(const struct tc_plan *plan)
{
    return tc_plan_several(plan) || tc_plan_one_shop(plan) ? "" : plan->shop;
}

bool tc_plan_way(const char *word, enum tc_way_kind *kind)
{
    static const struct {
        const char *word;
        enum tc_way_kind kind;
    } ways[] = {{"list", TC_WAY_LIST}, {"best", TC_WAY_BEST}, {"order", TC_WAY_ORDER}};
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++)
        if (strcmp(word, ways[i].word) == 0) {
            *kind = ways[i].kind;
            return true;
        }
    return false;
}

void tc_plan_copy(struct tc_plan *to, const struct tc_plan *from)
{
    memcpy(to, from, sizeof *to); /* an assignment need not copy the gaps between fields */
}

bool tc_plan_has_wall(const struct tc_plan *plan)
{
    return plan->wall.length > 0 && plan->wall.height > 0 && plan->wall.depth > 0;
}

/* ---------------------------------------------------------------------- overrides */

static int find_override(const struct tc_plan *plan, const struct tc_plan_place *place)
{
    for (int i = 0; i < plan->override_count; i++)
        if (strcmp(plan->override[i].kind, place->table->kind) == 0 &&
            strcmp(plan->override[i].shop, place->shop) == 0 &&
            strcmp(plan->override[i].key, place->key->name) == 0)
            return i;
    return -1;
}

static void remove_override(struct tc_plan *plan, int i)
{
    int last = plan->override_count - 1;
    memmove(&plan->override[i], &plan->override[i + 1], (size_t)(last - i) * sizeof plan->override[0]);
    memset(&plan->override[last], 0, sizeof plan->override[0]);
    plan->override_count = last;
}

static void copy_spread(struct tc_spread *to, const struct tc_spread *from)
{
    to->shape = from->shape;
    to->low = from->low;
    to->likely = from->likely;
    to->high = from->high;
}

/* Of two keys that exclude each other, an assumption of one takes back that of the other. */
static void remove_sibling(struct tc_plan *plan, const struct tc_plan_place *place)
{
    struct tc_plan_place other = *place;
    other.key = tc_key_sibling(place->table, place->key);
    int found = other.key ? find_override(plan, &other) : -1;
    if (found >= 0)
        remove_override(plan, found);
}

/* Whether an assumption stands behind another: shops by name, all else by the tables. */
static bool comes_after(struct tc_plan_place a, const struct tc_plan_place *b)
{
    int order = strcmp(a.shop, b->shop);
    return a.table == b->table && order != 0 ? order > 0 : a.position > b->position;
}

static bool set_override(struct tc_plan *plan, const struct tc_plan_place *place, const char *text,
                         struct tc_currency currency, char problem[TC_PROBLEM_SIZE])
{
    union {
        struct tc_setup setup;
        struct tc_region region;
        struct tc_shop shop;
    } scratch;
    struct tc_reading reading = {.currency = currency};
    struct tc_override entry;

    memset(&entry, 0, sizeof entry);
    memset(&scratch, 0, sizeof scratch);
    if (!tc_key_read_with(place->key, text, &scratch, &reading)) {
        memcpy(problem, reading.problem, sizeof reading.problem);
        return false;
    }
    if (strlen(text) >= sizeof entry.value)
        return tc_problem(problem, "the value is longer than %d bytes", TC_TYPED_SIZE - 1);
    remove_sibling(plan, place);
    int i = find_override(plan, place);
    if (i < 0 && plan->override_count == TC_OVERRIDES_MAX)
        return tc_problem(problem, "there are more than %d assumptions", TC_OVERRIDES_MAX);
    struct tc_spread spread = tc_key_spread(place->key, &scratch, &reading);
    copy_spread(&entry.spread, &spread);
    memcpy(entry.kind, place->table->kind, strlen(place->table->kind));
    memcpy(entry.shop, place->shop, sizeof entry.shop);
    memcpy(entry.key, place->key->name, strlen(place->key->name));
    memcpy(entry.value, text, strlen(text));
    if (i < 0) {
        i = plan->override_count++;
        for (; i > 0 && comes_after(tc_plan_place_of_override(plan, &plan->override[i - 1]), place); i--)
            memcpy(&plan->override[i], &plan->override[i - 1], sizeof entry);
    }
    memcpy(&plan->override[i], &entry, sizeof entry);
    return true;
}

/* ------------------------------------------------------------------------ ranges */

static int find_range(const struct tc_plan *plan, const char *path)
{
    for (int i = 0; i < plan->range_count; i++)
        if (strcmp(plan->range[i].path, path) == 0)
            return i;
    return -1;
}

static void remove_range(struct tc_plan *plan, int i)
{
    int last = plan->range_count - 1;
    memmove(&plan->range[i], &plan->range[i + 1], (size_t)(last - i) * sizeof plan->range[0]);
    memset(&plan->range[last], 0, sizeof plan->range[0]);
    plan->range_count = last;
}

static bool keep_range(struct tc_plan *plan, const struct tc_plan_place *place, const char *text,
                       const struct tc_key_range *range, char problem[TC_PROBLEM_SIZE])
{
    struct tc_typed_range entry;
    memset(&entry, 0, sizeof entry);
    if (strlen(text) >= sizeof entry.value)
        return tc_problem(problem, "the value is longer than %d bytes", TC_TYPED_SIZE - 1);
    if (plan->range_count == TC_TYPED_RANGES_MAX)
        return tc_problem(problem, "a plan has at most %d ranges", TC_TYPED_RANGES_MAX);
    entry.offset = place->offset + range->offset;
    copy_spread(&entry.spread, &range->spread);
    memcpy(entry.path, place->path, strlen(place->path));
    memcpy(entry.value, text, strlen(text));
    int i = plan->range_count++;
    for (; i > 0 && tc_plan_place_of_range(plan, &plan->range[i - 1]).position > place->position; i--)
        memcpy(&plan->range[i], &plan->range[i - 1], sizeof entry);
    memcpy(&plan->range[i], &entry, sizeof entry);
    return true;
}

bool tc_plan_double(struct tc_plan *plan, int i)
{
    int ranges = plan->range_count, extra = 0;
    const char *key;
    for (int r = 0; r < ranges; r++)
        extra += tc_plan_path_candidate(plan->range[r].path, &key) == i + 1;
    if (i < 0 || i >= plan->candidate_count || ranges + extra > TC_TYPED_RANGES_MAX || !tc_plan_add(plan, ""))
        return false;
    int second = plan->candidate_count - 1;
    memcpy(&plan->candidate[second], &plan->candidate[i], sizeof plan->candidate[0]);
    /* Those of the new candidate, the last one, come behind those of all others. */
    for (int r = ranges; r-- > 0;) {
        struct tc_typed_range range;
        struct tc_plan_place place;
        char path[2 * TC_NAME_SIZE], problem[TC_PROBLEM_SIZE];
        memcpy(&range, &plan->range[r], sizeof range);
        if (tc_plan_path_candidate(range.path, &key) != i + 1)
            continue;
        snprintf(path, sizeof path, "candidate %d/%.*s", second + 1, TC_NAME_SIZE - 1, key);
        const struct tc_key_range same = {.offset = range.offset - offsetof(struct tc_plan, candidate) -
                                                    (size_t)i * sizeof plan->candidate[0],
                                          .spread = range.spread};
        if (tc_plan_place_find(plan, path, &place, problem))
            keep_range(plan, &place, range.value, &same, problem);
    }
    return true;
}

/* --------------------------------------------------------------------- set and get */

/* Takes a figure of the plan back: its field gets the default's bytes. */
static bool take_back(struct tc_plan *plan, const struct tc_plan_place *place, char problem[TC_PROBLEM_SIZE])
{
    if (!place->key->fallback)
        return tc_problem(problem, "'%s' is needed; write it like '%s'", place->key->name,
                          place->key->example);
    struct tc_plan fresh;
    struct tc_candidate candidate;
    const void *from = &fresh;
    tc_plan_start(&fresh);
    if (place->table == &tc_candidate_keys) {
        tc_key_defaults(&tc_candidate_keys, &candidate);
        from = &candidate;
    } else if (place->table == &tc_wall_keys) {
        from = &fresh.wall;
    } else if (place->table == &tc_space_keys) {
        from = &fresh.space;
    }
    char text[TC_VALUE_SIZE];
    struct tc_reading reading = {.currency = {"", 0}};
    void *record = (char *)plan + place->offset;
    tc_key_write(place->key, from, TC_METRIC, text);
    if (text[0] != '\0' || place->key->form == TC_KEY_TEXT || place->key->form == TC_KEY_OWN)
        return tc_key_read_with(place->key, text, record, &reading);
    double none; /* only figures can be untyped */
    memcpy(&none, (const char *)from + place->key->offset, sizeof none);
    memcpy((char *)record + place->key->offset, &none, sizeof none);
    return true;
}

static bool set(struct tc_plan *plan, const struct tc_plan_place *place, const char *text,
                struct tc_currency currency, char problem[TC_PROBLEM_SIZE])
{
    if (place->assumed && text[0] == '\0') {
        int i = find_override(plan, place);
        if (i >= 0)
            remove_override(plan, i);
        return true;
    }
    if (place->assumed)
        return set_override(plan, place, text, currency, problem);
    int i = find_range(plan, place->path);
    if (i >= 0)
        remove_range(plan, i);
    if (text[0] == '\0')
        return take_back(plan, place, problem);
    struct tc_reading reading = {.currency = currency};
    if (!tc_key_read_with(place->key, text, (char *)plan + place->offset, &reading)) {
        memcpy(problem, reading.problem, sizeof reading.problem);
        return false;
    }
    return reading.range_count == 0 || keep_range(plan, place, text, &reading.range[0], problem);
}

static void copy_part(struct tc_plan *to, const struct tc_plan *from, size_t start, size_t end)
{
    memcpy((char *)to + start, (const char *)from + start, end - start);
}

/* Copies what is used of a plan, a small part of it: the rest is zero. */
static void copy_used(struct tc_plan *to, const struct tc_plan *from)
{
    size_t candidate = offsetof(struct tc_plan, candidate), override = offsetof(struct tc_plan, override),
           range = offsetof(struct tc_plan, range);
    copy_part(to, from, 0, candidate + (size_t)from->candidate_count * sizeof from->candidate[0]);
    copy_part(to, from, offsetof(struct tc_plan, candidate_count),
              override + (size_t)from->override_count * sizeof from->override[0]);
    copy_part(to, from, offsetof(struct tc_plan, override_count),
              range + (size_t)from->range_count * sizeof from->range[0]);
    copy_part(to, from, offsetof(struct tc_plan, range_count), sizeof *from);
}

bool tc_plan_set_in(struct tc_plan *plan, const char *path, const char *text, struct tc_currency currency,
                    char problem[TC_PROBLEM_SIZE])
{
    struct tc_plan_place place;
    struct tc_plan before;
    if (!tc_plan_place_find(plan, path, &place, problem))
        return false;
    copy_used(&before, plan);
    if (set(plan, &place, text, currency, problem))
        return true;
    memset(plan, 0, sizeof *plan);
    copy_used(plan, &before);
    return false;
}

bool tc_plan_set(struct tc_plan *plan, const char *path, const char *text, char problem[TC_PROBLEM_SIZE])
{
    return tc_plan_set_in(plan, path, text, (struct tc_currency){"", 0}, problem);
}

bool tc_plan_get(const struct tc_plan *plan, const char *path, char text[TC_VALUE_SIZE])
{
    struct tc_plan_place place;
    char ignored[TC_PROBLEM_SIZE];
    text[0] = '\0';
    if (!tc_plan_place_find(plan, path, &place, ignored))
        return false;
    int i = place.assumed ? find_override(plan, &place) : find_range(plan, place.path);
    if (i >= 0)
        snprintf(text, TC_VALUE_SIZE, "%s", place.assumed ? plan->override[i].value : plan->range[i].value);
    if (i >= 0 || place.assumed)
        return true;
    const void *record = (const char *)plan + place.offset;
    if (place.key->form == TC_KEY_NAME && ((const char *)record)[place.key->offset] == '\0')
        return true;
    tc_key_write(place.key, record, plan->units, text);
    return true;
}

/* -------------------------------------------------------------------- assumptions */

struct tc_currency tc_plan_currency(struct tc_currency currency)
{
    currency.exponent = 9;
    return currency;
}

/* Types the assumptions of the table's kind over the record. */
static bool assume(const struct tc_plan *plan, const struct tc_key_table *table, const char *shop,
                   void *record, struct tc_currency currency, char problem[TC_PROBLEM_SIZE])
{
    struct tc_entry entry = {.table = table, .record = record, .typed = true};
    char group[2 * TC_NAME_SIZE];
    snprintf(group, sizeof group, "%s%s%s", table->kind, shop[0] != '\0' ? " " : "", shop);
    for (int i = 0; i < plan->override_count; i++) {
        const struct tc_override *override = &plan->override[i];
        struct tc_reading reading = {.currency = currency};
        if (strcmp(override->kind, table->kind) != 0 || strcmp(override->shop, shop) != 0)
            continue;
        const struct tc_key *key = tc_key_find(table, override->key);
        if (!key)
            return tc_problem(problem, "%s/%s: unknown key", group, override->key);
        char *overruling = tc_key_overruling(table, key, record);
        if (overruling) /* a price that is typed counts, whatever tariff was named */
            memset(overruling, 0, TC_NAME_SIZE);
        if (!tc_key_read_with(key, override->value, record, &reading))
            return tc_problem(problem, "%s/%s: %.250s", group, override->key, reading.problem);
    }
    if (!table->check || table->check(&entry))
        return true;
    if (entry.blame)
        return tc_problem(problem, "%s/%s: %.300s", table->kind, entry.blame, entry.problem);
    return tc_problem(problem, "%s: %.300s", table->kind, entry.problem);
}

static bool overrides(const struct tc_plan *plan, const char *kind, const char *key)
{
    for (int i = 0; i < plan->override_count; i++)
        if (strcmp(plan->override[i].kind, kind) == 0 && strcmp(plan->override[i].key, key) == 0)
            return true;
    return false;
}

bool tc_plan_assume_setup(const struct tc_plan *plan, struct tc_setup *setup, char problem[TC_PROBLEM_SIZE])
{
    /* Light that was centred in the day stays so when it is made longer. */
    double middle = setup->light_start + setup->light_hours / 2;
    bool centred = fabs(middle - TC_MIDDLE_OF_LIGHT) < 1e-9 && !overrides(plan, "setup", "light-start");
    struct tc_currency none = {"", 0};
    if (centred)
        setup->light_start = NAN;
    return assume(plan, &tc_setup_keys, "", setup, none, problem);
}

bool tc_plan_assume_region(const struct tc_plan *plan, struct tc_region *region,
                           char problem[TC_PROBLEM_SIZE])
{
    return assume(plan, &tc_region_keys, "", region, tc_plan_currency(region->currency), problem);
}

bool tc_plan_assume_shop(const struct tc_plan *plan, struct tc_shop *shop, struct tc_currency currency,
                         char problem[TC_PROBLEM_SIZE])
{
    char name[TC_NAME_SIZE];
    memcpy(name, shop->name, sizeof name);
    return assume(plan, &tc_shop_keys, name, shop, tc_plan_currency(currency), problem);
}
