/* SPDX-License-Identifier: MIT */
#include "sheet/derive_tariff.h"

#include <math.h>
#include <stdio.h>

#include "sheet/derive_tank.h"
#include "sheet/derive_use.h"
#include "sheet/phrase.h"

#define END ((const struct tc_term *)NULL)

static const char month_mark, hour_mark, hours_mark, share_mark, added_mark, part_mark, units_mark,
    all_hours_mark, own_hours_mark;

enum { HOURS_SHOWN = TC_HOURS };

/* What is billed: electricity to its consumers, or water to its uses. */
struct meter {
    struct tc_derive *derive;
    bool energy;
    int month, season;                     /* of the tariff, from 0 */
    const struct tc_tariff *tariff;        /* major units */
    const struct tc_tariff_margin *margin; /* minor units */
    const struct tc_tariff_cost *total, *parts;
    const char *name; /* of the tariff; "" where the region has a flat price */
    double scale;
    int count;
};

static struct meter meter_of(struct tc_derive *derive, bool energy, int month)
{
    const struct tc_study *study = derive->study;
    struct meter m = {.derive = derive,
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

static const char *unit_of(const struct meter *m)
{
    return m->energy ? "kWh" : "m³";
}

/* ------------------------------------------------------------------------ the rates */

/* A key of the tariff, of the month's season where it is written for that alone. */
static struct tc_source source(const struct meter *m, const char *key, bool by_season)
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

static const struct tc_term *rate(const struct meter *m, const char *symbol, const char *words, double value,
                                  const char *key, bool by_season)
{
    return tc_term_leaf(m->derive->sheet, symbol, words, value, tc_derive_rate_unit(m->derive, unit_of(m)),
                        source(m, key, by_season));
}

static const struct tc_term *tax(const struct meter *m)
{
    return tc_term_leaf(m->derive->sheet, "t", "tax on the bill", m->tariff->tax, "",
                        source(m, "tax", false));
}

/* The mean rate of an hour over workdays and weekends, with tax. */
static const struct tc_term *hour_rate(const struct meter *m, int hour)
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
                         tc_derive_rate_unit(derive, unit_of(m)));
    tc_derive_add(
        derive, term, tax(m),
        tc_term_leaf(derive->sheet, "w", "share of workdays", m->tariff->workday_share[m->month], "",
                     source(m, "workdays", false)),
        rate(m, "a", "on workdays", season->hour[TC_WORKDAY][hour], both ? "hours" : "workday", true),
        rate(m, "b", "on weekends", season->hour[TC_WEEKEND][hour], ends ? "hours" : "weekend", true), END);
    return tc_derive_keep(derive, &hour_mark, m->season * 2 + m->energy, m->month * TC_HOURS + hour, term);
}

/* ------------------------------------------------------------------------ the bill */

/* The rates by blocks beyond what a minimum covers, one behind the other, and their leaves. */
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

static void add_blocks(const struct meter *m, struct tc_term *term, double units)
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
                                     unit_of(m), source(m, "blocks", true)));
        if (block->everything)
            return;
    }
}

/* A month's bill for so many units, whose hours cost so much. */
static const struct tc_term *bill(const struct meter *m, const char *symbol, const char *words,
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
                    tc_term_leaf(derive->sheet, "v", "units it pays for", season->minimum_covers, unit_of(m),
                                 source(m, "covers", true)));
    return term;
}

/* -------------------------------------------------------------------- who uses what */

/* Units of a consumer or use in the month. */
static const struct tc_term *units_of(const struct meter *m, int i)
{
    const struct tc_term *term = m->energy ? tc_derive_energy(m->derive, (enum tc_consumer)i, m->month)
                                           : tc_derive_water(m->derive, i, m->month);
    return term && term->value > 0
               ? tc_term_called(m->derive->sheet, term, tc_sheet_format(m->derive->sheet, "u%d", i + 1),
                                term->words)
               : NULL;
}

