/* SPDX-License-Identifier: MIT */
#include "profile/sale_keys.h"

#include <stdio.h>

#include "core/base/calendar.h"
#include "core/goods/sale.h"
#include "profile/key_table.h"
#include "profile/name_list.h"

#define SALE struct tc_sale

/* ------------------------------------------------------------------- lists of names */

static bool read_tanks(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    SALE *sale = record;
    int count;
    char names[TC_SALE_TANKS_MAX][TC_NAME_SIZE];
    (void)key;
    if (!tc_name_list_read(text, names, TC_SALE_TANKS_MAX, &count, reading->problem))
        return false;
    memcpy(sale->tanks, names, sizeof names);
    sale->tank_count = count;
    return true;
}

static void write_tanks(const struct tc_key *key, const void *record, enum tc_unit_system system,
                        char text[TC_VALUE_SIZE])
{
    const SALE *sale = record;
    (void)key, (void)system;
    tc_name_list_write(sale->tanks, sale->tank_count, text);
}

/* "'lamp' is not a slot; slots are stand, lid ... and substrate"; false. */
static bool unknown_slot(const char *item, char problem[TC_PROBLEM_SIZE])
{
    char slots[TC_SLOT_COUNT * TC_NAME_SIZE] = "";
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        size_t length = strlen(slots);
        const char *joint = i == 0 ? "" : i + 1 < TC_SLOT_COUNT ? ", " : " and ";
        snprintf(slots + length, sizeof slots - length, "%s%s", joint, tc_slot_name((enum tc_slot)i));
    }
    return tc_problem(problem, "'%s' is not a slot; slots are %s", item, slots);
}

/* "lid glass-30x12, light strip-60" */
static bool read_includes(const struct tc_key *key, const char *text, void *record,
                          struct tc_reading *reading)
{
    SALE parts = {.part_count = 0};
    char item[2 * TC_NAME_SIZE], shown[TC_SHOWN_SIZE];
    const char *rest = text;
    while (tc_quantity_item(&rest, item, sizeof item, reading->problem)) {
        char *name = strchr(item, ' ');
        if (name)
            *name++ = '\0';
        if (!name || strchr(name, ' ') || !tc_name_valid(name))
            return tc_problem(reading->problem,
                              "'%s' is not a list of parts; write slots and names like '%s'",
                              tc_quantity_shown(shown, text), key->example);
        if (parts.part_count == TC_SALE_PARTS_MAX)
            return tc_problem(reading->problem, "there are more than %d parts", TC_SALE_PARTS_MAX);
        if (!tc_slot_find(item, &parts.parts[parts.part_count].slot))
            return unknown_slot(item, reading->problem);
        memcpy(parts.parts[parts.part_count++].name, name, strlen(name) + 1);
    }
    if (reading->problem[0] != '\0')
        return false;
    SALE *sale = record;
    memcpy(sale->parts, parts.parts, sizeof parts.parts);
    sale->part_count = parts.part_count;
    return true;
}

static void write_includes(const struct tc_key *key, const void *record, enum tc_unit_system system,
                           char text[TC_VALUE_SIZE])
{
    const SALE *sale = record;
    size_t length = 0;
    (void)key, (void)system;
    text[0] = '\0';
    for (int i = 0; i < sale->part_count; i++) /* eight of at most 60 bytes: they fit */
        length += (size_t)snprintf(text + length, TC_VALUE_SIZE - length, "%s%s %s", i > 0 ? ", " : "",
                                   tc_slot_name(sale->parts[i].slot), sale->parts[i].name);
}

/* ---------------------------------------------------------------------- repeats */

static const struct {
    const char *one, *many;
    enum tc_repeat_unit unit;
} steps[] = {
    {"day", "days", TC_REPEAT_DAYS},
    {"week", "weeks", TC_REPEAT_WEEKS},
    {"month", "months", TC_REPEAT_MONTHS},
    {"year", "years", TC_REPEAT_YEARS},
};

