/* SPDX-License-Identifier: MIT */
#include "sheet/derive_life.h"

#include <math.h>
#include <stdio.h>

#include "sheet/derive_bill.h"
#include "sheet/derive_tank.h"
#include "sheet/phrase.h"

#define END ((const struct tc_term *)NULL)

static const char line_mark, left_mark, sum_mark, course_mark;

/* The discount rate, or that nothing is discounted. */
static const struct tc_term *rate(struct tc_derive *derive, bool today)
{
    return today ? tc_derive_discount(derive)
                 : tc_derive_model(derive, "d", "as paid, nothing is discounted", 0, "", "LIFE-CYCLE COST");
}

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
        tc_derive_add(derive, ratio, rate(derive, today), rise, END);
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

/* ---------------------------------------------------- what is replaced and sold */

/* The tank (slot -1) or what fills a slot. */
static struct tc_item_life life_of(const struct tc_derive *derive, int slot)
{
    const struct tc_case *c = &derive->alternative->c;
    return slot < 0 ? tc_cost_tank_life(c, derive->equipment, derive->prices)
                    : tc_cost_slot_life(c, derive->equipment, derive->prices, (enum tc_slot)slot);
}

static const char *name_of(int slot)
{
    return slot < 0 ? "tank" : tc_slot_name((enum tc_slot)slot);
}

/* A key of the tank's or part's profile that the plan may type over. */
static const struct tc_term *own_key(struct tc_derive *derive, int slot, const char *symbol,
                                     const char *words, double value, const char *unit, const char *key,
                                     bool typed)
{
    const char *path = slot < 0 ? key : tc_sheet_format(derive->sheet, "%s-%s", name_of(slot), key);
    if (typed)
        return tc_derive_candidate_key(derive, symbol, words, value, unit, path);
    return slot < 0 ? tc_derive_tank_key(derive, symbol, words, value, unit, key)
                    : tc_derive_part_key(derive, (enum tc_slot)slot, symbol, words, value, unit, key);
}

/* What the plan says of the first life and the resale of a thing; NAN: nothing. */
static double typed_life(const struct tc_derive *derive, int slot)
{
    return slot < 0 ? derive->prices->tank_life : derive->alternative->c.wish[slot].life;
}

static double typed_resale(const struct tc_derive *derive, int slot)
{
    return slot < 0 ? derive->prices->tank_resale : derive->alternative->c.wish[slot].resale;
}

static const struct tc_term *first_life(struct tc_derive *derive, int slot, const struct tc_item_life *life)
{
    return own_key(derive, slot, "f", "life of the first one", life->first_life, "years", "life",
                   !isnan(typed_life(derive, slot)) && life->first_life < life->life);
}

static const struct tc_term *full_life(struct tc_derive *derive, int slot, const struct tc_item_life *life)
{
    return own_key(derive, slot, "L", "life of a new one", life->life, "years", "life", false);
}

/* The price of all pieces, new: what a later one costs, or what one fetches when sold. */
static const struct tc_term *new_price(struct tc_derive *derive, int slot, double value, bool later)
{
    const struct tc_case *c = &derive->alternative->c;
    const char *words = later ? "price of new ones, before tax" : "price of new ones";
    const struct tc_term *count =
        slot < 0 ? tc_derive_quantity(derive) : tc_derive_pieces(derive, (enum tc_slot)slot);
    if (!count || count->value <= 0)
        return NULL;
    double each = value / count->value / tc_derive_scale(derive);
    const struct tc_term *price;
    if (slot < 0) {
        const struct tc_deal *deal = &derive->prices->deal;
        bool plain = fabs(each * tc_derive_scale(derive) - (double)deal->list) < 1e-9;
        price = !plain ? tc_term_leaf(derive->sheet, "p", "a new one, by what was paid", each,
                                      tc_derive_code(derive),
                                      tc_source_assumed("no list price: tankcost-model(7), LIFE-CYCLE COST"))
                : deal->listed
                    ? tc_term_leaf(derive->sheet, "p", "list price of one", each, tc_derive_code(derive),
                                   tc_source_price(derive->sheet, derive->study, -1, &c->tank.goods))
                    : tc_term_called(derive->sheet, tc_derive_tank_price(derive), "p",
                                     "as paid: there is no list price");
    } else {
        const struct tc_offer *offer = derive->equipment->slot[slot].offer;
        const struct tc_slot_wish *wish = &c->wish[slot];
        double units = each * tc_derive_scale(derive);
        if (!isnan(wish->next) && fabs(units - wish->next) < 1e-9)
            price =
                tc_derive_candidate_key(derive, "p", "what the next one costs", each, tc_derive_code(derive),
                                        tc_sheet_format(derive->sheet, "%s-next-price", name_of(slot)));
        else if (offer->priced && fabs(units - (double)offer->price) < 1e-9)
            price = tc_term_leaf(derive->sheet, "p", "price of one", each, tc_derive_code(derive),
                                 tc_source_price(derive->sheet, derive->study, slot, &offer->part->goods));
        else if (!isnan(wish->price) && fabs(units - wish->price) < 1e-9)
            price = tc_derive_piece_price(derive, (enum tc_slot)slot);
        else
            price =
                tc_term_leaf(derive->sheet, "p", "a new one, by what was paid", each, tc_derive_code(derive),
                             tc_source_assumed("no list price: tankcost-model(7), LIFE-CYCLE COST"));
    }
    struct tc_term *term =
        tc_term_computed(derive->sheet, "N", words, tc_sheet_format(derive->sheet, "%s × p", count->symbol),
                         value / tc_derive_scale(derive), tc_derive_code(derive));
    tc_derive_add(derive, term, count, price, END);
    return term;
}

