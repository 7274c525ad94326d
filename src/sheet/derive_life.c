/* SPDX-License-Identifier: MIT */
#include "sheet/derive_life.h"

#include <math.h>

#include "sheet/derive_bill.h"
#include "sheet/derive_replaced.h"

#define END ((const struct tc_term *)NULL)

static const char line_mark, course_mark;

/* What so many years of a yearly amount are worth that rises by e; e NULL: it does not. */
static const struct tc_term *factor(struct tc_derive *derive, bool today, const char *symbol,
                                    const struct tc_term *rise)
{
    double d = today ? derive->study->plan.discount : 0, e = rise ? rise->value : 0,
           n = derive->study->plan.years;
    double q = (1 + e) / (1 + d), value = tc_escalated_present_value(d, e, n);
    bool plain = !(fabs(q - 1) > 1e-12);
    struct tc_term *term = tc_term_computed(derive->sheet, symbol,
                                            rise ? "years' worth of a yearly amount that rises"
                                                 : "years' worth of a yearly amount",
                                            plain ? "n" : "Q × (Q^n - 1) / (Q - 1)", value, "years");
    if (!plain) {
        struct tc_term *ratio = tc_term_computed(derive->sheet, "Q", "from one year to the next",
                                                 rise ? "(1 + e) / (1 + d)" : "1 / (1 + d)", q, "");
        tc_derive_add(derive, ratio, tc_derive_discounted(derive, today), rise, END);
        tc_derive_add(derive, term, ratio, END);
    }
    tc_derive_add(derive, term, tc_derive_years(derive), END);
    return term;
}

/* The lines of a year whose indices run from a to b, under one symbol. */
static const struct tc_term *yearly(struct tc_derive *derive, const char *symbol, const char *words, int a,
                                    int b)
{
    enum tc_status status = TC_OK;
    tc_money sum = 0;
    struct tc_term *term =
        tc_term_money(derive->sheet, symbol, words, "sum", 0, derive->study->region.currency);
    for (int i = a; i <= b; i++) {
        sum = tc_money_add(sum, derive->cost->run[i], &status);
        if (derive->cost->run[i] != 0)
            tc_term_add(derive->sheet, term, tc_derive_run(derive, i));
    }
    if (term)
        term->value = (double)sum / tc_derive_scale(derive);
    return term;
}

/* ------------------------------------------------------------- lines of the period */

static const struct tc_term *escalation(struct tc_derive *derive, bool water)
{
    const struct tc_region *region = &derive->study->region;
    return tc_derive_region_key(derive, "e", "rises so much faster than all prices, a year",
                                water ? region->water_escalation : region->electricity_escalation, "",
                                water ? "water-escalation" : "electricity-escalation");
}

/* The yearly extras, each with its own escalation, not rounded. */
static const struct tc_term *extras(struct tc_derive *derive, bool today)
{
    const struct tc_case *c = &derive->alternative->c;
    struct tc_term *all =
        tc_term_computed(derive->sheet, "Z", "yearly extras", "sum", 0, tc_derive_code(derive));
    for (int i = 0; all && i < c->due_count; i++) {
        if (c->due[i].once || tc_derive_extra_apart(derive, i))
            continue;
        const struct tc_term *rise = tc_term_leaf(
            derive->sheet, "e", "rises so much faster than all prices, a year", c->due[i].escalation, "",
            tc_source_item(derive->sheet, derive->study, "extra", derive->study->extras[i]->name,
                           "escalation"));
        const struct tc_term *years = factor(derive, today, "F", rise);
        const struct tc_term *amount = tc_derive_extra(derive, i);
        if (!rise || !years || !amount)
            return NULL;
        struct tc_term *one = tc_term_computed(derive->sheet, tc_sheet_format(derive->sheet, "z%d", i + 1),
                                               derive->study->extras[i]->title,
                                               tc_sheet_format(derive->sheet, "%s × F", amount->symbol),
                                               amount->value * years->value, tc_derive_code(derive));
        tc_derive_add(derive, one, amount, years, END);
        tc_term_add(derive->sheet, all, one);
        all->value += amount->value * years->value;
    }
    return all;
}

