/* SPDX-License-Identifier: MIT */
#include "sheet/derive_bill.h"

#include <math.h>
#include <stdio.h>

#include "sheet/derive_place.h"
#include "sheet/derive_shops.h"
#include "sheet/derive_tank.h"
#include "sheet/derive_tariff.h"
#include "sheet/derive_heat.h"
#include "sheet/derive_use.h"

#define END ((const struct tc_term *)NULL)

static const char buy_mark, run_mark, price_mark, year_mark, energy_mark, extra_mark;

static struct tc_currency currency_of(const struct tc_derive *derive)
{
    return derive->study->region.currency;
}

/* ------------------------------------------------------------------------ prices */

static const struct tc_term *list_price(struct tc_derive *derive, const char *symbol, tc_money list)
{
    return tc_term_leaf(derive->sheet, symbol, "list price of one tank",
                        (double)list / tc_currency_scale(currency_of(derive)), tc_derive_code(derive),
                        tc_source_price(derive->sheet, derive->study, tc_derive_shop(derive, TC_BUY_TANK), -1,
                                        &derive->alternative->c.tank.goods));
}

static const struct tc_term *sale_price(struct tc_derive *derive, const struct tc_sale *sale, tc_money each)
{
    static const char *const keys[] = {[TC_SALE_PERCENT] = "percent-off",
                                       [TC_SALE_PER_VOLUME] = "per-volume",
                                       [TC_SALE_FIXED] = "price",
                                       [TC_SALE_BUNDLE] = "bundle"};
    struct tc_sheet *sheet = derive->sheet;
    const char *words = tc_sheet_format(sheet, "price of one in the sale %s", sale->name);
    struct tc_source source = tc_source_item(sheet, derive->study, "sale", sale->name, keys[sale->rule]);
    struct tc_term *term;
    switch (sale->rule) {
    case TC_SALE_PERCENT:
        term = tc_term_money(sheet, "p", words, "round(l × (1 - s))", each, currency_of(derive));
        tc_derive_add(derive, term, list_price(derive, "l", derive->prices->deal.list),
                      tc_term_leaf(sheet, "s", "share off", sale->figure, "", source), END);
        return term;
    case TC_SALE_PER_VOLUME:
        term = tc_term_money(sheet, "p", words, "round(s × N)", each, currency_of(derive));
        tc_derive_add(derive, term,
                      tc_term_leaf(sheet, "s", "price by nominal volume", sale->figure,
                                   tc_derive_rate_unit(derive, "m³"), source),
                      tc_derive_size(derive, TC_SIZE_NOMINAL), END);
        return term;
    case TC_SALE_FIXED:
    case TC_SALE_BUNDLE: break;
    }
    return tc_term_leaf(sheet, "p", words, (double)each / tc_currency_scale(currency_of(derive)),
                        tc_derive_code(derive), source);
}

static const struct tc_term *tc_derive_tank_price_anew(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    const struct tc_deal *deal = &derive->prices->deal;
    if (deal->kind == TC_DEAL_SALE)
        return sale_price(derive, deal->sale, deal->each);
    if (deal->kind == TC_DEAL_TYPED)
        return tc_derive_candidate_key(derive, "p", "price of one tank, typed",
                                       (double)deal->each / tc_currency_scale(currency_of(derive)),
                                       tc_derive_code(derive), "price");
    return list_price(derive, "p", deal->each);
}

const struct tc_term *tc_derive_tank_price(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &price_mark, 0, 0);
    return known ? known : tc_derive_keep(derive, &price_mark, 0, 0, tc_derive_tank_price_anew(derive));
}

static const struct tc_term *offered(struct tc_derive *derive, enum tc_slot slot, const char *symbol)
{
    const struct tc_offer *offer = derive->equipment->slot[slot].offer;
    int place = tc_derive_place(derive, TC_BUY_SLOTS + (int)slot);
    tc_money asked = place >= 0 && offer->asked ? offer->asked[place] : offer->price;
    return tc_term_leaf(
        derive->sheet, symbol, tc_sheet_format(derive->sheet, "price of one %s", offer->part->goods.name),
        (double)asked / tc_currency_scale(currency_of(derive)), tc_derive_code(derive),
        tc_source_price(derive->sheet, derive->study, tc_derive_shop(derive, TC_BUY_SLOTS + (int)slot),
                        (int)slot, &offer->part->goods));
}

