/* SPDX-License-Identifier: MIT */
#include "sheet/derive_shops.h"

#include <stddef.h>

#define END ((const struct tc_term *)NULL)

static const char goods_mark;

static bool several(const struct tc_derive *derive)
{
    return derive->alternative->c.market != NULL;
}

int tc_derive_place(const struct tc_derive *derive, int line)
{
    return several(derive) ? derive->cost->shop[line] : -1;
}

const struct tc_shop *tc_derive_shop(const struct tc_derive *derive, int line)
{
    int place = tc_derive_place(derive, line);
    return place > 0 ? derive->study->shops[place] : derive->study->shop;
}

const struct tc_shop *tc_derive_later_shop(const struct tc_derive *derive, int slot)
{
    const struct tc_study *study = derive->study;
    const struct tc_deal *deal = &derive->prices->deal;
    const struct tc_offer *offer = slot < 0 ? NULL : derive->equipment->slot[slot].offer;
    for (int once = 0; several(derive) && once <= 1; once++)
        for (int s = 0; s < study->market.count; s++) {
            bool here = slot < 0 ? deal->at[s].listed && deal->at[s].list == deal->later
                                 : offer && offer->asked && offer->asked[s] == offer->price;
            if (here && study->market.shop[s].once == (once == 1))
                return study->shops[s];
        }
    return study->shop;
}

/* A sum of the purchase at a shop, or of all that is bought at the only one. */
static struct tc_term *sum_at(struct tc_derive *derive, const char *symbol, const char *words, int place,
                              const char *formula, tc_money money)
{
    const char *named =
        several(derive) ? tc_sheet_format(derive->sheet, "%s, %s", words, derive->study->shops[place]->name)
                        : words;
    return tc_term_money(derive->sheet, symbol, named, formula, money, derive->study->region.currency);
}

static struct tc_receipt receipt(const struct tc_derive *derive, int place)
{
    struct tc_receipt receipt = {.any = false};
    enum tc_status status = TC_OK;
    if (several(derive)) { /* what could be worked out once can be worked out again */
        status = tc_purchase_receipt(&derive->alternative->c, derive->cost->buy, derive->cost->shop, place,
                                     &receipt);
        derive->sheet->failed = derive->sheet->failed || status != TC_OK;
        return receipt;
    }
    receipt.goods = tc_money_sum(derive->cost->buy, TC_BUY_FEE, &status);
    receipt.fee = derive->cost->buy[TC_BUY_FEE];
    receipt.delivery = derive->cost->buy[TC_BUY_DELIVERY];
    receipt.tax = derive->cost->buy[TC_BUY_TAX];
    receipt.any = true;
    return receipt;
}

/* What a shop takes: an amount of its terms. */
static const struct tc_term *shop_amount(struct tc_derive *derive, int place, const char *symbol,
                                         const char *words, double amount, const char *key)
{
    const struct tc_study *study = derive->study;
    return tc_term_leaf(derive->sheet, symbol, words, amount, tc_derive_code(derive),
                        tc_source_shop(derive->sheet, study, study->shops[place], key));
}

const struct tc_term *tc_derive_goods_at(struct tc_derive *derive, const struct tc_term *const lines[],
                                         int place)
{
    const struct tc_term *known = tc_derive_known(derive, &goods_mark, place, 0);
    if (known)
        return known;
    struct tc_term *term = sum_at(derive, "G", several(derive) ? "goods" : "all goods", place, "sum",
                                  receipt(derive, place).goods);
    for (int i = 0; lines && i < TC_BUY_FEE; i++)
        if (lines[i] && (!several(derive) || derive->cost->shop[i] == place))
            tc_term_add(derive->sheet, term, lines[i]);
    return tc_derive_keep(derive, &goods_mark, place, 0, term);
}

const struct tc_term *tc_derive_delivery_at(struct tc_derive *derive, const struct tc_term *const lines[],
                                            int place)
{
    const struct tc_study *study = derive->study;
    const struct tc_shop *shop = &study->own_shops[place]; /* of nothing where the region has none */
    tc_money money = receipt(derive, place).delivery;
    bool free = shop->delivery_free_from > 0, any = money != 0 || free;
    struct tc_term *term =
        sum_at(derive, tc_derive_line_symbol(derive, 'B', TC_BUY_DELIVERY), "delivery", place,
               !any   ? "0"
               : free ? "round(D × below(G, f))"
                      : "round(D)",
               money);
    if (!any)
        return term;
    bool fetched = study->fetched[place];
    tc_derive_add(derive, term,
                  fetched
                      ? shop_amount(derive, place, "D", "fetching one order", shop->pick_up, "pick-up")
                      : shop_amount(derive, place, "D", "delivery of one order", shop->delivery, "delivery"),
                  free ? tc_derive_goods_at(derive, lines, place) : END, END);
    if (free)
        tc_derive_add(derive, term,
                      shop_amount(derive, place, "f", "orders from this amount are delivered free",
                                  shop->delivery_free_from, "delivery-free-from"),
                      END);
    return term;
}

