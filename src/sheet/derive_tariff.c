/* SPDX-License-Identifier: MIT */
#include "sheet/derive_tariff.h"

#include "sheet/derive_meter.h"
#include "sheet/phrase.h"

#define END ((const struct tc_term *)NULL)

static const char month_mark, share_mark, added_mark, part_mark;

/* ------------------------------------------------------------------- what a tank adds */

/* What the month adds to the household's bill, not rounded. */
static const struct tc_term *added(const struct tc_meter *m)
{
    struct tc_derive *derive = m->derive;
    const struct tc_term *known = tc_derive_known(derive, &month_mark, m->month, m->energy);
    if (known)
        return known;
    const char *code = tc_derive_code(derive);
    double before = m->margin->own_bill[m->month], more = m->total->exact_month[m->month];
    const struct tc_term *own = tc_meter_own_units(m), *all = tc_meter_all_used(m),
                         *hours = tc_meter_all_hours(m), *house = tc_meter_own_hours(m);
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
    const struct tc_term *units = tc_meter_used(m, i), *all = tc_meter_all_used(m),
                         *hours = tc_meter_all_hours(m);
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
                                            formula, exact, tc_derive_code(derive));
    tc_derive_add(derive, term, added(m), END);
    if (!shrunk)
        tc_derive_add(derive, term, units, all, END);
    if (hours)
        tc_derive_add(derive, term, tc_meter_hours(m, i), hours, END);
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
    if (!tc_meter_used(&m, part))
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
