/* SPDX-License-Identifier: MIT */
/*
 * The keys of tariffs. What is billed by season can be written once for the
 * whole year, "blocks", or for one season, "blocks-2"; the latter wins. The
 * keys are read as they stand into an entry, which the check then turns into
 * the tariff that core/tariff/tariff.h computes with, per kWh or m3.
 */
#include "profile/tariff_keys.h"

#include <stdio.h>

#include "core/tariff/tariff.h"
#include "profile/key_table.h"
#include "profile/month_key.h"
#include "profile/stock_data.h"

/* Bound that lets every currency through and stops slips. */
#define MOST_RATE 1e6

enum { ALL_SEASONS = 0, DAYS_OF_BOTH = 0, DAYS_OF_WORK = 1, DAYS_OF_WEEKEND = 2, DAY_SORTS = 3 };

struct blocks {
    int count;
    struct tc_tariff_block block[TC_TARIFF_BLOCKS];
};

struct hours {
    bool given;
    double rate[TC_HOURS];
};

/* What is written for a season. */
struct season {
    bool month[TC_MONTHS];
    struct blocks blocks;
    bool whole_bill;
    struct hours hours[DAY_SORTS];
    double minimum;
    double covers;
};

struct entry {
    struct tc_named_tariff named; /* first, so that the entry is one */
    int unit;
    double workdays;
    struct season season[TC_TARIFF_SEASONS + 1]; /* [ALL_SEASONS]: the whole year */
};

/* Units in which a utility bills, in the order of the words of `unit`. A ccf is 100 ft3. */
static const struct {
    enum tc_dimension dimension;
    double size; /* kWh or m3 */
} units[] = {
    {TC_DIM_ENERGY, 1},
    {TC_DIM_VOLUME, 1},
    {TC_DIM_VOLUME, 0.003785411784},
    {TC_DIM_VOLUME, 3.785411784},
    {TC_DIM_VOLUME, 0.028316846592},
    {TC_DIM_VOLUME, 2.8316846592},
};

/* ----------------------------------------------------------------------- blocks */

static const char *skip(const char *p)
{
    return p + strspn(p, " ,");
}

/* A figure from 0 to `most` at p. */
static bool read_figure_at(const char *p, const char **end, double most, double *value)
{
    return tc_number_read(p, end, value) == TC_OK && *value >= 0 && *value <= most;
}

/* "0.10 up to 600", "0.14 to 1000", "0.18 above", "0.18" */
static bool read_block(const char *item, struct tc_tariff_block *block)
{
    const char *p;
    if (!read_figure_at(item, &p, MOST_RATE, &block->rate))
        return false;
    block->limit = HUGE_VAL;
    p = skip(p);
    if (*p == '\0' || strcmp(p, "above") == 0)
        return true;
    if (strncmp(p, "up ", 3) == 0)
        p = skip(p + 3);
    if (strncmp(p, "to ", 3) != 0)
        return false;
    return read_figure_at(skip(p + 3), &p, 1e9, &block->limit) && *p == '\0';
}

static bool read_blocks(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    struct blocks blocks = {.count = 0};
    char item[TC_TITLE_SIZE], shown[TC_SHOWN_SIZE];
    const char *rest = text;
    while (tc_quantity_item(&rest, item, sizeof item, reading->problem)) {
        if (blocks.count == TC_TARIFF_BLOCKS)
            return tc_problem(reading->problem, "there are more than %d blocks", TC_TARIFF_BLOCKS);
        struct tc_tariff_block *block = &blocks.block[blocks.count];
        if (!read_block(item, block))
            return tc_problem(reading->problem, "'%s' is not a block; write a rate and its limit like '%s'",
                              tc_quantity_shown(shown, item), key->example);
        if (blocks.count > 0 && isinf(block[-1].limit))
            return tc_problem(reading->problem,
                              "'%s' stands behind the block without a limit, which is the last", item);
        if (blocks.count > 0 && block->limit <= block[-1].limit)
            return tc_problem(reading->problem, "the limits of '%s' do not rise",
                              tc_quantity_shown(shown, text));
        blocks.count++;
    }
    if (reading->problem[0] != '\0')
        return false;
    if (blocks.count == 0 || !isinf(blocks.block[blocks.count - 1].limit))
        return tc_problem(reading->problem, "'%s' has no last rate; end it like ', 0.18 above'",
                          tc_quantity_shown(shown, text));
    memcpy((char *)record + key->offset, &blocks, sizeof blocks);
    return true;
}