/* Its k-th replacement. */
static const struct tc_term *replacement(struct tc_derive *derive, int slot, const struct tc_item_life *life,
                                         bool today, int k)
{
    double time = tc_item_replacement_time(life, k), d = today ? derive->study->plan.discount : 0;
    double tax = 1 + tc_region_added_tax(&derive->study->region);
    char number[TC_NUMBER_SIZE];
    struct tc_term *when = tc_term_computed(derive->sheet, "T", "years from the start",
                                            k == 0 ? "f" : "f + k × L", time, "years");
    tc_derive_add(derive, when, first_life(derive, slot, life), END);
    if (k > 0)
        tc_derive_add(derive, when,
                      tc_derive_model(derive, "k", "lives after the first", k, "", "LIFE-CYCLE COST"),
                      full_life(derive, slot, life), END);
    struct tc_term *term = tc_term_computed(
        derive->sheet, tc_sheet_format(derive->sheet, "r%d", k + 1),
        tc_sheet_format(derive->sheet, "after %s years", tc_number_write_short(number, time)),
        "N × (1 + t) / (1 + d)^T",
        life->replacement_price * tc_single_present_value(d, time) / tc_derive_scale(derive),
        tc_derive_code(derive));
    tc_derive_add(derive, term, new_price(derive, slot, life->replacement_price / tax, true),
                  tc_derive_tax(derive), END);
    tc_derive_add(derive, term, rate(derive, today), when, END);
    return term;
}

static const struct tc_term *replacements_anew(struct tc_derive *derive, bool today)
{
    int years = (int)derive->study->plan.years;
    double d = today ? derive->study->plan.discount : 0, sum = 0;
    struct tc_term *all =
        tc_term_computed(derive->sheet, "R", "all that is bought again", "sum", 0, tc_derive_code(derive));
    for (int slot = -1; slot < TC_SLOT_COUNT; slot++) {
        struct tc_item_life life = life_of(derive, slot);
        int count = tc_item_replacements(&life, years);
        if (count == 0 || !(life.replacement_price > 0))
            continue;
        double value = tc_item_replacements_value(&life, d, years);
        sum += value;
        struct tc_term *one =
            tc_term_computed(derive->sheet, tc_sheet_format(derive->sheet, "R%d", slot + 2), name_of(slot),
                             "sum", value / tc_derive_scale(derive), tc_derive_code(derive));
        for (int k = 0; k < count; k++)
            tc_term_add(derive->sheet, one, replacement(derive, slot, &life, today, k));
        tc_term_add(derive->sheet, all, one);
    }
    if (all)
        all->value = sum / tc_derive_scale(derive);
    return all;
}

static const struct tc_term *replacements(struct tc_derive *derive, bool today)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &sum_mark, 0, today);
    known = known ? known : tc_derive_otherwise(derive, TC_LINE_REPLACED, today);
    return known ? known : tc_derive_keep(derive, &sum_mark, 0, today, replacements_anew(derive, today));
}

/* What one thing is sold for at the end, in money of that day. */
static const struct tc_term *residual(struct tc_derive *derive, int slot, const struct tc_item_life *life)
{
    int years = (int)derive->study->plan.years, count = tc_item_replacements(life, years);
    double worth = tc_item_residual(life, years);
    if (!(worth > 0))
        return NULL;
    double whole = isinf(life->life) ? life->first_life : life->life;
    double end = count == 0 ? life->first_life : tc_item_replacement_time(life, count - 1) + life->life;
    struct tc_term *left = tc_term_computed(derive->sheet, "w", "share of its life that is left",
                                            isinf(end)   ? "1"
                                            : count == 0 ? "(f - n) / L"
                                                         : "(f + k × L - n) / L",
                                            isinf(end) ? 1 : fmax(0, (end - years) / whole), "");
    if (!isinf(end)) {
        tc_derive_add(derive, left, first_life(derive, slot, life), END);
        if (count > 0)
            tc_derive_add(
                derive, left,
                tc_derive_model(derive, "k", "times it was bought again", count, "", "LIFE-CYCLE COST"), END);
        tc_derive_add(derive, left,
                      isinf(life->life)
                          ? tc_term_called(derive->sheet, first_life(derive, slot, life), "L", "whole life")
                          : full_life(derive, slot, life),
                      tc_derive_years(derive), END);
    }
    struct tc_term *term =
        tc_term_computed(derive->sheet, tc_sheet_format(derive->sheet, "V%d", slot + 2), name_of(slot),
                         "N × w × s", worth / tc_derive_scale(derive), tc_derive_code(derive));
    tc_derive_add(derive, term, new_price(derive, slot, life->new_price, false), left,
                  own_key(derive, slot, "s", "share of a new one's price that it fetches", life->resale_share,
                          "", "resale", !isnan(typed_resale(derive, slot))),
                  END);
    return term;
}