const struct tc_term *tc_derive_piece_price(struct tc_derive *derive, enum tc_slot slot)
{
    if (!derive || !derive->equipment->slot[slot].offer)
        return NULL;
    double typed = derive->alternative->c.wish[slot].price;
    if (isnan(typed))
        return offered(derive, slot, "p");
    return tc_derive_candidate_key(derive, "p", "price of one, typed",
                                   typed / tc_currency_scale(currency_of(derive)), tc_derive_code(derive),
                                   tc_sheet_format(derive->sheet, "%s-price", tc_slot_name(slot)));
}

/* ------------------------------------------------------------------------ to buy */

static struct tc_term *line(struct tc_derive *derive, const char *symbol, const char *words,
                            const char *formula, tc_money money)
{
    return tc_term_money(derive->sheet, symbol, words, formula, money, currency_of(derive));
}

static const struct tc_term *buy_tank(struct tc_derive *derive)
{
    const struct tc_deal *deal = &derive->prices->deal;
    bool beyond = deal->first < deal->quantity;
    struct tc_term *term =
        tc_derive_money_line(derive, 'B', TC_BUY_TANK, "tank", beyond ? "m × p + (q - m) × l" : "q × p",
                             derive->cost->buy[TC_BUY_TANK]);
    tc_derive_add(derive, term, tc_derive_quantity(derive), tc_derive_tank_price(derive), END);
    if (beyond)
        tc_derive_add(
            derive, term,
            tc_term_leaf(derive->sheet, "m", "tanks a customer may have at that price", deal->first, "",
                         tc_source_item(derive->sheet, derive->study, "sale", deal->sale->name, "limit")),
            list_price(derive, "l", deal->list), END);
    return term;
}

static const struct tc_term *buy_part(struct tc_derive *derive, enum tc_slot slot)
{
    const struct tc_offer *offer = derive->equipment->slot[slot].offer;
    int included = derive->prices->included[slot];
    struct tc_term *term = tc_derive_money_line(derive, 'B', TC_BUY_SLOTS + (int)slot, tc_slot_word(slot),
                                                !offer         ? "0"
                                                : included > 0 ? "round(max(0, c - i) × p)"
                                                               : "round(c × p)",
                                                derive->cost->buy[TC_BUY_SLOTS + slot]);
    if (!offer)
        return term;
    tc_derive_add(derive, term, tc_derive_pieces(derive, slot), tc_derive_piece_price(derive, slot), END);
    if (included > 0)
        tc_derive_add(derive, term,
                      tc_term_leaf(derive->sheet, "i", "that the bundle brings along", included, "",
                                   tc_source_item(derive->sheet, derive->study, "sale",
                                                  derive->prices->deal.sale->name, "includes")),
                      END);
    return term;
}

static const struct tc_term *tc_derive_extra_anew(struct tc_derive *derive, int i)
{
    const struct tc_extra *extra = derive->study->extras[i];
    const struct tc_due *due = &derive->alternative->c.due[i];
    struct tc_term *term = line(derive, tc_sheet_format(derive->sheet, "X%d", i + 1), extra->title,
                                due->each_tank ? "round(q × p)" : "round(p)", derive->cost->extra[i]);
    if (due->each_tank)
        tc_derive_add(derive, term, tc_derive_quantity(derive), END);
    tc_derive_add(derive, term,
                  tc_term_leaf(derive->sheet, "p", due->each_tank ? "for each tank" : "for all",
                               due->amount / tc_currency_scale(currency_of(derive)), tc_derive_code(derive),
                               tc_source_item(derive->sheet, derive->study, "extra", extra->name, "amount")),
                  END);
    return term;
}

bool tc_derive_extra_apart(const struct tc_derive *derive, int i)
{
    double amount = derive->alternative->c.due[i].amount;
    return isnan(amount) || (derive->counted && !(fabs(amount) > 0));
}

const struct tc_term *tc_derive_extra(struct tc_derive *derive, int i)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &extra_mark, i, 0);
    if (derive->line)
        return derive->line(derive, TC_LINE_EXTRA, i);
    return known ? known : tc_derive_keep(derive, &extra_mark, i, 0, tc_derive_extra_anew(derive, i));
}

/* Extras paid once, or those paid each year. */
static const struct tc_term *extras(struct tc_derive *derive, bool once, tc_money sum)
{
    const struct tc_case *c = &derive->alternative->c;
    struct tc_term *term = line(derive,
                                once ? tc_derive_line_symbol(derive, 'B', TC_BUY_EXTRAS)
                                     : tc_derive_line_symbol(derive, 'Y', TC_RUN_EXTRAS),
                                "extras", "sum", sum);
    for (int i = 0; i < c->due_count; i++)
        if (c->due[i].once == once && !tc_derive_extra_apart(derive, i))
            tc_term_add(derive->sheet, term, tc_derive_extra(derive, i));
    return term;
}