static void write_blocks(const struct tc_key *key, const void *record, enum tc_unit_system system,
                         char text[TC_VALUE_SIZE])
{
    struct blocks blocks;
    size_t length = 0;
    (void)system;
    memcpy(&blocks, (const char *)record + key->offset, sizeof blocks);
    text[0] = '\0';
    for (int i = 0; i < blocks.count; i++) {
        char rate[TC_NUMBER_SIZE], limit[TC_NUMBER_SIZE];
        tc_number_write_short(rate, blocks.block[i].rate);
        if (isinf(blocks.block[i].limit))
            snprintf(text + length, TC_VALUE_SIZE - length, "%s above", rate);
        else
            length += (size_t)snprintf(text + length, TC_VALUE_SIZE - length, "%s up to %s, ", rate,
                                       tc_number_write_short(limit, blocks.block[i].limit));
    }
}

/* ------------------------------------------------------------------------ hours */

/* "0.08 from 7" or "0.08 from 7:00"; "0.08" alone where it is for the whole day. */
static bool read_hour(const char *item, bool alone, double *rate, int *hour)
{
    const char *p;
    if (!read_figure_at(item, &p, MOST_RATE, rate))
        return false;
    p = skip(p);
    *hour = 0;
    if (alone && *p == '\0')
        return true;
    if (strncmp(p, "from ", 5) != 0 || tc_number_read_count(skip(p + 5), &p, hour) != TC_OK)
        return false;
    return (*p == '\0' || strcmp(p, ":00") == 0) && *hour < TC_HOURS;
}

/* The rate of each hour is that of the last "from" before it; the day goes round, so any of them can come
 * first. */
static bool read_hours(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading)
{
    struct hours hours = {.given = true};
    char item[TC_TITLE_SIZE], shown[TC_SHOWN_SIZE];
    const char *rest = text;
    bool starts[TC_HOURS] = {false};
    int first = -1, before = -1, turns = 0;
    double rate = 0;
    while (tc_quantity_item(&rest, item, sizeof item, reading->problem)) {
        int from;
        if (!read_hour(item, first < 0 && *rest == '\0', &rate, &from))
            return tc_problem(reading->problem,
                              "'%s' is not a rate of an hour; write rates and full hours like '%s'",
                              tc_quantity_shown(shown, item), key->example);
        turns += from <= before;
        if (starts[from] || turns > 1 || (turns == 1 && from >= first))
            return tc_problem(reading->problem, "the hours of '%s' do not follow each other",
                              tc_quantity_shown(shown, text));
        starts[from] = true;
        hours.rate[from] = rate;
        if (first < 0)
            first = from;
        before = from;
    }
    if (reading->problem[0] != '\0')
        return false;
    if (first < 0)
        return tc_problem(reading->problem, "there are no rates; write them like '%s'", key->example);
    for (int i = 1; i < TC_HOURS; i++) {
        int h = (first + i) % TC_HOURS;
        if (!starts[h])
            hours.rate[h] = hours.rate[(h + TC_HOURS - 1) % TC_HOURS];
    }
    memcpy((char *)record + key->offset, &hours, sizeof hours);
    return true;
}