static const struct tc_term *made(struct tc_derive *derive, int index, bool today)
{
    const tc_money *money = today ? derive->cost->present : derive->cost->paid;
    static const struct {
        const char *words, *formula; /* "": names a line of the year by its symbol */
    } lines[TC_LIFE_COUNT] = {
        [TC_LIFE_PURCHASE] = {"bought at the start", "I"},
        [TC_LIFE_ENERGY] = {"energy", "round(E × F)"},
        [TC_LIFE_WATER] = {"water", "round(W × F + C × U)"},
        [TC_LIFE_SUPPLIES] = {"supplies", ""},
        [TC_LIFE_UPKEEP] = {"your time", ""},
        [TC_LIFE_EXTRAS] = {"extras", "round(Z)"},
        [TC_LIFE_REPLACEMENTS] = {"replacements", "round(R)"},
        [TC_LIFE_RESALE] = {"less resale", "round(-V / (1 + d)^n)"},
    };
    int run = index == TC_LIFE_SUPPLIES ? TC_RUN_SUPPLIES : TC_RUN_UPKEEP;
    struct tc_term *term =
        tc_term_money(derive->sheet, tc_sheet_format(derive->sheet, "X%d", index + 1), lines[index].words,
                      lines[index].formula, money[index], derive->study->region.currency);
    switch (index) {
    case TC_LIFE_PURCHASE: tc_derive_add(derive, term, tc_derive_to_buy(derive), END); break;
    case TC_LIFE_ENERGY:
        tc_derive_add(derive, term, yearly(derive, "E", "energy of a year", TC_RUN_ENERGY, TC_RUN_ROOM_HEAT),
                      factor(derive, today, "F", escalation(derive, false)), END);
        break;
    case TC_LIFE_WATER:
        tc_derive_add(derive, term, yearly(derive, "W", "water of a year", TC_RUN_CHANGES, TC_RUN_MAKE_UP),
                      factor(derive, today, "F", escalation(derive, true)),
                      tc_term_called(derive->sheet, tc_derive_run(derive, TC_RUN_CONDITIONER), "C",
                                     "conditioner of a year"),
                      factor(derive, today, "U", NULL), END);
        break;
    case TC_LIFE_SUPPLIES:
    case TC_LIFE_UPKEEP:
        if (term)
            term->formula =
                tc_sheet_format(derive->sheet, "round(%s × U)", tc_derive_line_symbol(derive, 'Y', run));
        tc_derive_add(derive, term, tc_derive_run(derive, run), factor(derive, today, "U", NULL), END);
        break;
    case TC_LIFE_EXTRAS: tc_derive_add(derive, term, extras(derive, today), END); break;
    case TC_LIFE_REPLACEMENTS: tc_derive_add(derive, term, tc_derive_replaced(derive, today), END); break;
    case TC_LIFE_RESALE:
        tc_derive_add(derive, term, tc_derive_resold(derive), tc_derive_discounted(derive, today),
                      tc_derive_years(derive), END);
        break;
    default: break;
    }
    return term;
}

static const struct tc_term *life_line(struct tc_derive *derive, int index, bool today)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &line_mark, index, today);
    if (known)
        return known;
    const struct tc_term *other = tc_derive_otherwise(derive, today ? TC_LINE_PRESENT : TC_LINE_PAID, index);
    return tc_derive_keep(derive, &line_mark, index, today, other ? other : made(derive, index, today));
}

const struct tc_term *tc_derive_paid(struct tc_derive *derive, int index)
{
    return life_line(derive, index, false);
}

const struct tc_term *tc_derive_present(struct tc_derive *derive, int index)
{
    return life_line(derive, index, true);
}

static const struct tc_term *life_sum(struct tc_derive *derive, bool today)
{
    if (!derive)
        return NULL;
    struct tc_term *term = tc_term_money(derive->sheet, "P", today ? "to own, in today's money" : "as paid",
                                         "sum", today ? derive->cost->present_value : derive->cost->as_paid,
                                         derive->study->region.currency);
    for (int i = 0; i < TC_LIFE_COUNT; i++)
        if ((today ? derive->cost->present : derive->cost->paid)[i] != 0)
            tc_term_add(derive->sheet, term, life_line(derive, i, today));
    return term;
}