/* The lines of tank and slots that cost anything, and of the fee; NULL for the others. In the sheet's memory.
 */
static const struct tc_term **lines_of(struct tc_derive *derive)
{
    const struct tc_term **lines = tc_sheet_memory(derive->sheet, TC_BUY_FEE + 1, sizeof *lines);
    for (int i = 0; lines && i < TC_BUY_FEE + 1; i++)
        lines[i] = derive->cost->buy[i] != 0 || i == TC_BUY_FEE ? tc_derive_buy(derive, i) : NULL;
    return lines;
}

const struct tc_term *tc_derive_buy(struct tc_derive *derive, int index)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &buy_mark, index, 0);
    if (known || derive->line)
        return known ? known
                     : tc_derive_keep(derive, &buy_mark, index, 0, derive->line(derive, TC_LINE_BUY, index));
    const struct tc_term *term;
    switch (index) {
    case TC_BUY_TANK: term = buy_tank(derive); break;
    case TC_BUY_FEE: term = tc_derive_fee(derive); break;
    case TC_BUY_DELIVERY: term = tc_derive_delivery(derive, lines_of(derive)); break;
    case TC_BUY_TAX: term = tc_derive_taxes(derive, lines_of(derive)); break;
    case TC_BUY_EXTRAS: term = extras(derive, true, derive->cost->buy[index]); break;
    default: term = buy_part(derive, (enum tc_slot)(index - TC_BUY_SLOTS)); break;
    }
    return tc_derive_keep(derive, &buy_mark, index, 0, term);
}

const struct tc_term *tc_derive_at_shop(struct tc_derive *derive, int line_of, int place, tc_money sum)
{
    const struct tc_term **lines = derive ? lines_of(derive) : NULL;
    if (!lines)
        return NULL;
    const struct tc_term *goods = tc_derive_goods_at(derive, lines, place);
    const struct tc_term *brought = tc_derive_delivery_at(derive, lines, place);
    const struct tc_term *tax = tc_derive_tax_at(derive, lines, place);
    if (line_of != TC_BUY_COUNT)
        return line_of == TC_BUY_TANK ? goods : line_of == TC_BUY_DELIVERY ? brought : tax;
    struct tc_term *all = line(derive, "A", "to pay there", "sum", sum);
    tc_derive_add(derive, all, goods, brought, tax, END);
    if (tc_derive_place(derive, TC_BUY_TANK) == place)
        tc_term_add(derive->sheet, all, tc_derive_buy(derive, TC_BUY_FEE));
    return all;
}

const struct tc_term *tc_derive_to_buy(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &buy_mark, -1, 0);
    if (known)
        return known;
    struct tc_term *term = line(derive, "I", "to buy", "sum", derive->cost->to_buy);
    for (int i = 0; i < TC_BUY_COUNT; i++)
        if (derive->cost->buy[i] != 0)
            tc_term_add(derive->sheet, term, tc_derive_buy(derive, i));
    return tc_derive_keep(derive, &buy_mark, -1, 0, term);
}

/* --------------------------------------------------------------------- each year */

const struct tc_term *tc_derive_metered(struct tc_derive *derive, int index)
{
    bool energy = index < TC_RUN_ENERGY + TC_CONSUMER_COUNT;
    int part = energy ? index - TC_RUN_ENERGY : index == TC_RUN_CHANGES ? TC_WATER_CHANGES : TC_WATER_MAKE_UP;
    struct tc_term *term = line(
        derive, tc_derive_line_symbol(derive, 'Y', index),
        energy ? tc_sheet_format(derive->sheet, "electricity: %s", tc_consumer_name((enum tc_consumer)part))
        : part == TC_WATER_CHANGES ? "water: changes"
                                   : "water: lost to the air",
        "sum", derive->cost->run[index]);
    for (int month = 0; month < TC_MONTHS; month++)
        tc_term_add(derive->sheet, term, tc_derive_borne(derive, energy, part, month));
    return term;
}

static const struct tc_term *warm_water(struct tc_derive *derive)
{
    bool any = derive->cost->running.warm_water > 0;
    struct tc_term *term =
        tc_derive_money_line(derive, 'Y', TC_RUN_WARM_WATER, "warm tap water", any ? "round(W × p)" : "0",
                             derive->cost->run[TC_RUN_WARM_WATER]);
    if (any)
        tc_derive_add(derive, term, tc_derive_warm_water(derive),
                      tc_derive_region_key(derive, "p", "price of its heat",
                                           derive->study->region.warm_water_price,
                                           tc_derive_rate_unit(derive, "kWh"), "warm-water-price"),
                      END);
    return term;
}