static void write_hours(const struct tc_key *key, const void *record, enum tc_unit_system system,
                        char text[TC_VALUE_SIZE])
{
    struct hours hours;
    size_t length = 0;
    (void)system;
    memcpy(&hours, (const char *)record + key->offset, sizeof hours);
    text[0] = '\0';
    for (int h = 0; hours.given && h < TC_HOURS; h++) {
        char rate[TC_NUMBER_SIZE];
        if (h > 0 && hours.rate[h] == hours.rate[h - 1])
            continue;
        /* At most 24 of 26 bytes, as rates are below a million and have nine digits. */
        length += (size_t)snprintf(text + length, TC_VALUE_SIZE - length, "%s%s from %d", h > 0 ? ", " : "",
                                   tc_number_write_short(rate, hours.rate[h]), h);
    }
}

/* ------------------------------------------------------------------------ table */

#define OWN_KEY(key, member, sample, help_, read_, write_)                                                   \
    {                                                                                                        \
        .name = key, .form = TC_KEY_OWN, .offset = offsetof(struct entry, member), .fallback = "",           \
        .example = sample, .help = help_, .read = read_, .write = write_                                     \
    }

#define MONTHS_OF(n)                                                                                         \
    OWN_KEY("season-" #n, season[n].month, "5 6 7 8 9",                                                      \
            "months of season " #n "; months of none are season 1", tc_month_key_read, tc_month_key_write)

/* The keys of one season, or of the whole year with no suffix. */
#define SEASON_KEYS(suffix, n, when)                                                                         \
    OWN_KEY("blocks" suffix, season[n].blocks, "0.10 up to 600, 0.14 up to 1000, 0.18 above",                \
            "rates by the units of the month, " when, read_blocks, write_blocks),                            \
        TC_FLAG_KEY("whole-bill" suffix, struct entry, season[n].whole_bill, "", "yes",                      \
                    "whether past a limit all units have the block's rate, " when),                          \
        OWN_KEY("hours" suffix, season[n].hours[DAYS_OF_BOTH],                                               \
                "0.08 from 0, 0.15 from 7, 0.20 from 17, 0.08 from 21",                                      \
                "rates by the hour, every day, " when, read_hours, write_hours),                             \
        OWN_KEY("workday" suffix, season[n].hours[DAYS_OF_WORK], "0.08 from 21, 0.15 from 7, 0.20 from 17",  \
                "rates by the hour on workdays, " when, read_hours, write_hours),                            \
        OWN_KEY("weekend" suffix, season[n].hours[DAYS_OF_WEEKEND], "0.08",                                  \
                "rates by the hour on weekends, " when, read_hours, write_hours),                            \
        TC_MONEY_KEY("minimum" suffix, struct entry, season[n].minimum, 1e8, "", "12.50",                    \
                     "least charge of a month, " when, .fixed = true, .fine = true),                         \
        TC_QUANTITY_KEY("covers" suffix, PLAIN, struct entry, season[n].covers, 0, 1e9, "", "10",            \
                        "units that the minimum pays for; the rates are for those beyond, " when,            \
                        .fixed = true)

static const struct tc_key keys[] = {
    TC_TITLE_KEY(struct entry, named.title, "Lowmere power, two seasons"),
    {.name = "unit",
     .form = TC_KEY_CHOICE,
     .offset = offsetof(struct entry, unit),
     .fallback = "kWh",
     .words = "kWh m3 gal kgal ft3 ccf",
     .example = "m3",
     .help =
         "what is billed: kWh of electricity, or m3, gal, kgal (1000 gal), ft3 or ccf (100 ft3) of water"},
    TC_MONEY_KEY("rate", struct entry, named.tariff.every_unit, MOST_RATE, "0", "0.021",
                 "price of every unit: all of a flat tariff, or added to its other rates", .fine = true),
    TC_QUANTITY_KEY("tax", SHARE, struct entry, named.tariff.tax, 0, 1, "0 %", "7 %", "tax on all charges"),
    TC_QUANTITY_KEY("workdays", PLAIN, struct entry, workdays, 0, 7, "5", "4.8",
                    "days of the week with the rates of workdays; less to allow for holidays", .fixed = true),
    MONTHS_OF(1),
    MONTHS_OF(2),
    MONTHS_OF(3),
    MONTHS_OF(4),
    SEASON_KEYS("", ALL_SEASONS, "all year"),
    SEASON_KEYS("-1", 1, "in season 1"),
    SEASON_KEYS("-2", 2, "in season 2"),
    SEASON_KEYS("-3", 3, "in season 3"),
    SEASON_KEYS("-4", 4, "in season 4"),
    TC_INVENTED_KEY(struct entry, named.invented),
};

_Static_assert(TC_COUNT_OF(keys) <= TC_ENTRY_KEYS_MAX, "more keys than an entry can tell");

/* --------------------------------------------------------- from the entry to the tariff */

/* Whether the key was there for the season itself. */
static bool given_for(const struct tc_entry *entry, const char *key, int season)
{
    char name[TC_NAME_SIZE];
    if (season == ALL_SEASONS)
        return tc_entry_given(entry, key);
    snprintf(name, sizeof name, "%s-%d", key, season);
    return tc_entry_given(entry, name);
}

/* Which season's line counts: its own, or that for all; -1 where there is neither. */
static int source_of(const struct tc_entry *entry, const char *key, int season)
{
    if (given_for(entry, key, season))
        return season;
    return given_for(entry, key, ALL_SEASONS) ? ALL_SEASONS : -1;
}

/* Every month into one season; those named nowhere into the first. */
static bool make_seasons(struct tc_entry *entry)
{
    struct entry *e = entry->record;
    struct tc_tariff *tariff = &e->named.tariff;
    bool named[TC_MONTHS] = {false};
    tariff->season_count = 1;
    for (int s = 1; s <= TC_TARIFF_SEASONS; s++) {
        char key[TC_NAME_SIZE];
        snprintf(key, sizeof key, "season-%d", s);
        const struct tc_key *blame = tc_key_find(entry->table, key);
        if (!tc_entry_given(entry, key))
            continue;
        if (s > tariff->season_count + 1)
            return tc_entry_blame(entry, blame->name, "there is no season-%d before it", s - 1);
        tariff->season_count = s;
        for (int m = 0; m < TC_MONTHS; m++) {
            if (!e->season[s].month[m])
                continue;
            if (named[m])
                return tc_entry_blame(entry, blame->name, "month %d is in another season already", m + 1);
            named[m] = true;
            tariff->season_of_month[m] = s - 1;
        }
    }
    for (int m = 0; m < TC_MONTHS; m++)
        if (!named[m] && tc_entry_given(entry, "season-1"))
            return tc_entry_blame(entry, "season-1", "month %d is in no season", m + 1);
    return true;
}

/* The first key written for a season that the tariff does not have, or NULL. */
static const char *stray_key(const struct tc_entry *entry, int seasons)
{
    for (size_t i = 0; i < entry->table->count; i++) {
        const char *name = entry->table->keys[i].name;
        const char *dash = strrchr(name, '-');
        if (dash && dash[1] >= '1' && dash[1] <= '9' && dash[1] - '0' > seasons &&
            tc_entry_given(entry, name))
            return name;
    }
    return NULL;
}

static bool make_blocks(struct tc_entry *entry, int s, struct tc_tariff_season *season, double size)
{
    const struct entry *e = entry->record;
    int from = source_of(entry, "blocks", s), whole = source_of(entry, "whole-bill", s);
    if (from < 0)
        return whole < 0 || tc_entry_blame(entry, "whole-bill", "goes with blocks only");
    season->block_count = e->season[from].blocks.count;
    for (int i = 0; i < season->block_count; i++) {
        season->block[i] = e->season[from].blocks.block[i];
        season->block[i].limit *= size;
        season->block[i].rate /= size;
        season->block[i].everything = whole >= 0 && e->season[whole].whole_bill;
    }
    return true;
}

static bool make_hours(struct tc_entry *entry, int s, struct tc_tariff_season *season, double size)
{
    static const char *const sorts[DAY_SORTS] = {"hours", "workday", "weekend"};
    const struct entry *e = entry->record;
    int both = source_of(entry, "hours", s);
    for (int day = TC_WORKDAY; day <= TC_WEEKEND; day++) {
        int sort = day == TC_WORKDAY ? DAYS_OF_WORK : DAYS_OF_WEEKEND;
        int own = source_of(entry, sorts[sort], s);
        if (own < 0 && both < 0)
            continue;
        const struct hours *hours =
            own >= 0 ? &e->season[own].hours[sort] : &e->season[both].hours[DAYS_OF_BOTH];
        for (int h = 0; h < TC_HOURS; h++)
            season->hour[day][h] = hours->rate[h] / size;
        season->by_hour = true;
    }
    bool workday = source_of(entry, "workday", s) >= 0, weekend = source_of(entry, "weekend", s) >= 0;
    if (both < 0 && workday != weekend)
        return tc_entry_blame(entry, NULL, "has rates by the hour for %s only; write '%s' too",
                              workday ? "workdays" : "weekends", workday ? "weekend" : "workday");
    return true;
}

static bool make_season(struct tc_entry *entry, int s, double size)
{
    struct entry *e = entry->record;
    struct tc_tariff_season *season = &e->named.tariff.season[s - 1];
    int minimum = source_of(entry, "minimum", s), covers = source_of(entry, "covers", s);
    if (!make_blocks(entry, s, season, size) || !make_hours(entry, s, season, size))
        return false;
    if (minimum < 0 && covers >= 0)
        return tc_entry_blame(entry, NULL,
                              "'covers' says what a minimum charge pays for; write 'minimum' too");
    season->minimum = minimum >= 0 ? e->season[minimum].minimum : 0;
    season->minimum_covers = covers >= 0 ? e->season[covers].covers * size : 0;
    return true;
}

static bool check(struct tc_entry *entry)
{
    struct entry *e = entry->record;
    struct tc_tariff *tariff = &e->named.tariff;
    double size = units[e->unit].size;
    e->named.dimension = units[e->unit].dimension;
    tariff->every_unit /= size;
    for (int i = 0; i < entry->range_count; i++) {
        struct tc_key_range *range = &entry->range[i].range;
        if (range->offset == offsetof(struct entry, named.tariff.every_unit)) {
            range->spread.low /= size;
            range->spread.likely /= size;
            range->spread.high /= size;
        }
    }
    for (int m = 0; m < TC_MONTHS; m++)
        tariff->workday_share[m] = e->workdays / 7;
    if (!make_seasons(entry))
        return false;
    const char *stray = stray_key(entry, tariff->season_count);
    if (stray)
        return tc_entry_blame(entry, stray, "is for a season that has no months; write 'season-%s'",
                              strrchr(stray, '-') + 1);
    bool priced = tc_entry_given(entry, "rate");
    for (int s = 1; s <= tariff->season_count; s++) {
        if (!make_season(entry, s, size))
            return false;
        priced = priced || tariff->season[s - 1].block_count > 0 || tariff->season[s - 1].by_hour;
    }
    if (!priced)
        return tc_entry_blame(entry, NULL, "has no price; write rate, blocks or hours");
    const char *fault = tc_tariff_fault(tariff);
    return !fault || tc_entry_blame(entry, NULL, "%s", fault);
}

const struct tc_key_table tc_tariff_keys = {
    .kind = "tariff",
    .help = "how a utility prices electricity or water",
    .keys = keys,
    .count = TC_COUNT_OF(keys),
    .record_size = sizeof(struct entry),
    .check = check,
};
