/* SPDX-License-Identifier: MIT */
#include "sheet/derive_meter.h"

#include <stdio.h>

#include "sheet/derive_tank.h"
#include "sheet/derive_heat.h"
#include "sheet/derive_use.h"

#define END ((const struct tc_term *)NULL)

static const char hour_mark, hours_mark, units_mark, all_hours_mark, own_units_mark, own_hours_mark;

struct tc_meter tc_meter_of(struct tc_derive *derive, bool energy, int month)
{
    const struct tc_study *study = derive->study;
    struct tc_meter m = {.derive = derive,
                         .energy = energy,
                         .month = month,
                         .tariff = energy ? &study->tariffs.electricity : &study->tariffs.water,
                         .margin = energy ? derive->prices->electricity : derive->prices->water,
                         .total = energy ? &derive->cost->energy_total : &derive->cost->water_total,
                         .parts = energy ? derive->cost->energy : derive->cost->water,
                         .name = energy ? study->region.electricity.tariff : study->region.water.tariff,
                         .scale = tc_currency_scale(study->region.currency),
                         .count = energy ? TC_CONSUMER_COUNT : TC_WATER_COUNT};
    m.season = m.tariff->season_of_month[month];
    return m;
}

const char *tc_meter_unit(const struct tc_meter *m)
{
    return m->energy ? "kWh" : "m³";
}

/* ------------------------------------------------------------------------ the rates */

/* A key of the tariff, of the month's season where it is written for that alone. */
static struct tc_source source(const struct tc_meter *m, const char *key, bool by_season)
{
    struct tc_derive *derive = m->derive;
    if (!m->name[0])
        return tc_source_region(derive->sheet, derive->study, m->energy ? "electricity" : "water");
    const char *own = tc_sheet_format(derive->sheet, "%s-%d", key, m->season + 1);
    struct tc_source found = {TC_TERM_ASSUMED, ""};
    if (by_season)
        found = tc_source_item(derive->sheet, derive->study, "tariff", m->name, own);
    return found.from == TC_TERM_PROFILE
               ? found
               : tc_source_item(derive->sheet, derive->study, "tariff", m->name, key);
}

static const struct tc_term *rate(const struct tc_meter *m, const char *symbol, const char *words,
                                  double value, const char *key, bool by_season)
{
    return tc_term_leaf(m->derive->sheet, symbol, words, value,
                        tc_derive_rate_unit(m->derive, tc_meter_unit(m)), source(m, key, by_season));
}

static const struct tc_term *tax(const struct tc_meter *m)
{
    return tc_term_leaf(m->derive->sheet, "t", "tax on the bill", m->tariff->tax, "",
                        source(m, "tax", false));
}

/* The mean rate of an hour over workdays and weekends, with tax. */
static const struct tc_term *hour_rate(const struct tc_meter *m, int hour)
{
    struct tc_derive *derive = m->derive;
    const struct tc_term *known =
        tc_derive_known(derive, &hour_mark, m->season * 2 + m->energy, m->month * TC_HOURS + hour);
    if (known)
        return known;
    const struct tc_tariff_season *season = &m->tariff->season[m->season];
    bool both = source(m, "workday", true).from != TC_TERM_PROFILE;
    bool ends = source(m, "weekend", true).from != TC_TERM_PROFILE;
    struct tc_term *term =
        tc_term_computed(derive->sheet, "r", tc_sheet_format(derive->sheet, "rate from %d:00", hour),
                         "(1 + t) × (w × a + (1 - w) × b)", m->margin->hour_rate[m->month][hour] / m->scale,
                         tc_derive_rate_unit(derive, tc_meter_unit(m)));
    tc_derive_add(
        derive, term, tax(m),
        tc_term_leaf(derive->sheet, "w", "share of workdays", m->tariff->workday_share[m->month], "",
                     source(m, "workdays", false)),
        rate(m, "a", "on workdays", season->hour[TC_WORKDAY][hour], both ? "hours" : "workday", true),
        rate(m, "b", "on weekends", season->hour[TC_WEEKEND][hour], ends ? "hours" : "weekend", true), END);
    return tc_derive_keep(derive, &hour_mark, m->season * 2 + m->energy, m->month * TC_HOURS + hour, term);
}