const struct tc_term *tc_derive_room_money(struct tc_derive *derive, tc_money money, bool cooling)
{
    if (!derive)
        return NULL;
    const struct tc_region *region = &derive->study->region;
    struct tc_term *term =
        line(derive, "M", cooling ? "added to cooling" : "saved in heating", "round(Q × p)", money);
    tc_derive_add(derive, term,
                  tc_derive_room_heat_in(derive, "Q", "heat given in those months",
                                         cooling ? region->cooled : region->heated),
                  tc_derive_region_key(derive, "p", "price of that heat",
                                       cooling ? region->room_cool_price : region->room_heat_price,
                                       tc_derive_rate_unit(derive, "kWh"),
                                       cooling ? "room-cool-price" : "room-heat-price"),
                  END);
    return term;
}

static const struct tc_term *room_heat(struct tc_derive *derive)
{
    const struct tc_region *region = &derive->study->region;
    bool counts = derive->alternative->c.room_heat;
    struct tc_term *term =
        tc_derive_money_line(derive, 'Y', TC_RUN_ROOM_HEAT, "heating and cooling of the room",
                             counts ? "round(Qc × c - Qh × h)" : "0", derive->cost->run[TC_RUN_ROOM_HEAT]);
    if (!counts)
        return term;
    tc_derive_add(derive, term,
                  tc_derive_room_heat_in(derive, "Qc", "heat given while the room is cooled", region->cooled),
                  tc_derive_region_key(derive, "c", "price of heat taken out", region->room_cool_price,
                                       tc_derive_rate_unit(derive, "kWh"), "room-cool-price"),
                  tc_derive_room_heat_in(derive, "Qh", "heat given while the room is heated", region->heated),
                  tc_derive_region_key(derive, "h", "price of heat brought in", region->room_heat_price,
                                       tc_derive_rate_unit(derive, "kWh"), "room-heat-price"),
                  END);
    return term;
}

static const struct tc_term *conditioner(struct tc_derive *derive)
{
    struct tc_term *term =
        tc_derive_money_line(derive, 'Y', TC_RUN_CONDITIONER, "water conditioner", "round(Vc × p × (1 + t))",
                             derive->cost->run[TC_RUN_CONDITIONER]);
    tc_derive_add(derive, term, tc_derive_water(derive, TC_WATER_CHANGES, -1),
                  tc_derive_region_key(derive, "p", "conditioner", derive->study->region.conditioner,
                                       tc_derive_rate_unit(derive, "m³"), "conditioner"),
                  tc_derive_tax(derive), END);
    return term;
}

static const struct tc_term *supply(struct tc_derive *derive, int slot)
{
    const struct tc_goods *thing =
        slot < 0 ? &derive->alternative->c.tank.goods : &derive->equipment->slot[slot].offer->part->goods;
    const struct tc_price *price = tc_price_in(&thing->upkeep, currency_of(derive));
    const char *kind = slot < 0 ? "tank" : tc_slot_name((enum tc_slot)slot);
    const struct tc_term *count =
        slot < 0 ? tc_derive_quantity(derive) : tc_derive_pieces(derive, (enum tc_slot)slot);
    double scale = tc_currency_scale(currency_of(derive));
    double each =
        slot < 0 ? (price ? price->amount : 0) : (double)derive->equipment->slot[slot].offer->upkeep / scale;
    if (!(each > 0) || !count)
        return NULL;
    struct tc_term *term = tc_term_computed(derive->sheet, tc_sheet_format(derive->sheet, "s%d", slot + 2),
                                            kind, tc_sheet_format(derive->sheet, "%s × p", count->symbol),
                                            count->value * each, tc_derive_code(derive));
    tc_derive_add(derive, term, count,
                  tc_term_leaf(derive->sheet, "p", "supplies of one for a year", each, tc_derive_code(derive),
                               tc_source_item(derive->sheet, derive->study, kind, thing->name, "upkeep")),
                  END);
    return term;
}

static const struct tc_term *supplies(struct tc_derive *derive)
{
    struct tc_term *all =
        tc_term_computed(derive->sheet, "S", "supplies before tax", "sum", 0, tc_derive_code(derive));
    for (int slot = -1; all && slot < TC_SLOT_COUNT; slot++) {
        if (slot >= 0 && !derive->equipment->slot[slot].offer)
            continue;
        const struct tc_term *part = supply(derive, slot);
        all->value += part ? part->value : 0;
        tc_term_add(derive->sheet, all, part);
    }
    struct tc_term *term = tc_derive_money_line(derive, 'Y', TC_RUN_SUPPLIES, "supplies",
                                                "round(S × (1 + t))", derive->cost->run[TC_RUN_SUPPLIES]);
    tc_derive_add(derive, term, all, tc_derive_tax(derive), END);
    return term;
}