/* "never", "year", "4 weeks" */
static bool read_every(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    struct tc_repeat *when = &((SALE *)record)->when;
    const char *end = text;
    char shown[TC_SHOWN_SIZE];
    int every = 1;
    if (tc_name_equal(text, "never")) {
        when->unit = TC_REPEAT_NEVER;
        when->every = 0;
        return true;
    }
    if (tc_number_read_count(text, &end, &every) == TC_SYNTAX)
        every = 1;
    while (*end == ' ')
        end++;
    for (size_t i = 0; i < TC_COUNT_OF(steps); i++) {
        if ((tc_name_equal(end, steps[i].one) || tc_name_equal(end, steps[i].many)) && every >= 1 &&
            every <= 9999) {
            when->unit = steps[i].unit;
            when->every = every;
            return true;
        }
    }
    return tc_problem(reading->problem, "'%s' is not a step of time; write '%s', 'year' or 'never'",
                      tc_quantity_shown(shown, text), key->example);
}

static void write_every(const struct tc_key *key, const void *record, enum tc_unit_system system,
                        char text[TC_VALUE_SIZE])
{
    const struct tc_repeat *when = &((const SALE *)record)->when;
    (void)key, (void)system;
    snprintf(text, TC_VALUE_SIZE, "never");
    for (size_t i = 0; i < TC_COUNT_OF(steps); i++) {
        if (steps[i].unit != when->unit)
            continue;
        if (when->every == 1)
            snprintf(text, TC_VALUE_SIZE, "%s", steps[i].one);
        else
            snprintf(text, TC_VALUE_SIZE, "%d %s", when->every, steps[i].many);
    }
}

/* ------------------------------------------------------------------------ table */

/* The four rules are read into one figure; the check says which it was. */
static const struct tc_key keys[] = {
    TC_TITLE_KEY(SALE, title, "Spring sale"),
    TC_NAME_KEY("shop", SALE, shop, NULL, "lowmere-shop", "the shop that holds it", .of = "shop"),
    TC_QUANTITY_KEY("percent-off", SHARE, SALE, figure, 0, 1, "", "30 %",
                    "how much off the list price; this, per-volume, price or bundle is needed"),
    TC_RATE_KEY("per-volume", VOLUME, SALE, figure, 1e8, "", "1 / gal", "price by nominal volume"),
    TC_MONEY_KEY("price", SALE, figure, 1e8, "", "45", "one price for every tank of the sale"),
    TC_MONEY_KEY("bundle", SALE, figure, 1e8, "", "129", "price of a tank with the parts it includes"),
    {.name = "includes",
     .form = TC_KEY_OWN,
     .fallback = "",
     .example = "lid glass-30x12, light strip-60",
     .help = "parts of a bundle, one of each for a tank",
     .read = read_includes,
     .write = write_includes},
    {.name = "tanks",
     .form = TC_KEY_OWN,
     .fallback = "",
     .example = "29-high 40-breeder",
     .help = "the tanks it covers; where not given, those between the volumes, or all",
     .read = read_tanks,
     .write = write_tanks},
    TC_QUANTITY_KEY("volume-from", VOLUME, SALE, least_volume, 0.001, 20, "none", "20 gal",
                    "least nominal volume it covers", .word = tc_none_is_zero, .fixed = true),
    TC_QUANTITY_KEY("volume-to", VOLUME, SALE, greatest_volume, 0.001, 20, "none", "75 gal",
                    "greatest nominal volume it covers", .word = tc_none_is_zero, .fixed = true),
    {.name = "from",
     .form = TC_KEY_DATE,
     .offset = offsetof(SALE, when.first),
     .fallback = "",
     .example = "2026-03-01",
     .help = "first day; without from and to it runs always"},
    {.name = "to",
     .form = TC_KEY_DATE,
     .offset = offsetof(SALE, when.last),
     .fallback = "",
     .example = "2026-03-14",
     .help = "last day, still part of it"},
    {.name = "every",
     .form = TC_KEY_OWN,
     .fallback = "never",
     .example = "4 weeks",
     .help = "how often it starts again: days, weeks, months or years",
     .read = read_every,
     .write = write_every},
    {.name = "until",
     .form = TC_KEY_DATE,
     .offset = offsetof(SALE, when.until),
     .fallback = "",
     .example = "2028-12-31",
     .help = "it does not start again after this day"},
    TC_COUNT_KEY("limit", SALE, limit, 1, 1000, "none", "2", "tanks a customer may have at this price",
                 .word = tc_none_is_zero),
};

