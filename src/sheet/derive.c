/* SPDX-License-Identifier: MIT */
#include "sheet/derive.h"

#include <math.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "sheet/phrase.h"

struct tc_derive *tc_derive_with(struct tc_sheet *sheet, const struct tc_study *study,
                                 const struct tc_alternative *alternative,
                                 const struct tc_equipment *equipment, const struct tc_prices *prices,
                                 const struct tc_cost *cost)
{
    if (!sheet->explained || !alternative->plan)
        return NULL;
    for (struct tc_derive *derive = sheet->derives; derive; derive = derive->next)
        if (derive->alternative == alternative && derive->cost == cost)
            return derive;
    if (alternative->index < 0 && alternative->layout)
        return study->derive ? study->derive(sheet, study, alternative) : NULL;
    struct tc_derive *derive = tc_derive_made_of(sheet, study, alternative, cost, NULL, NULL);
    if (!derive)
        return NULL;
    derive->equipment = equipment;
    derive->prices = prices;
    return derive;
}

struct tc_derive *tc_derive_made_of(struct tc_sheet *sheet, const struct tc_study *study,
                                    const struct tc_alternative *alternative, const struct tc_cost *cost,
                                    tc_derive_line *line, void *made_of)
{
    struct tc_derive *derive = sheet->explained ? tc_sheet_memory(sheet, 1, sizeof *derive) : NULL;
    if (!derive)
        return NULL;
    *derive = (struct tc_derive){.sheet = sheet,
                                 .study = study,
                                 .alternative = alternative,
                                 .equipment = &alternative->equipment,
                                 .prices = &alternative->prices,
                                 .cost = cost,
                                 .line = line,
                                 .made_of = made_of,
                                 .next = sheet->derives};
    sheet->derives = derive;
    return derive;
}

struct tc_derive *tc_derive_counted(struct tc_sheet *sheet, const struct tc_study *study,
                                    const struct tc_alternative *alternative, const char *counted)
{
    struct tc_derive *derive = tc_derive_of(sheet, study, alternative);
    if (derive)
        derive->counted = counted;
    return derive;
}

const struct tc_term *tc_derive_otherwise(struct tc_derive *derive, enum tc_derived_line part, int index)
{
    return derive->line ? derive->line(derive, part, index) : NULL;
}

struct tc_derive *tc_derive_of(struct tc_sheet *sheet, const struct tc_study *study,
                               const struct tc_alternative *alternative)
{
    return tc_derive_with(sheet, study, alternative, &alternative->equipment, &alternative->prices,
                          &alternative->cost);
}

void tc_derive_forget(struct tc_sheet *sheet)
{
    sheet->derives = NULL; /* they lie in the sheet's memory */
}

void tc_derive_put_more(struct tc_sheet *sheet, size_t column, const char *words, tc_money more,
                        const struct tc_term *a, const struct tc_term *b)
{
    if (!a || !b)
        return;
    struct tc_term *term = tc_term_money(sheet, "M", words, "a - b", more, a->currency);
    tc_term_add(sheet, term, tc_term_called(sheet, a, "a", a->words));
    tc_term_add(sheet, term, tc_term_called(sheet, b, "b", b->words));
    tc_term_put(sheet, column, term);
}

void tc_derive_put_ratio(struct tc_sheet *sheet, size_t column, const char *words, double value,
                         const char *unit, const struct tc_term *over, const struct tc_term *under)
{
    if (!over || !under)
        return;
    struct tc_term *term = tc_term_computed(sheet, "r", words, "a / b", value, unit);
    tc_term_add(sheet, term, tc_term_called(sheet, over, "a", over->words));
    tc_term_add(sheet, term, tc_term_called(sheet, under, "b", under->words));
    tc_term_put(sheet, column, term);
}

static size_t bucket(const void *what, int a, int b)
{
    uint64_t hash = (uint64_t)(uintptr_t)what * 31 + (uint64_t)a;
    return (size_t)((hash * 31 + (uint64_t)b) * 0x9E3779B97F4A7C15U >> 40) % TC_DERIVED_BUCKETS;
}