/* ------------------------------------------------------------------------ the bill */

/* The units of block i, as "min(u, l2)" less " - max(l1, v)". */
static void block_units(int i, bool last, bool covers, char up_to[32], char from[32])
{
    if (i == 0)
        snprintf(from, 32, "%s", covers ? " - v" : "");
    else
        snprintf(from, 32, covers ? " - max(l%d, v)" : " - l%d", i);
    if (last)
        snprintf(up_to, 32, "u");
    else
        snprintf(up_to, 32, "min(u, l%d)", i + 1);
}

/* The rates by blocks beyond what a minimum covers, one behind the other, and their leaves. */
static void add_blocks(const struct tc_meter *m, struct tc_term *term, double units)
{
    struct tc_derive *derive = m->derive;
    const struct tc_tariff_season *season = &m->tariff->season[m->season];
    const char *every = m->tariff->every_unit > 0 ? "e + " : "";
    bool covers = season->minimum_covers > 0;
    if (m->tariff->every_unit > 0 || season->block_count == 0)
        tc_term_add(derive->sheet, term,
                    rate(m, "e", "rate on every unit", m->tariff->every_unit, "rate", false));
    if (season->block_count == 0) {
        term->formula =
            tc_sheet_format(derive->sheet, covers ? "%se × max(0, u - v)" : "%se × u", term->formula);
        return;
    }
    for (int i = 0; i < season->block_count; i++) {
        const struct tc_tariff_block *block = &season->block[i];
        bool last = i + 1 == season->block_count, here = !tc_tariff_beyond(units, block->limit);
        char symbol[16], limit[16], from[32], up_to[32];
        snprintf(symbol, sizeof symbol, "r%d", i + 1);
        snprintf(limit, sizeof limit, "l%d", i + 1);
        block_units(i, last, covers, up_to, from);
        if (block->everything) {
            if (!here)
                continue;
            term->formula =
                tc_sheet_format(derive->sheet, covers ? "%s(%s%s) × max(0, u - v)" : "%s(%s%s) × u",
                                term->formula, every, symbol);
        } else {
            term->formula = tc_sheet_format(derive->sheet, "%s%s(%s%s) × max(0, %s%s)", term->formula,
                                            i > 0 ? " + " : "", every, symbol, up_to, from);
        }
        tc_term_add(derive->sheet, term,
                    rate(m, symbol, tc_sheet_format(derive->sheet, "rate of block %d", i + 1), block->rate,
                         "blocks", true));
        if (!block->everything && !last)
            tc_term_add(derive->sheet, term,
                        tc_term_leaf(derive->sheet, limit,
                                     tc_sheet_format(derive->sheet, "block %d ends at", i + 1), block->limit,
                                     tc_meter_unit(m), source(m, "blocks", true)));
        if (block->everything)
            return;
    }
}

