/* SPDX-License-Identifier: MIT */
#include "core/cost/purchase.h"

#include <math.h>
#include <string.h>

#include "core/base/order.h"
#include "core/cost/basket.h"

double tc_purchase_piece(const struct tc_case *c, const struct tc_equipment *equipment, enum tc_slot slot)
{
    double typed = c->wish[slot].price;
    return isnan(typed) ? (double)equipment->slot[slot].offer->price : typed;
}

bool tc_purchase_priced(const struct tc_case *c, const struct tc_equipment *equipment, enum tc_slot slot)
{
    return equipment->slot[slot].offer->priced || !isnan(c->wish[slot].price);
}

int tc_purchase_pieces(const struct tc_case *c, const struct tc_equipment *equipment,
                       const struct tc_prices *prices, enum tc_slot slot)
{
    if (!equipment->slot[slot].offer)
        return 0;
    return tc_larger(0, tc_equipment_pieces(c, equipment, slot) - prices->included[slot]);
}

/* ------------------------------------------------------------------------- at one shop */

static void charge(tc_money delivery, tc_money free_from, double tax, struct tc_receipt *receipt,
                   enum tc_status *status)
{
    bool delivered = receipt->goods > 0 && (free_from == 0 || receipt->goods < free_from);
    receipt->delivery = delivered ? delivery : 0;
    receipt->tax = tc_money_share(tc_money_add(receipt->goods, receipt->fee, status), tax, status);
}

static void charge_at(const struct tc_case *c, int at, struct tc_receipt *receipt, enum tc_status *status)
{
    const struct tc_region *region = c->region;
    if (c->market) {
        const struct tc_shop_terms *shop = &c->market->shop[at];
        charge(shop->delivery, shop->free_from, shop->tax, receipt, status);
    } else {
        charge(tc_currency_money(region->currency, region->delivery, status),
               tc_currency_money(region->currency, region->delivery_free_from, status),
               tc_region_added_tax(region), receipt, status);
    }
}

enum tc_status tc_purchase_receipt(const struct tc_case *c, const tc_money buy[], const int shop[TC_BUY_FEE],
                                   int at, struct tc_receipt *receipt)
{
    enum tc_status status = TC_OK;
    *receipt = (struct tc_receipt){.fee = shop[TC_BUY_TANK] == at ? buy[TC_BUY_FEE] : 0};
    for (int i = 0; i < TC_BUY_FEE; i++) {
        if (shop[i] != at)
            continue;
        receipt->goods = tc_money_add(receipt->goods, buy[i], &status);
        receipt->any = true;
    }
    charge_at(c, at, receipt, &status);
    return status;
}

tc_money tc_receipt_sum(const struct tc_receipt *receipt, enum tc_status *status)
{
    tc_money goods = tc_money_add(receipt->goods, receipt->fee, status);
    return tc_money_add(goods, tc_money_add(receipt->delivery, receipt->tax, status), status);
}

/* Delivery and tax of all shops. */
static enum tc_status add_charges(const struct tc_case *c, struct tc_purchase *purchase)
{
    enum tc_status status = TC_OK;
    tc_money *buy = purchase->buy;
    for (int s = 0; s < (c->market ? c->market->count : 1); s++) {
        struct tc_receipt receipt;
        enum tc_status paid = tc_purchase_receipt(c, buy, purchase->shop, s, &receipt);
        status = status == TC_OK ? paid : status;
        buy[TC_BUY_DELIVERY] = tc_money_add(buy[TC_BUY_DELIVERY], receipt.delivery, &status);
        buy[TC_BUY_TAX] = tc_money_add(buy[TC_BUY_TAX], receipt.tax, &status);
    }
    return status;
}

static enum tc_status buy_at_one(const struct tc_case *c, const struct tc_equipment *equipment,
                                 const struct tc_prices *prices, struct tc_purchase *purchase)
{
    enum tc_status status = TC_OK;
    purchase->buy[TC_BUY_TANK] = tc_deal_sum(&prices->deal, &status);
    purchase->buy[TC_BUY_FEE] = prices->deal.fee;
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        enum tc_slot slot = (enum tc_slot)i;
        int pieces = tc_purchase_pieces(c, equipment, prices, slot);
        purchase->buy[TC_BUY_SLOTS + i] =
            pieces > 0 ? tc_money_round(pieces * tc_purchase_piece(c, equipment, slot), &status) : 0;
    }
    return status == TC_OK ? add_charges(c, purchase) : status;
}

/* -------------------------------------------------------------------- at several shops */

/* Whether a price that was typed for a part may be a shop's. */
static bool may_be_typed_at(const struct tc_case *c, const struct tc_offer *offer, int shop)
{
    int best = 0, mine = 0;
    for (int s = 0; s < c->market->count; s++) {
        bool once = c->market->shop[s].once, listed = offer->asked && offer->asked[s] != TC_NOT_SOLD;
        int likely = once ? 1 : listed ? 3 : 2; /* as of tanks: deal.c */
        best = tc_larger(best, likely);
        mine = s == shop ? likely : mine;
    }
    return mine == best;
}

