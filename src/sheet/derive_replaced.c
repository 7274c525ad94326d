/* SPDX-License-Identifier: MIT */
#include "sheet/derive_replaced.h"

#include <math.h>

#include "sheet/derive_bill.h"
#include "sheet/derive_shops.h"
#include "sheet/derive_tank.h"

#define END ((const struct tc_term *)NULL)

static const char left_mark, sum_mark;

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
        bool plain = fabs(each * tc_derive_scale(derive) - (double)deal->later) < 1e-9;
        price = !plain ? tc_term_leaf(derive->sheet, "p", "a new one, by what was paid", each,
                                      tc_derive_code(derive),
                                      tc_source_assumed("no list price: tankcost-model(7), LIFE-CYCLE COST"))
                : deal->listed
                    ? tc_term_leaf(derive->sheet, "p", "list price of one", each, tc_derive_code(derive),
                                   tc_source_price(derive->sheet, derive->study,
                                                   tc_derive_later_shop(derive, -1), -1, &c->tank.goods))
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
            price =
                tc_term_leaf(derive->sheet, "p", "price of one", each, tc_derive_code(derive),
                             tc_source_price(derive->sheet, derive->study, tc_derive_later_shop(derive, slot),
                                             slot, &offer->part->goods));
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
    tc_derive_add(derive, term, tc_derive_discounted(derive, today), when, END);
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

const struct tc_term *tc_derive_replaced(struct tc_derive *derive, bool today)
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

const struct tc_term *tc_derive_resold(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &left_mark, 0, 0);
    known = known ? known : tc_derive_otherwise(derive, TC_LINE_RESOLD, 0);
    return known ? known : tc_derive_keep(derive, &left_mark, 0, 0, resale_anew(derive));
}

const struct tc_term *tc_derive_replaced_in(struct tc_derive *derive, int year, bool today)
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