/* A month's bill for so many units, whose hours cost so much. */
const struct tc_term *tc_meter_bill(const struct tc_meter *m, const char *symbol, const char *words,
                                    const struct tc_term *units, const struct tc_term *hours, double value)
{
    struct tc_derive *derive = m->derive;
    const struct tc_tariff_season *season = &m->tariff->season[m->season];
    struct tc_term *term =
        tc_term_computed(derive->sheet, symbol, words, "", value, derive->study->region.currency.code);
    if (!term || !units)
        return NULL;
    tc_derive_add(derive, term, units, m->name[0] ? tax(m) : END, END);
    add_blocks(m, term, units->value);
    bool covers = season->minimum_covers > 0, least = season->minimum > 0 && !covers;
    if (m->name[0]) /* a flat price holds all taxes */
        term->formula =
            tc_sheet_format(derive->sheet, "(1 + t) × (%s%s)", covers ? "m + " : "", term->formula);
    if (hours) {
        term->formula = tc_sheet_format(derive->sheet, "%s + H", term->formula);
        tc_term_add(derive->sheet, term, tc_term_called(derive->sheet, hours, "H", "what its hours cost"));
    }
    if (least)
        term->formula = tc_sheet_format(derive->sheet, "max((1 + t) × m, %s)", term->formula);
    if (covers || least)
        tc_term_add(derive->sheet, term,
                    tc_term_leaf(derive->sheet, "m", "minimum charge", season->minimum,
                                 derive->study->region.currency.code, source(m, "minimum", true)));
    if (covers)
        tc_term_add(derive->sheet, term,
                    tc_term_leaf(derive->sheet, "v", "units it pays for", season->minimum_covers,
                                 tc_meter_unit(m), source(m, "covers", true)));
    return term;
}

/* -------------------------------------------------------------------- who uses what */

/* Units of a consumer or use in the month. */
const struct tc_term *tc_meter_used(const struct tc_meter *m, int i)
{
    const struct tc_term *term = m->energy ? tc_derive_energy(m->derive, (enum tc_consumer)i, m->month)
                                           : tc_derive_water(m->derive, i, m->month);
    return term && term->value > 0
               ? tc_term_called(m->derive->sheet, term, tc_sheet_format(m->derive->sheet, "u%d", i + 1),
                                term->words)
               : NULL;
}

/* The units of the tank, all together, under the symbol U. */
static const struct tc_term *all_units_anew(const struct tc_meter *m)
{
    double sum = 0;
    struct tc_term *term = tc_term_computed(m->derive->sheet, "U", "what the tanks use in the month", "sum",
                                            0, tc_meter_unit(m));
    for (int i = 0; i < m->count; i++) {
        const struct tc_term *part = tc_meter_used(m, i);
        sum += part ? part->value : 0;
        tc_term_add(m->derive->sheet, term, part);
    }
    if (term)
        term->value = sum;
    return term;
}

const struct tc_term *tc_meter_all_used(const struct tc_meter *m)
{
    const struct tc_term *known = tc_derive_known(m->derive, &units_mark, m->month, m->energy);
    return known ? known : tc_derive_keep(m->derive, &units_mark, m->month, m->energy, all_units_anew(m));
}

/* Whether a consumer uses the same in each hour. */
static bool is_steady(const struct tc_meter *m, enum tc_consumer consumer)
{
    switch (consumer) {
    case TC_CONSUMER_FILTER:
    case TC_CONSUMER_AIR_PUMP: return true;
    case TC_CONSUMER_NEW_WATER: return m->derive->study->region.fresh_mixed;
    case TC_CONSUMER_HEATER:
    case TC_CONSUMER_LIGHT:
    case TC_CONSUMER_COUNT: break;
    }
    return false;
}

/* What a consumer's hours follow from, where they are not all the same. */
static void add_inputs(const struct tc_meter *m, enum tc_consumer consumer, struct tc_term *term)
{
    struct tc_derive *derive = m->derive;
    const struct tc_setup *setup = derive->alternative->c.setup;
    switch (consumer) {
    case TC_CONSUMER_LIGHT:
        tc_derive_add(
            derive, term,
            tc_derive_setup_key(derive, "Hs", "light from", setup->light_start, "h", "light-start"),
            tc_derive_setup_key(derive, "H", "hours of light a day", setup->light_hours, "h", "light-hours"),
            tc_derive_pieces(derive, TC_SLOT_LIGHT), END);
        break;
    case TC_CONSUMER_HEATER:
    case TC_CONSUMER_NEW_WATER: tc_derive_heat_inputs(derive, term, m->month); break;
    case TC_CONSUMER_FILTER:
    case TC_CONSUMER_AIR_PUMP:
    case TC_CONSUMER_COUNT: break;
    }
}