static const struct {
    const char *key;
    enum tc_sale_rule rule;
} rules[] = {
    {"percent-off", TC_SALE_PERCENT},
    {"per-volume", TC_SALE_PER_VOLUME},
    {"price", TC_SALE_FIXED},
    {"bundle", TC_SALE_BUNDLE},
};

static bool check_rule(struct tc_entry *entry)
{
    SALE *sale = entry->record;
    const char *before = NULL;
    for (size_t i = 0; i < TC_COUNT_OF(rules); i++) {
        if (!tc_entry_given(entry, rules[i].key))
            continue;
        if (before)
            return tc_entry_blame(entry, rules[i].key, "cannot go with '%s'; a sale has one rule", before);
        before = rules[i].key;
        sale->rule = rules[i].rule;
    }
    if (!before)
        return tc_entry_blame(entry, NULL, "has no rule; write percent-off, per-volume, price or bundle");
    if (sale->rule == TC_SALE_BUNDLE && sale->part_count == 0)
        return tc_entry_blame(entry, "bundle",
                              "needs the parts it includes, like 'includes = lid glass-30x12'");
    if (sale->rule != TC_SALE_BUNDLE && sale->part_count > 0)
        return tc_entry_blame(entry, "includes", "goes with 'bundle' only");
    return true;
}

static bool check_dates(struct tc_entry *entry)
{
    SALE *sale = entry->record;
    bool from = tc_entry_given(entry, "from"), to = tc_entry_given(entry, "to");
    bool repeats = sale->when.unit != TC_REPEAT_NEVER;
    sale->dated = from;
    sale->when.ends = tc_entry_given(entry, "until");
    if (from != to)
        return tc_entry_blame(entry, from ? "from" : "to", "needs '%s' as well", from ? "to" : "from");
    if (repeats && !from)
        return tc_entry_blame(entry, "every", "needs 'from' and 'to', the first time it is held");
    if (sale->when.ends && !repeats)
        return tc_entry_blame(entry, "until", "goes with 'every' only");
    if (!from)
        return true;
    if (tc_days_between(sale->when.first, sale->when.last) < 0)
        return tc_entry_blame(entry, "to", "is before 'from'");
    if (sale->when.ends && tc_days_between(sale->when.first, sale->when.until) < 0)
        return tc_entry_blame(entry, "until", "is before 'from'");
    if (tc_repeat_check(&sale->when) != TC_OK)
        return tc_entry_blame(entry, "every", "makes it start again before it has ended");
    return true;
}

static bool check(struct tc_entry *entry)
{
    const SALE *sale = entry->record;
    if (!check_rule(entry) || !check_dates(entry))
        return false;
    bool volumes = sale->least_volume > 0 || sale->greatest_volume > 0;
    if (volumes && sale->tank_count > 0)
        return tc_entry_blame(entry, "tanks", "cannot go with volumes; write one of them");
    if (sale->greatest_volume > 0 && sale->greatest_volume < sale->least_volume)
        return tc_entry_blame(entry, "volume-to", "is less than volume-from");
    return true;
}

static const struct tc_key_former former[] = {{"region", "a shop holds a sale; write 'shop = NAME'"},
                                              {NULL, NULL}};

const struct tc_key_table tc_sale_keys = {
    .kind = "sale",
    .help = "what a shop takes off, and when",
    .keys = keys,
    .count = TC_COUNT_OF(keys),
    .record_size = sizeof(SALE),
    .check = check,
    .former = former,
};