static const struct tc_term *resale_anew(struct tc_derive *derive)
{
    double sum = 0;
    struct tc_term *all = tc_term_computed(derive->sheet, "V", "what all is sold for at the end", "sum", 0,
                                           tc_derive_code(derive));
    for (int slot = -1; slot < TC_SLOT_COUNT; slot++) {
        struct tc_item_life life = life_of(derive, slot);
        sum += tc_item_residual(&life, (int)derive->study->plan.years);
        tc_term_add(derive->sheet, all, residual(derive, slot, &life));
    }
    if (all)
        all->value = sum / tc_derive_scale(derive);
    return all;
}

static const struct tc_term *resale(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &left_mark, 0, 0);
    known = known ? known : tc_derive_otherwise(derive, TC_LINE_RESOLD, 0);
    return known ? known : tc_derive_keep(derive, &left_mark, 0, 0, resale_anew(derive));
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
        const char *words, *formula;
    } lines[TC_LIFE_COUNT] = {
        [TC_LIFE_PURCHASE] = {"bought at the start", "I"},
        [TC_LIFE_ENERGY] = {"energy", "round(E × F)"},
        [TC_LIFE_WATER] = {"water", "round(W × F + C × U)"},
        [TC_LIFE_SUPPLIES] = {"supplies", "round(Y11 × U)"},
        [TC_LIFE_UPKEEP] = {"your time", "round(Y12 × U)"},
        [TC_LIFE_EXTRAS] = {"extras", "round(Z)"},
        [TC_LIFE_REPLACEMENTS] = {"replacements", "round(R)"},
        [TC_LIFE_RESALE] = {"less resale", "round(-V / (1 + d)^n)"},
    };
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
        tc_derive_add(derive, term,
                      tc_derive_run(derive, index == TC_LIFE_SUPPLIES ? TC_RUN_SUPPLIES : TC_RUN_UPKEEP),
                      factor(derive, today, "U", NULL), END);
        break;
    case TC_LIFE_EXTRAS: tc_derive_add(derive, term, extras(derive, today), END); break;
    case TC_LIFE_REPLACEMENTS: tc_derive_add(derive, term, replacements(derive, today), END); break;
    case TC_LIFE_RESALE:
        tc_derive_add(derive, term, resale(derive), rate(derive, today), tc_derive_years(derive), END);
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
    tc_derive_add(derive, term, rate(derive, today), END);
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

/* What is replaced in a year. */
static const struct tc_term *replaced_in(struct tc_derive *derive, int year, bool today)
{
    const struct tc_term *other = tc_derive_otherwise(derive, TC_LINE_REPLACED_IN, 2 * year + today);
    if (other)
        return other;
    struct tc_term *sum =
        tc_term_computed(derive->sheet, "k", "bought again", "sum", 0, tc_derive_code(derive));
    for (int slot = -1; sum && slot < TC_SLOT_COUNT; slot++) {
        struct tc_item_life life = life_of(derive, slot);
        int count = tc_item_replacements(&life, (int)derive->study->plan.years);
        for (int k = 0; k < count && life.replacement_price > 0; k++) {
            if (tc_year_of(tc_item_replacement_time(&life, k)) != year)
                continue;
            const struct tc_term *one = replacement(derive, slot, &life, today, k);
            if (!one)
                return NULL;
            const char *symbol = tc_sheet_format(derive->sheet, "R%dk%d", slot + 2, k);
            tc_term_add(derive->sheet, sum,
                        tc_term_called(derive->sheet, one, symbol,
                                       tc_sheet_format(derive->sheet, "%s, %s", name_of(slot), one->words)));
            sum->value += one->value;
        }
    }
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
                      running_of(derive, year, today), replaced_in(derive, year, today), END);
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
    const struct tc_term *again = replacements(derive, true), *sold = resale(derive);
    if (!again || !sold)
        return NULL;
    double value =
        (double)derive->cost->to_buy / tc_derive_scale(derive) + again->value -
        sold->value * tc_single_present_value(derive->study->plan.discount, derive->study->plan.years);
    struct tc_term *term = tc_term_computed(derive->sheet, "x", "invested, present value, not rounded",
                                            "I + R - V / (1 + d)^n", value, tc_derive_code(derive));
    tc_derive_add(derive, term, tc_derive_to_buy(derive), again, sold, rate(derive, true),
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