static const struct tc_term *tax_rate(struct tc_derive *derive, int place)
{
    const struct tc_study *study = derive->study;
    if (!several(derive))
        return tc_derive_tax(derive);
    if (study->market.shop[place].once)
        return tc_term_leaf(derive->sheet, "t", "sales tax: a private seller adds none", 0, "",
                            tc_source_shop(derive->sheet, study, study->shops[place], "seller"));
    if (study->region.tax_included)
        return tc_derive_tax(derive);
    return tc_derive_region_key(derive, "t", "sales tax the checkout adds", study->shop_tax, "", "sales-tax");
}

const struct tc_term *tc_derive_tax_at(struct tc_derive *derive, const struct tc_term *const lines[],
                                       int place)
{
    bool fee = !several(derive) || derive->cost->shop[TC_BUY_TANK] == place;
    struct tc_term *term = sum_at(derive, tc_derive_line_symbol(derive, 'B', TC_BUY_TAX), "sales tax", place,
                                  fee ? tc_sheet_format(derive->sheet, "round((G + %s) × t)",
                                                        tc_derive_line_symbol(derive, 'B', TC_BUY_FEE))
                                      : "round(G × t)",
                                  receipt(derive, place).tax);
    tc_derive_add(derive, term, tc_derive_goods_at(derive, lines, place), END);
    if (fee && lines)
        tc_derive_add(derive, term, lines[TC_BUY_FEE], END);
    tc_derive_add(derive, term, tax_rate(derive, place), END);
    return term;
}

/* The sum over all shops that something is bought at. */
static const struct tc_term *
over_shops(struct tc_derive *derive, const struct tc_term *const lines[], const char *words, int line,
           const struct tc_term *(*at)(struct tc_derive *, const struct tc_term *const[], int))
{
    if (!several(derive))
        return at(derive, lines, 0);
    const char *symbol = tc_derive_line_symbol(derive, 'B', line);
    struct tc_term *sum = tc_term_money(derive->sheet, symbol, words, "sum", derive->cost->buy[line],
                                        derive->study->region.currency);
    for (int s = 0; s < derive->study->market.count; s++)
        if (receipt(derive, s).any) {
            const struct tc_term *one = at(derive, lines, s);
            const char *name = tc_sheet_format(derive->sheet, "%s%c", symbol, 'a' + s);
            tc_term_add(derive->sheet, sum,
                        one ? tc_term_called(derive->sheet, one, name, one->words) : NULL);
        }
    return sum;
}

const struct tc_term *tc_derive_delivery(struct tc_derive *derive, const struct tc_term *const lines[])
{
    return over_shops(derive, lines, "delivery", TC_BUY_DELIVERY, tc_derive_delivery_at);
}

const struct tc_term *tc_derive_taxes(struct tc_derive *derive, const struct tc_term *const lines[])
{
    return over_shops(derive, lines, "sales tax", TC_BUY_TAX, tc_derive_tax_at);
}

const struct tc_term *tc_derive_fee(struct tc_derive *derive)
{
    const struct tc_deal *deal = &derive->prices->deal;
    int place = tc_derive_place(derive, TC_BUY_TANK);
    tc_money fee = derive->cost->buy[TC_BUY_FEE];
    struct tc_term *term = sum_at(derive, tc_derive_line_symbol(derive, 'B', TC_BUY_FEE), "special order fee",
                                  place > 0 ? place : 0, fee == 0 ? "0" : "m × f", fee);
    if (fee == 0)
        return term;
    const struct tc_source source =
        derive->counted ? (struct tc_source){TC_TERM_SIMULATED, derive->counted}
                        : tc_source_path(derive->sheet, derive->study,
                                         tc_sheet_format(derive->sheet, "candidate %d/quantity",
                                                         derive->alternative->index + 1));
    int ordered = deal->kind == TC_DEAL_SALE ? deal->quantity - deal->first : deal->quantity;
    place = place > 0 ? place : 0;
    tc_derive_add(derive, term,
                  tc_term_leaf(derive->sheet, "m", "tanks on special order", ordered, "", source),
                  shop_amount(derive, place, "f", "fee for each", derive->study->own_shops[place].order_fee,
                              "order-fee"),
                  END);
    return term;
}