const struct tc_term *tc_derive_as_paid(struct tc_derive *derive)
{
    return life_sum(derive, false);
}

const struct tc_term *tc_derive_present_value(struct tc_derive *derive)
{
    const struct tc_term *known = derive ? tc_derive_known(derive, &line_mark, -1, true) : NULL;
    return known || !derive ? known : tc_derive_keep(derive, &line_mark, -1, true, life_sum(derive, true));
}

const struct tc_term *tc_derive_annuity(struct tc_derive *derive)
{
    return derive ? factor(derive, true, "U", NULL) : NULL;
}

/* --------------------------------------------------------------------- year by year */

/* Adds a yearly amount that rises by e to the running costs of a year. */
static void add_running(struct tc_derive *derive, struct tc_term *sum, const char *symbol,
                        const struct tc_term *amount, const struct tc_term *rise, const struct tc_term *year,
                        bool today)
{
    double d = today ? derive->study->plan.discount : 0, e = rise ? rise->value : 0;
    if (!sum || !amount || !(fabs(amount->value) > 0))
        return;
    double value = amount->value * pow((1 + e) / (1 + d), year->value);
    struct tc_term *term =
        tc_term_computed(derive->sheet, symbol, amount->words,
                         rise ? "a × ((1 + e) / (1 + d))^y" : "a / (1 + d)^y", value, tc_derive_code(derive));
    tc_derive_add(derive, term, tc_term_called(derive->sheet, amount, "a", amount->words), rise ? rise : year,
                  END);
    if (rise)
        tc_derive_add(derive, term, year, END);
    tc_derive_add(derive, term, tc_derive_discounted(derive, today), END);
    tc_term_add(derive->sheet, sum, term);
    sum->value += value;
}

/* What running it costs in a year. */
static const struct tc_term *running_of(struct tc_derive *derive, int year, bool today)
{
    const struct tc_case *c = &derive->alternative->c;
    struct tc_term *sum =
        tc_term_computed(derive->sheet, "r", "running costs", "sum", 0, tc_derive_code(derive));
    const struct tc_term *y = tc_derive_model(derive, "y", "year", year, "years", "LIFE-CYCLE COST");
    if (!y)
        return NULL;
    add_running(derive, sum, "a", yearly(derive, "E", "energy of a year", TC_RUN_ENERGY, TC_RUN_ROOM_HEAT),
                escalation(derive, false), y, today);
    add_running(derive, sum, "b", yearly(derive, "W", "water of a year", TC_RUN_CHANGES, TC_RUN_MAKE_UP),
                escalation(derive, true), y, today);
    add_running(derive, sum, "c", tc_derive_run(derive, TC_RUN_CONDITIONER), NULL, y, today);
    add_running(derive, sum, "f", tc_derive_run(derive, TC_RUN_SUPPLIES), NULL, y, today);
    add_running(derive, sum, "h", tc_derive_run(derive, TC_RUN_UPKEEP), NULL, y, today);
    for (int i = 0; i < c->due_count; i++)
        if (!c->due[i].once && !tc_derive_extra_apart(derive, i))
            add_running(derive, sum, tc_sheet_format(derive->sheet, "z%d", i + 1), tc_derive_extra(derive, i),
                        tc_term_leaf(derive->sheet, "e", "rises so much faster than all prices, a year",
                                     c->due[i].escalation, "",
                                     tc_source_item(derive->sheet, derive->study, "extra",
                                                    derive->study->extras[i]->name, "escalation")),
                        y, today);
    return sum;
}