const struct tc_term *tc_derive_known(const struct tc_derive *derive, const void *what, int a, int b)
{
    for (const struct tc_derived *known = derive->known[bucket(what, a, b)]; known; known = known->next)
        if (known->what == what && known->a == a && known->b == b)
            return known->term;
    return NULL;
}

const struct tc_term *tc_derive_keep(struct tc_derive *derive, const void *what, int a, int b,
                                     const struct tc_term *term)
{
    struct tc_derived *known = term ? tc_sheet_memory(derive->sheet, 1, sizeof *known) : NULL;
    if (!known)
        return term;
    size_t at = bucket(what, a, b);
    *known = (struct tc_derived){what, a, b, term, derive->known[at]};
    derive->known[at] = known;
    return term;
}

void tc_derive_add(struct tc_derive *derive, struct tc_term *term, const struct tc_term *first, ...)
{
    va_list rest;
    va_start(rest, first);
    for (const struct tc_term *part = first; part; part = va_arg(rest, const struct tc_term *))
        tc_term_add(derive->sheet, term, part);
    va_end(rest);
}

/* -------------------------------------------------------------------------- leaves */

static const char *tank_path(struct tc_derive *derive, const char *key)
{
    return tc_sheet_format(derive->sheet, "candidate %d/%s", derive->alternative->index + 1, key);
}

const struct tc_term *tc_derive_candidate_key(struct tc_derive *derive, const char *symbol, const char *words,
                                              double value, const char *unit, const char *key)
{
    return tc_term_leaf(derive->sheet, symbol, words, value, unit,
                        tc_source_path(derive->sheet, derive->study, tank_path(derive, key)));
}

/* Whether the plan types a size of the tank over, so that its profile's is none. */
static bool size_typed(const struct tc_derive *derive, const char *key)
{
    const struct tc_candidate *plan = derive->alternative->plan;
    return (strcmp(key, "length") == 0 && !isnan(plan->length)) ||
           (strcmp(key, "width") == 0 && !isnan(plan->width)) ||
           (strcmp(key, "height") == 0 && !isnan(plan->height)) ||
           (strcmp(key, "glass") == 0 && !isnan(plan->glass)) ||
           (strcmp(key, "nominal") == 0 && !isnan(plan->nominal));
}

const struct tc_term *tc_derive_tank_key(struct tc_derive *derive, const char *symbol, const char *words,
                                         double value, const char *unit, const char *key)
{
    if (size_typed(derive, key))
        return tc_derive_candidate_key(derive, symbol, words, value, unit, key);
    return tc_term_leaf(
        derive->sheet, symbol, words, value, unit,
        tc_source_item(derive->sheet, derive->study, "tank", derive->alternative->c.tank.goods.name, key));
}

const struct tc_term *tc_derive_part_key(struct tc_derive *derive, enum tc_slot slot, const char *symbol,
                                         const char *words, double value, const char *unit, const char *key)
{
    const struct tc_part *part = derive->equipment->slot[slot].offer->part;
    char path[TC_NAME_SIZE];
    if (strcmp(part->goods.name, TC_UNNAMED) != 0)
        return tc_term_leaf(
            derive->sheet, symbol, words, value, unit,
            tc_source_item(derive->sheet, derive->study, tc_slot_name(slot), part->goods.name, key));
    bool typed = strcmp(key, "power") == 0 && !isnan(derive->alternative->plan->pin[slot].power);
    if (!typed)
        return tc_term_leaf(derive->sheet, symbol, words, value, unit,
                            tc_source_assumed("assumed of an unnamed part"));
    snprintf(path, sizeof path, "%s-%s", tc_slot_name(slot), key);
    return tc_derive_candidate_key(derive, symbol, words, value, unit, path);
}

const struct tc_term *tc_derive_setup_key(struct tc_derive *derive, const char *symbol, const char *words,
                                          double value, const char *unit, const char *key)
{
    return tc_term_leaf(derive->sheet, symbol, words, value, unit,
                        tc_source_setup(derive->sheet, derive->study, derive->alternative->c.setup, key));
}