static const struct tc_term *own_units(const struct meter *m)
{
    const struct tc_region *region = &m->derive->study->region;
    if (!m->energy)
        return tc_derive_region_key(m->derive, "u", "the household's own water", region->household_water,
                                    "m³", "household-water");
    return tc_derive_region_key(m->derive, "u", "the household's own electricity",
                                region->household_energy / 3.6e6, "kWh", "household-energy");
}

/* The units of the tank, all together, under the symbol U. */
static const struct tc_term *all_units_anew(const struct meter *m)
{
    double sum = 0;
    struct tc_term *term =
        tc_term_computed(m->derive->sheet, "U", "what the tanks use in the month", "sum", 0, unit_of(m));
    for (int i = 0; i < m->count; i++) {
        const struct tc_term *part = units_of(m, i);
        sum += part ? part->value : 0;
        tc_term_add(m->derive->sheet, term, part);
    }
    if (term)
        term->value = sum;
    return term;
}

static const struct tc_term *all_units(const struct meter *m)
{
    const struct tc_term *known = tc_derive_known(m->derive, &units_mark, m->month, m->energy);
    return known ? known : tc_derive_keep(m->derive, &units_mark, m->month, m->energy, all_units_anew(m));
}

/* What a consumer uses in one hour of the day over the month. */
static const struct tc_term *hour_use(const struct meter *m, int i, int hour)
{
    struct tc_derive *derive = m->derive;
    double value = derive->cost->running.energy[i].use[m->month][hour];
    const struct tc_setup *setup = derive->alternative->c.setup;
    struct tc_term *term;
    if (i == TC_CONSUMER_FILTER || i == TC_CONSUMER_AIR_PUMP ||
        (i == TC_CONSUMER_NEW_WATER && derive->study->region.fresh_mixed)) {
        term = tc_term_computed(derive->sheet, "x", "used in it", "y / 24", value, "kWh");
        tc_term_add(derive->sheet, term,
                    tc_term_called(derive->sheet, units_of(m, i), "y", "used in the month"));
        return term;
    }
    term = tc_term_leaf(derive->sheet, "x", "used in it", value, "kWh",
                        (struct tc_source){TC_TERM_SIMULATED, "hour by hour"});
    if (i == TC_CONSUMER_LIGHT)
        tc_derive_add(
            derive, term,
            tc_derive_setup_key(derive, "Hs", "light from", setup->light_start, "h", "light-start"),
            tc_derive_setup_key(derive, "H", "hours of light a day", setup->light_hours, "h", "light-hours"),
            tc_derive_pieces(derive, TC_SLOT_LIGHT), END);
    else
        tc_derive_heat_inputs(derive, term, m->month);
    return term;
}

/* What the hours of a consumer cost; NULL where the month has no rates by the hour. */
static const struct tc_term *hours_of(const struct meter *m, int i)
{
    struct tc_derive *derive = m->derive;
    if (!m->energy || !m->margin->by_hour[m->month] || !units_of(m, i))
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &hours_mark, m->month, i);
    if (known)
        return known;
    struct tc_term *term = tc_term_computed(
        derive->sheet, tc_sheet_format(derive->sheet, "H%d", i + 1),
        tc_sheet_format(derive->sheet, "what the hours of %s cost", tc_consumer_name((enum tc_consumer)i)),
        "sum", 0, derive->study->region.currency.code);
    for (int hour = 0; term && hour < HOURS_SHOWN; hour++) {
        const struct tc_term *price = hour_rate(m, hour), *use = hour_use(m, i, hour);
        if (!price || !use)
            return NULL;
        struct tc_term *one =
            tc_term_computed(derive->sheet, tc_sheet_format(derive->sheet, "h%d", hour),
                             tc_sheet_format(derive->sheet, "from %d:00", hour), "r × x",
                             price->value * use->value, derive->study->region.currency.code);
        tc_derive_add(derive, one, price, use, END);
        tc_term_add(derive->sheet, term, one);
        term->value += price->value * use->value;
    }
    return tc_derive_keep(derive, &hours_mark, m->month, i, term);
}