/* What a consumer uses in one hour of the day over the month. */
static const struct tc_term *hour_use(const struct tc_meter *m, int i, int hour)
{
    struct tc_derive *derive = m->derive;
    double value = derive->cost->running.energy[i].use[m->month][hour];
    struct tc_term *term;
    if (is_steady(m, (enum tc_consumer)i)) {
        term = tc_term_computed(derive->sheet, "x", "used in it", "y / 24", value, "kWh");
        tc_term_add(derive->sheet, term,
                    tc_term_called(derive->sheet, tc_meter_used(m, i), "y", "used in the month"));
        return term;
    }
    term = tc_term_leaf(derive->sheet, "x", "used in it", value, "kWh",
                        (struct tc_source){TC_TERM_SIMULATED, "hour by hour"});
    if (derive->line) {
        tc_term_add(derive->sheet, term,
                    tc_term_called(derive->sheet, tc_meter_used(m, i), "y", "used in the month"));
        return term;
    }
    add_inputs(m, (enum tc_consumer)i, term);
    return term;
}

/* What the hours of a consumer cost; NULL where the month has no rates by the hour. */
const struct tc_term *tc_meter_hours(const struct tc_meter *m, int i)
{
    struct tc_derive *derive = m->derive;
    if (!m->energy || !m->margin->by_hour[m->month] || !tc_meter_used(m, i))
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &hours_mark, m->month, i);
    if (known)
        return known;
    struct tc_term *term = tc_term_computed(
        derive->sheet, tc_sheet_format(derive->sheet, "H%d", i + 1),
        tc_sheet_format(derive->sheet, "what the hours of %s cost", tc_consumer_name((enum tc_consumer)i)),
        "sum", 0, tc_derive_code(derive));
    for (int hour = 0; term && hour < TC_HOURS; hour++) {
        const struct tc_term *price = hour_rate(m, hour), *use = hour_use(m, i, hour);
        if (!price || !use)
            return NULL;
        struct tc_term *one = tc_term_computed(derive->sheet, tc_sheet_format(derive->sheet, "h%d", hour),
                                               tc_sheet_format(derive->sheet, "from %d:00", hour), "r × x",
                                               price->value * use->value, tc_derive_code(derive));
        tc_derive_add(derive, one, price, use, END);
        tc_term_add(derive->sheet, term, one);
        term->value += price->value * use->value;
    }
    return tc_derive_keep(derive, &hours_mark, m->month, i, term);
}

/* All hours of the tanks together; NULL where hours cost nothing. */
static const struct tc_term *all_hours_anew(const struct tc_meter *m)
{
    if (!m->energy || !m->margin->by_hour[m->month])
        return NULL;
    struct tc_term *term = tc_term_computed(m->derive->sheet, "H", "what the tanks' hours cost", "sum", 0,
                                            tc_derive_code(m->derive));
    for (int i = 0; term && i < m->count; i++) {
        const struct tc_term *part = tc_meter_hours(m, i);
        tc_term_add(m->derive->sheet, term, part);
        term->value += part ? part->value : 0;
    }
    return term;
}

const struct tc_term *tc_meter_all_hours(const struct tc_meter *m)
{
    const struct tc_term *known = tc_derive_known(m->derive, &all_hours_mark, m->month, m->energy);
    return known ? known : tc_derive_keep(m->derive, &all_hours_mark, m->month, m->energy, all_hours_anew(m));
}

/* ------------------------------------------------------------------- the household */

/* The household itself, without other tanks. */
static const struct tc_term *household(const struct tc_meter *m, const char *symbol)
{
    const struct tc_region *region = &m->derive->study->region;
    if (!m->energy)
        return tc_derive_region_key(m->derive, symbol, "the household's own water", region->household_water,
                                    "m³", "household-water");
    return tc_derive_region_key(m->derive, symbol, "the household's own electricity",
                                region->household_energy / 3.6e6, "kWh", "household-energy");
}