const struct tc_term *tc_derive_region_key(struct tc_derive *derive, const char *symbol, const char *words,
                                           double value, const char *unit, const char *key)
{
    return tc_term_leaf(derive->sheet, symbol, words, value, unit,
                        tc_source_region(derive->sheet, derive->study, key));
}

const struct tc_term *tc_derive_plan_key(struct tc_derive *derive, const char *symbol, const char *words,
                                         double value, const char *unit, const char *key)
{
    return tc_term_leaf(
        derive->sheet, symbol, words, value, unit,
        tc_source_path(derive->sheet, derive->study, tc_sheet_format(derive->sheet, "plan/%s", key)));
}

const struct tc_term *tc_derive_model(struct tc_derive *derive, const char *symbol, const char *words,
                                      double value, const char *unit, const char *section)
{
    return tc_term_leaf(derive->sheet, symbol, words, value, unit, tc_source_model(derive->sheet, section));
}

const struct tc_term *tc_derive_quantity(struct tc_derive *derive)
{
    const struct tc_term *term = tc_derive_otherwise(derive, TC_LINE_QUANTITY, 0);
    if (term)
        return term;
    if (derive->counted) {
        struct tc_term *counted =
            tc_term_leaf(derive->sheet, "q", "tanks of this kind", derive->alternative->c.quantity, "",
                         (struct tc_source){TC_TERM_SIMULATED, derive->counted});
        tc_term_add(derive->sheet, counted, derive->counted_by);
        return counted;
    }
    return tc_derive_candidate_key(derive, "q", "tanks of this kind", derive->alternative->c.quantity, "",
                                   "quantity");
}

const char *tc_derive_rate_unit(struct tc_derive *derive, const char *of)
{
    return tc_sheet_format(derive->sheet, "%s/%s", derive->study->region.currency.code, of);
}

const struct tc_term *tc_derive_years(struct tc_derive *derive)
{
    return tc_derive_plan_key(derive, "n", "years of the study", derive->study->plan.years, "years", "years");
}

const struct tc_term *tc_derive_discount(struct tc_derive *derive)
{
    return tc_derive_plan_key(derive, "d", "discount rate, real", derive->study->plan.discount, "",
                              "discount");
}

const struct tc_term *tc_derive_tax(struct tc_derive *derive)
{
    const struct tc_region *region = &derive->study->region;
    if (region->tax_included)
        return tc_term_leaf(derive->sheet, "t", "sales tax the checkout adds: prices include it", 0, "",
                            tc_source_region(derive->sheet, derive->study, "tax"));
    if (derive->study->shop && derive->study->shop->seller == TC_SELLER_PRIVATE)
        return tc_term_leaf(derive->sheet, "t", "sales tax: a private seller adds none", 0, "",
                            tc_source_shop(derive->sheet, derive->study, derive->study->shop, "seller"));
    return tc_derive_region_key(derive, "t", "sales tax the checkout adds", region->sales_tax, "",
                                "sales-tax");
}

const char *tc_derive_code(const struct tc_derive *derive)
{
    return derive->study->region.currency.code;
}

double tc_derive_scale(const struct tc_derive *derive)
{
    return tc_currency_scale(derive->study->region.currency);
}

const char *tc_derive_line_symbol(struct tc_derive *derive, char letter, int index)
{
    return tc_sheet_format(derive->sheet, "%c%d", letter, index + 1);
}

struct tc_term *tc_derive_money_line(struct tc_derive *derive, char letter, int index, const char *words,
                                     const char *formula, tc_money money)
{
    return tc_term_money(derive->sheet, tc_derive_line_symbol(derive, letter, index), words, formula, money,
                         derive->study->region.currency);
}

const struct tc_term *tc_derive_discounted(struct tc_derive *derive, bool today)
{
    return today ? tc_derive_discount(derive)
                 : tc_derive_model(derive, "d", "as paid, nothing is discounted", 0, "", "LIFE-CYCLE COST");
}

void tc_derive_add_month(struct tc_derive *derive, struct tc_term *sum, const struct tc_term *part, int month)
{
    const char *name = tc_phrase_month(month);
    if (part)
        tc_term_add(derive->sheet, sum, tc_term_called(derive->sheet, part, name, name));
}