static const struct tc_term *own_hours_anew(const struct meter *m)
{
    struct tc_derive *derive = m->derive;
    if (!m->margin->by_hour[m->month])
        return NULL;
    struct tc_term *sum = tc_term_computed(derive->sheet, "S", "the rates of the day's hours", "sum",
                                           m->margin->mean_rate[m->month] * TC_HOURS / m->scale,
                                           tc_derive_rate_unit(derive, unit_of(m)));
    for (int hour = 0; hour < TC_HOURS; hour++)
        tc_term_add(derive->sheet, sum,
                    tc_term_called(derive->sheet, hour_rate(m, hour),
                                   tc_sheet_format(derive->sheet, "r%d", hour),
                                   tc_sheet_format(derive->sheet, "from %d:00", hour)));
    struct tc_term *term =
        tc_term_computed(derive->sheet, "H", "what the household's own hours cost, used evenly", "u × S / 24",
                         m->margin->own_hours[m->month] / m->scale, derive->study->region.currency.code);
    tc_derive_add(derive, term, own_units(m), sum, END);
    return term;
}

static const struct tc_term *own_hours(const struct meter *m)
{
    const struct tc_term *known = tc_derive_known(m->derive, &own_hours_mark, m->month, m->energy);
    return known ? known : tc_derive_keep(m->derive, &own_hours_mark, m->month, m->energy, own_hours_anew(m));
}

/* ------------------------------------------------------------------- what a tank adds */

/* All hours of the tanks together; NULL where hours cost nothing. */
static const struct tc_term *all_hours_anew(const struct meter *m)
{
    if (!m->energy || !m->margin->by_hour[m->month])
        return NULL;
    struct tc_term *term = tc_term_computed(m->derive->sheet, "H", "what the tanks' hours cost", "sum", 0,
                                            m->derive->study->region.currency.code);
    for (int i = 0; term && i < m->count; i++) {
        const struct tc_term *part = hours_of(m, i);
        tc_term_add(m->derive->sheet, term, part);
        term->value += part ? part->value : 0;
    }
    return term;
}

static const struct tc_term *all_hours(const struct meter *m)
{
    const struct tc_term *known = tc_derive_known(m->derive, &all_hours_mark, m->month, m->energy);
    return known ? known : tc_derive_keep(m->derive, &all_hours_mark, m->month, m->energy, all_hours_anew(m));
}

/* What the month adds to the household's bill, not rounded. */
static const struct tc_term *added(const struct meter *m)
{
    struct tc_derive *derive = m->derive;
    const struct tc_term *known = tc_derive_known(derive, &month_mark, m->month, m->energy);
    if (known)
        return known;
    const char *code = tc_derive_code(derive);
    double before = m->margin->own_bill[m->month], more = m->total->exact_month[m->month];
    const struct tc_term *own = own_units(m), *all = all_units(m), *hours = all_hours(m),
                         *house = own_hours(m);
    if (!own || !all)
        return NULL;
    struct tc_term *both = tc_term_computed(derive->sheet, "u", "used with the tanks", "u0 + U",
                                            own->value + all->value, unit_of(m));
    tc_derive_add(derive, both, tc_term_called(derive->sheet, own, "u0", own->words), all, END);
    struct tc_term *with = NULL;
    if (hours && house) {
        with = tc_term_computed(derive->sheet, "H", "what all hours cost", "H0 + Ht",
                                house->value + hours->value, code);
        tc_derive_add(derive, with, tc_term_called(derive->sheet, house, "H0", house->words),
                      tc_term_called(derive->sheet, hours, "Ht", hours->words), END);
    }
    struct tc_term *term = tc_term_computed(
        derive->sheet, "A",
        tc_sheet_format(derive->sheet, "what %s adds to the bill", tc_phrase_month(m->month)), "B1 - B0",
        more / m->scale, code);
    tc_derive_add(derive, term, bill(m, "B1", "bill with the tanks", both, with, (before + more) / m->scale),
                  bill(m, "B0", "bill without them", own, house, before / m->scale), END);
    return tc_derive_keep(derive, &month_mark, m->month, m->energy, term);
}