const struct tc_term *tc_derive_course(struct tc_derive *derive, int year, bool today)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &course_mark, year, today);
    if (known)
        return known;
    known = tc_derive_otherwise(derive, TC_LINE_COURSE, 2 * year + today);
    if (known)
        return tc_derive_keep(derive, &course_mark, year, today, known);
    struct tc_amount at[TC_YEARS_MAX + 1];
    tc_flow_cumulate(&derive->cost->flow, at);
    double value = (today ? at[year].present : at[year].paid) / tc_derive_scale(derive);
    const char *words = tc_sheet_format(derive->sheet, "paid up to the end of year %d, not rounded", year);
    struct tc_term *term = tc_term_computed(derive->sheet, "Z", words, year == 0 ? "I" : "Z + r + k", value,
                                            tc_derive_code(derive));
    if (year == 0)
        tc_derive_add(derive, term, tc_derive_to_buy(derive), END);
    else
        tc_derive_add(derive, term, tc_derive_course(derive, year - 1, today),
                      running_of(derive, year, today), tc_derive_replaced_in(derive, year, today), END);
    return tc_derive_keep(derive, &course_mark, year, today, term);
}

/* What the rounding of the bill's lines made over all years. */
static const struct tc_term *rounding(struct tc_derive *derive, bool today)
{
    int years = (int)derive->study->plan.years;
    const struct tc_term *total = life_sum(derive, today), *resold = life_line(derive, TC_LIFE_RESALE, today);
    const struct tc_term *end = tc_derive_course(derive, years, today);
    if (!total || !resold || !end)
        return NULL;
    struct tc_term *term =
        tc_term_computed(derive->sheet, "D", "what rounding made over all years", "P - V - Z",
                         total->value - resold->value - end->value, tc_derive_code(derive));
    tc_derive_add(derive, term, total, tc_term_called(derive->sheet, resold, "V", resold->words), end, END);
    return term;
}

const struct tc_term *tc_derive_by_year(struct tc_derive *derive, int year, bool today, tc_money money)
{
    if (!derive)
        return NULL;
    if (year == 0)
        return tc_derive_to_buy(derive);
    struct tc_term *term = tc_term_money(
        derive->sheet, "C", tc_sheet_format(derive->sheet, "paid up to the end of year %d", year),
        "round(Z + D × y / n)", money, derive->study->region.currency);
    tc_derive_add(derive, term, tc_derive_course(derive, year, today), rounding(derive, today),
                  tc_derive_model(derive, "y", "year", year, "years", "LIFE-CYCLE COST"),
                  tc_derive_years(derive), END);
    return term;
}

const struct tc_term *tc_derive_invested(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    const struct tc_term *other = tc_derive_otherwise(derive, TC_LINE_INVESTED, 0);
    if (other)
        return other;
    const struct tc_term *again = tc_derive_replaced(derive, true), *sold = tc_derive_resold(derive);
    if (!again || !sold)
        return NULL;
    double value =
        (double)derive->cost->to_buy / tc_derive_scale(derive) + again->value -
        sold->value * tc_single_present_value(derive->study->plan.discount, derive->study->plan.years);
    struct tc_term *term = tc_term_computed(derive->sheet, "x", "invested, present value, not rounded",
                                            "I + R - V / (1 + d)^n", value, tc_derive_code(derive));
    tc_derive_add(derive, term, tc_derive_to_buy(derive), again, sold, tc_derive_discounted(derive, true),
                  tc_derive_years(derive), END);
    return term;
}

const struct tc_term *tc_derive_running(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    const struct tc_term *other = tc_derive_otherwise(derive, TC_LINE_RUNNING, 0);
    if (other)
        return other;
    int years = (int)derive->study->plan.years;
    struct tc_term *term = tc_term_computed(derive->sheet, "s", "running it, present value, not rounded",
                                            "sum", 0, tc_derive_code(derive));
    for (int year = 1; term && year <= years; year++) {
        const struct tc_term *one = running_of(derive, year, true);
        if (!one)
            return NULL;
        tc_term_add(derive->sheet, term,
                    tc_term_called(derive->sheet, one, tc_sheet_format(derive->sheet, "y%d", year),
                                   tc_sheet_format(derive->sheet, "in year %d", year)));
        term->value += one->value;
    }
    return term;
}