/* The hours of upkeep at what the plan says one is worth. */
static const struct tc_term *your_time(struct tc_derive *derive)
{
    struct tc_term *term = tc_derive_money_line(derive, 'Y', TC_RUN_UPKEEP, "your time", "round(T × h)",
                                                derive->cost->run[TC_RUN_UPKEEP]);
    tc_derive_add(derive, term, tc_derive_upkeep(derive), tc_derive_hour_worth(derive), END);
    return term;
}

const struct tc_term *tc_derive_run(struct tc_derive *derive, int index)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &run_mark, index, 0);
    if (known || derive->line)
        return known ? known
                     : tc_derive_keep(derive, &run_mark, index, 0, derive->line(derive, TC_LINE_RUN, index));
    const struct tc_term *term;
    switch (index) {
    case TC_RUN_WARM_WATER: term = warm_water(derive); break;
    case TC_RUN_ROOM_HEAT: term = room_heat(derive); break;
    case TC_RUN_CONDITIONER: term = conditioner(derive); break;
    case TC_RUN_SUPPLIES: term = supplies(derive); break;
    case TC_RUN_UPKEEP: term = your_time(derive); break;
    case TC_RUN_EXTRAS: term = extras(derive, false, derive->cost->run[index]); break;
    default: term = tc_derive_metered(derive, index); break;
    }
    return tc_derive_keep(derive, &run_mark, index, 0, term);
}

static const struct tc_term *tc_derive_each_year_anew(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    struct tc_term *term = line(derive, "Y", "each year", "sum", derive->cost->each_year);
    for (int i = 0; i < TC_RUN_COUNT; i++)
        if (derive->cost->run[i] != 0)
            tc_term_add(derive->sheet, term, tc_derive_run(derive, i));
    return term;
}

const struct tc_term *tc_derive_each_year(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &year_mark, 0, 0);
    return known ? known : tc_derive_keep(derive, &year_mark, 0, 0, tc_derive_each_year_anew(derive));
}

const struct tc_term *tc_derive_month_cost(struct tc_derive *derive, int month)
{
    return tc_derive_added(derive, true, month);
}

static const struct tc_term *tc_derive_year_cost_anew(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    struct tc_term *term =
        line(derive, "E", "all electricity of a year", "sum", derive->cost->energy_total.year);
    for (int month = 0; month < TC_MONTHS; month++) {
        const struct tc_term *part = tc_derive_added(derive, true, month);
        if (part)
            tc_term_add(derive->sheet, term, tc_term_called(derive->sheet, part, part->words, part->words));
    }
    return term;
}

const struct tc_term *tc_derive_year_cost(struct tc_derive *derive)
{
    if (!derive)
        return NULL;
    const struct tc_term *known = tc_derive_known(derive, &energy_mark, 0, 0);
    return known ? known : tc_derive_keep(derive, &energy_mark, 0, 0, tc_derive_year_cost_anew(derive));
}

const struct tc_term *tc_derive_list_price(struct tc_derive *derive)
{
    return derive ? list_price(derive, "p", derive->prices->deal.list) : NULL;
}

const struct tc_term *tc_derive_bought(struct tc_derive *derive, bool first)
{
    if (!derive)
        return NULL;
    const struct tc_deal *deal = &derive->prices->deal;
    if (deal->first == deal->quantity)
        return tc_derive_quantity(derive);
    const struct tc_term *limit =
        tc_term_leaf(derive->sheet, "m", "tanks a customer may have at that price", deal->first, "",
                     tc_source_item(derive->sheet, derive->study, "sale", deal->sale->name, "limit"));
    if (first)
        return limit;
    struct tc_term *rest =
        tc_term_computed(derive->sheet, "r", "tanks beyond them", "q - m", deal->quantity - deal->first, "");
    tc_derive_add(derive, rest, tc_derive_quantity(derive), limit, END);
    return rest;
}

const struct tc_term *tc_derive_included(struct tc_derive *derive, enum tc_slot slot, int included)
{
    return derive ? tc_term_leaf(
                        derive->sheet, "i",
                        tc_sheet_format(derive->sheet, "%s that comes with the tank", tc_slot_word(slot)),
                        included, "",
                        tc_source_item(derive->sheet, derive->study, "sale", derive->prices->deal.sale->name,
                                       "includes"))
                  : NULL;
}