static const struct tc_term *tc_derive_added_anew(struct tc_derive *derive, bool energy, int month)
{
    if (!derive)
        return NULL;
    struct meter m = meter_of(derive, energy, month);
    struct tc_term *term = tc_term_money(derive->sheet, "R", tc_phrase_month(month), "round(A)",
                                         m.total->month[month], derive->study->region.currency);
    tc_term_add(derive->sheet, term, added(&m));
    return term;
}

const struct tc_term *tc_derive_added(struct tc_derive *derive, bool energy, int month)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &added_mark, month, energy);
    return known ? known
                 : tc_derive_keep(derive, &added_mark, month, energy,
                                  tc_derive_added_anew(derive, energy, month));
}

/* Its part of what a month adds, before rounding. */
static const struct tc_term *share_anew(const struct meter *m, int i)
{
    struct tc_derive *derive = m->derive;
    const struct tc_term *units = units_of(m, i), *all = all_units(m), *hours = all_hours(m);
    double exact = m->parts[i].exact_month[m->month] / m->scale;
    if (!units || !all)
        return NULL;
    bool shrunk = hours && m->margin->curve[m->margin->season_of_month[m->month]].least > 0 &&
                  hours->value * m->scale > m->total->exact_month[m->month];
    const char *own = tc_sheet_format(derive->sheet, "H%d", i + 1);
    const char *formula = !hours ? tc_sheet_format(derive->sheet, "A × %s / U", units->symbol)
                          : shrunk
                              ? tc_sheet_format(derive->sheet, "A × %s / H", own)
                              : tc_sheet_format(derive->sheet, "%s + (A - H) × %s / U", own, units->symbol);
    struct tc_term *term = tc_term_computed(derive->sheet, tc_sheet_format(derive->sheet, "x%d", i + 1),
                                            tc_sheet_format(derive->sheet, "share of %s", units->words),
                                            formula, exact, derive->study->region.currency.code);
    tc_derive_add(derive, term, added(m), END);
    if (!shrunk)
        tc_derive_add(derive, term, units, all, END);
    if (hours)
        tc_derive_add(derive, term, hours_of(m, i), hours, END);
    return term;
}

static const struct tc_term *share(const struct meter *m, int i)
{
    const struct tc_term *known = tc_derive_known(m->derive, &part_mark, m->month * 2 + m->energy, i);
    return known ? known
                 : tc_derive_keep(m->derive, &part_mark, m->month * 2 + m->energy, i, share_anew(m, i));
}

const struct tc_term *tc_derive_borne(struct tc_derive *derive, bool energy, int part, int month)
{
    if (!derive)
        return NULL;
    int id = (part * TC_MONTHS + month) * 2 + energy;
    const struct tc_term *known = tc_derive_known(derive, &share_mark, id, 0);
    if (known)
        return known;
    struct meter m = meter_of(derive, energy, month);
    struct tc_term *term = tc_term_money(derive->sheet, tc_phrase_month(month), tc_phrase_month(month), "0",
                                         m.parts[part].month[month], derive->study->region.currency);
    const char *list = "";
    int place = 0, count = 0;
    if (!units_of(&m, part))
        return tc_derive_keep(derive, &share_mark, id, 0, term);
    tc_term_add(derive->sheet, term, tc_derive_added(derive, energy, month));
    for (int i = 0; term && i < m.count; i++) {
        const struct tc_term *one = share(&m, i);
        if (!one)
            continue;
        count++;
        if (i == part)
            place = count;
        list = tc_sheet_format(derive->sheet, "%s, %s", list, one->symbol);
        tc_term_add(derive->sheet, term, one);
    }
    if (term)
        term->formula = tc_sheet_format(derive->sheet, "part(R, %d%s)", place, list);
    return tc_derive_keep(derive, &share_mark, id, 0, term);
}
