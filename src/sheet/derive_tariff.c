/* SPDX-License-Identifier: MIT */
#include "sheet/derive_tariff.h"

#include <stdio.h>

#include "sheet/derive_meter.h"
#include "sheet/derive_tank.h"
#include "sheet/derive_use.h"
#include "sheet/phrase.h"

#define END ((const struct tc_term *)NULL)

static const char month_mark, hours_mark, share_mark, added_mark, part_mark, units_mark, all_hours_mark;

enum { HOURS_SHOWN = TC_HOURS };

/* -------------------------------------------------------------------- who uses what */

/* Units of a consumer or use in the month. */
static const struct tc_term *units_of(const struct tc_meter *m, int i)
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
        const struct tc_term *part = units_of(m, i);
        sum += part ? part->value : 0;
        tc_term_add(m->derive->sheet, term, part);
    }
    if (term)
        term->value = sum;
    return term;
}

static const struct tc_term *all_units(const struct tc_meter *m)
{
    const struct tc_term *known = tc_derive_known(m->derive, &units_mark, m->month, m->energy);
    return known ? known : tc_derive_keep(m->derive, &units_mark, m->month, m->energy, all_units_anew(m));
}

/* What a consumer uses in one hour of the day over the month. */
static const struct tc_term *hour_use(const struct tc_meter *m, int i, int hour)
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
static const struct tc_term *hours_of(const struct tc_meter *m, int i)
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
        const struct tc_term *price = tc_meter_hour_rate(m, hour), *use = hour_use(m, i, hour);
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

/* ------------------------------------------------------------------- what a tank adds */

/* All hours of the tanks together; NULL where hours cost nothing. */
static const struct tc_term *all_hours_anew(const struct tc_meter *m)
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

static const struct tc_term *all_hours(const struct tc_meter *m)
{
    const struct tc_term *known = tc_derive_known(m->derive, &all_hours_mark, m->month, m->energy);
    return known ? known : tc_derive_keep(m->derive, &all_hours_mark, m->month, m->energy, all_hours_anew(m));
}

/* What the month adds to the household's bill, not rounded. */
static const struct tc_term *added(const struct tc_meter *m)
{
    struct tc_derive *derive = m->derive;
    const struct tc_term *known = tc_derive_known(derive, &month_mark, m->month, m->energy);
    if (known)
        return known;
    const char *code = tc_derive_code(derive);
    double before = m->margin->own_bill[m->month], more = m->total->exact_month[m->month];
    const struct tc_term *own = tc_meter_own_units(m), *all = all_units(m), *hours = all_hours(m),
                         *house = tc_meter_own_hours(m);
    if (!own || !all)
        return NULL;
    struct tc_term *both = tc_term_computed(derive->sheet, "u", "used with the tanks", "u0 + U",
                                            own->value + all->value, tc_meter_unit(m));
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
    tc_derive_add(derive, term,
                  tc_meter_bill(m, "B1", "bill with the tanks", both, with, (before + more) / m->scale),
                  tc_meter_bill(m, "B0", "bill without them", own, house, before / m->scale), END);
    return tc_derive_keep(derive, &month_mark, m->month, m->energy, term);
}

static const struct tc_term *tc_derive_added_anew(struct tc_derive *derive, bool energy, int month)
{
    if (!derive)
        return NULL;
    struct tc_meter m = tc_meter_of(derive, energy, month);
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
static const struct tc_term *share_anew(const struct tc_meter *m, int i)
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

static const struct tc_term *share(const struct tc_meter *m, int i)
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
    struct tc_meter m = tc_meter_of(derive, energy, month);
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