static const struct tc_term *own_units_anew(const struct tc_meter *m)
{
    struct tc_derive *derive = m->derive;
    if (!derive->before)
        return household(m, "u");
    struct tc_term *term =
        tc_term_computed(derive->sheet, "u", "used by the household and tanks billed first", "sum",
                         m->margin->own_units[m->month], tc_meter_unit(m));
    tc_term_add(derive->sheet, term, household(m, "u0"));
    int number = 0;
    for (struct tc_derive *before = derive->before; before; before = before->before) {
        struct tc_meter other = tc_meter_of(before, m->energy, m->month);
        const struct tc_term *used = tc_meter_all_used(&other);
        tc_term_add(derive->sheet, term,
                    tc_term_called(derive->sheet, used, tc_sheet_format(derive->sheet, "U%d", ++number),
                                   before->alternative->head));
    }
    return term;
}

const struct tc_term *tc_meter_own_units(const struct tc_meter *m)
{
    const struct tc_term *known = tc_derive_known(m->derive, &own_units_mark, m->month, m->energy);
    return known ? known : tc_derive_keep(m->derive, &own_units_mark, m->month, m->energy, own_units_anew(m));
}

const struct tc_term *tc_meter_even_hours(const struct tc_meter *m, const char *words,
                                          const struct tc_term *units, double value)
{
    struct tc_derive *derive = m->derive;
    if (!m->margin->by_hour[m->month])
        return NULL;
    struct tc_term *sum = tc_term_computed(derive->sheet, "S", "the rates of the day's hours", "sum",
                                           m->margin->mean_rate[m->month] * TC_HOURS / m->scale,
                                           tc_derive_rate_unit(derive, tc_meter_unit(m)));
    for (int hour = 0; hour < TC_HOURS; hour++)
        tc_term_add(derive->sheet, sum,
                    tc_term_called(derive->sheet, hour_rate(m, hour),
                                   tc_sheet_format(derive->sheet, "r%d", hour),
                                   tc_sheet_format(derive->sheet, "from %d:00", hour)));
    struct tc_term *term =
        tc_term_computed(derive->sheet, "H", words, "u × S / 24", value, tc_derive_code(derive));
    tc_derive_add(derive, term, units, sum, END);
    return term;
}

static const struct tc_term *own_hours_anew(const struct tc_meter *m)
{
    struct tc_derive *derive = m->derive;
    if (!m->margin->by_hour[m->month])
        return NULL;
    double all = m->margin->own_hours[m->month] / m->scale, alone = all;
    struct tc_term *sum =
        tc_term_computed(derive->sheet, "H", "what the hours of the household and tanks billed first cost",
                         "sum", all, tc_derive_code(derive));
    int number = 0;
    for (struct tc_derive *before = derive->before; sum && before; before = before->before) {
        struct tc_meter other = tc_meter_of(before, m->energy, m->month);
        const struct tc_term *hours = tc_meter_all_hours(&other);
        alone -= hours ? hours->value : 0;
        tc_term_add(derive->sheet, sum,
                    tc_term_called(derive->sheet, hours, tc_sheet_format(derive->sheet, "H%d", ++number),
                                   before->alternative->head));
    }
    const struct tc_term *own =
        tc_meter_even_hours(m, "what the household's own hours cost, used evenly", household(m, "u"), alone);
    if (!derive->before)
        return own;
    tc_term_add(derive->sheet, sum, tc_term_called(derive->sheet, own, "H0", "the household"));
    return sum;
}

const struct tc_term *tc_meter_own_hours(const struct tc_meter *m)
{
    const struct tc_term *known = tc_derive_known(m->derive, &own_hours_mark, m->month, m->energy);
    return known ? known : tc_derive_keep(m->derive, &own_hours_mark, m->month, m->energy, own_hours_anew(m));
}