tc_money tc_purchase_slot_at(const struct tc_case *c, const struct tc_equipment *equipment,
                             const struct tc_prices *prices, enum tc_slot slot, int shop,
                             enum tc_status *status)
{
    const struct tc_slot_wish *wish = &c->wish[slot];
    const struct tc_offer *offer = equipment->slot[slot].offer;
    int pieces = tc_purchase_pieces(c, equipment, prices, slot);
    if (pieces == 0)
        return 0;
    if (isnan(wish->price)) {
        if (!offer->priced || !offer->asked || offer->asked[shop] == TC_NOT_SOLD)
            return TC_NOT_SOLD;
        return tc_money_times(offer->asked[shop], pieces, status);
    }
    bool here = wish->at > 0 ? wish->at == shop + 1 : may_be_typed_at(c, offer, shop);
    return here ? tc_money_round(pieces * wish->price, status) : TC_NOT_SOLD;
}

/* What a line is at a shop. */
static tc_money line_at(const struct tc_case *c, const struct tc_equipment *equipment,
                        const struct tc_prices *prices, int line, int shop, enum tc_status *status)
{
    if (line == TC_BUY_TANK)
        return tc_deal_sum_at(&prices->deal, shop, status);
    return tc_purchase_slot_at(c, equipment, prices, (enum tc_slot)(line - TC_BUY_SLOTS), shop, status);
}

static bool is_bought(const struct tc_case *c, const struct tc_equipment *equipment,
                      const struct tc_prices *prices, int line)
{
    if (line == TC_BUY_TANK)
        return prices->deal.known;
    enum tc_slot slot = (enum tc_slot)(line - TC_BUY_SLOTS);
    return tc_purchase_pieces(c, equipment, prices, slot) > 0 && tc_purchase_priced(c, equipment, slot);
}

enum tc_status tc_purchase_at(const struct tc_case *c, const struct tc_equipment *equipment,
                              const struct tc_prices *prices, const int shop[TC_BUY_FEE],
                              struct tc_purchase *purchase)
{
    enum tc_status status = TC_OK;
    *purchase = (struct tc_purchase){.proven = true};
    for (int line = 0; line < TC_BUY_FEE; line++) {
        bool tried = shop[line] >= 0 && is_bought(c, equipment, prices, line);
        tc_money sum = !tried ? TC_NOT_SOLD : line_at(c, equipment, prices, line, shop[line], &status);
        purchase->shop[line] = sum == TC_NOT_SOLD ? -1 : shop[line];
        purchase->buy[line] = sum == TC_NOT_SOLD ? 0 : sum;
    }
    if (purchase->shop[TC_BUY_TANK] >= 0)
        purchase->buy[TC_BUY_FEE] = prices->deal.at[purchase->shop[TC_BUY_TANK]].fee;
    return status == TC_OK ? add_charges(c, purchase) : status;
}

static enum tc_status buy_at_several(const struct tc_case *c, const struct tc_equipment *equipment,
                                     const struct tc_prices *prices, struct tc_purchase *purchase)
{
    enum tc_status status = TC_OK;
    int shop[TC_BUY_FEE], line_of[TC_BUY_FEE];
    struct tc_basket basket;
    struct tc_basket_answer answer;
    basket.shop_count = c->market->count;
    basket.item_count = 0;
    memcpy(basket.shop, c->market->shop, sizeof basket.shop);
    for (int line = 0; line < TC_BUY_FEE; line++) {
        shop[line] = -1;
        if (!is_bought(c, equipment, prices, line))
            continue;
        struct tc_basket_item *item = &basket.item[basket.item_count];
        for (int s = 0; s < basket.shop_count; s++) {
            item->price[s] = line_at(c, equipment, prices, line, s, &status);
            item->fee[s] = line == TC_BUY_TANK ? prices->deal.at[s].fee : 0;
        }
        line_of[basket.item_count++] = line;
    }
    if (status == TC_OK)
        status = tc_basket_spread(&basket, &answer);
    if (status != TC_OK)
        return status;
    for (int i = 0; i < basket.item_count; i++)
        shop[line_of[i]] = answer.shop[i];
    status = tc_purchase_at(c, equipment, prices, shop, purchase);
    purchase->proven = answer.proven;
    return status;
}

enum tc_status tc_purchase_make(const struct tc_case *c, const struct tc_equipment *equipment,
                                const struct tc_prices *prices, struct tc_purchase *purchase)
{
    if (c->market)
        return buy_at_several(c, equipment, prices, purchase);
    *purchase = (struct tc_purchase){.proven = true};
    return buy_at_one(c, equipment, prices, purchase);
}

double tc_purchase_least(const struct tc_case *c, const struct tc_equipment *equipment,
                         const struct tc_prices *prices)
{
    enum tc_status status = TC_OK;
    double sum = 0;
    for (int line = 0; line < TC_BUY_FEE; line++) {
        double least = INFINITY;
        if (!is_bought(c, equipment, prices, line))
            continue;
        for (int s = 0; s < c->market->count; s++) {
            tc_money price = line_at(c, equipment, prices, line, s, &status);
            tc_money fee = line == TC_BUY_TANK ? prices->deal.at[s].fee : 0;
            if (price != TC_NOT_SOLD)
                least = fmin(least, ((double)price + (double)fee) * (1 + c->market->shop[s].tax));
        }
        sum += isfinite(least) ? least : 0;
    }
    return status == TC_OK ? sum : 0;
}
