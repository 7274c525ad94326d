/* SPDX-License-Identifier: MIT */
#include "core/goods/deal.h"

#include <string.h>

#include "core/base/order.h"

/* Whether what all of it costs is within the range of money. */
static enum tc_status checked(const struct tc_deal *deal)
{
    enum tc_status status = TC_OK;
    tc_money_add(tc_deal_sum(deal, &status), deal->fee, &status);
    return status;
}

/* All tanks at one price, without a fee. */
static struct tc_deal simple_deal(const struct tc_deal_terms *terms, enum tc_deal_kind kind, tc_money each)
{
    return (struct tc_deal){
        .kind = kind,
        .known = true,
        .listed = terms->listed,
        .quantity = terms->quantity,
        .each = each,
        .first = terms->quantity,
        .list = terms->listed ? terms->list : each,
        .later = terms->listed ? terms->list : each,
    };
}

static struct tc_deal on_sale(const struct tc_deal_terms *terms, enum tc_status *status)
{
    const struct tc_sale *sale = terms->sale;
    tc_money list = terms->listed ? terms->list : 0;
    tc_money each = tc_sale_price(sale, terms->nominal_volume, list, terms->currency, status);
    struct tc_deal deal = simple_deal(terms, TC_DEAL_SALE, each);
    deal.sale = sale;
    if (sale->limit > 0 && sale->limit < terms->quantity)
        deal.first = sale->limit;
    /* Neither a share off nor the tanks beyond the limit have a price where there is no list price. */
    deal.known = terms->listed || (sale->rule != TC_SALE_PERCENT && deal.first == deal.quantity);
    return deal;
}

/* The deal at one shop. */
static enum tc_status make_one(const struct tc_deal_terms *terms, struct tc_deal *deal)
{
    enum tc_status status = TC_OK;
    if (terms->typed) {
        *deal = simple_deal(terms, TC_DEAL_TYPED, terms->price);
    } else if (terms->sale) {
        *deal = on_sale(terms, &status);
    } else {
        *deal = simple_deal(terms, terms->ordered ? TC_DEAL_ORDER : TC_DEAL_LIST,
                            terms->listed ? terms->list : 0);
        deal->known = terms->listed;
    }
    int beyond = deal->kind == TC_DEAL_SALE ? deal->quantity - deal->first : deal->quantity;
    deal->fee = tc_money_times(terms->order_fee, terms->ordered ? beyond : 0, &status);
    return status == TC_OK ? checked(deal) : status;
}

/* How well a shop may stand for the one where a price was agreed on that was typed; 0: not at all. */
static int likelihood(const struct tc_deal_shop *shop)
{
    return !shop->open ? 0 : shop->once ? 1 : shop->listed ? 3 : 2;
}

/* What a later one costs, where a shop has it on its list. */
static bool find_later(const struct tc_deal_terms *terms, tc_money *later)
{
    bool found = false;
    for (int once = 0; once <= 1 && !found; once++)
        for (int s = 0; s < terms->shops; s++) {
            const struct tc_deal_shop *shop = &terms->shop[s];
            if (!shop->open || !shop->listed || shop->once != (once == 1) || (found && shop->list >= *later))
                continue;
            *later = shop->list;
            found = true;
        }
    return found;
}

/* The deal at one shop of a market. */
static enum tc_status make_at(const struct tc_deal_terms *terms, int shop, struct tc_deal *deal)
{
    struct tc_deal_terms own = *terms;
    own.listed = terms->shop[shop].listed;
    own.list = terms->shop[shop].list;
    own.order_fee = terms->shop[shop].order_fee;
    enum tc_status status = make_one(&own, deal);
    deal->shop = shop;
    return status;
}

/* The deal at each shop of a market. */
static enum tc_status make_all(const struct tc_deal_terms *terms, struct tc_deal *deal)
{
    struct tc_deal one;
    struct tc_deal_at at[TC_SHOPS_MAX];
    tc_money least = 0;
    int likely = 1, front = 0;
    bool known = false;
    memset(at, 0, sizeof at);
    for (int s = 0; s < terms->shops; s++)
        likely = tc_larger(likely, likelihood(&terms->shop[s]));
    for (int s = 0; s < terms->shops; s++) {
        const struct tc_deal_shop *shop = &terms->shop[s];
        bool here = !terms->typed ? !terms->sale || terms->sale_shop == s : likelihood(shop) == likely;
        enum tc_status status = make_at(terms, s, &one);
        if (status != TC_OK)
            return status;
        at[s] = (struct tc_deal_at){
            shop->open, shop->open && shop->listed, shop->open && here && one.known, one.each, one.list,
            one.fee};
        tc_money sum = tc_money_add(tc_deal_sum(&one, &status), one.fee, &status);
        if (!at[s].sold || (known && sum >= least))
            continue;
        known = true;
        least = sum;
        front = s;
    }
    for (int s = terms->shops; !known && s-- > 0;)
        front = terms->shop[s].open ? s : front;
    enum tc_status status = make_at(terms, front, deal);
    deal->known = known;
    deal->shops = terms->shops;
    deal->listed = find_later(terms, &deal->later);
    memcpy(deal->at, at, sizeof at);
    return status;
}

enum tc_status tc_deal_make(const struct tc_deal_terms *terms, struct tc_deal *deal)
{
    return terms->shops > 0 ? make_all(terms, deal) : make_one(terms, deal);
}

void tc_deal_settle(struct tc_deal *deal, int shop)
{
    deal->shop = shop;
    deal->each = deal->at[shop].each;
    deal->list = deal->at[shop].list;
    deal->fee = deal->at[shop].fee;
}

void tc_deal_keep_to(struct tc_deal *deal, int shop)
{
    for (int s = 0; s < deal->shops; s++)
        if (s != shop)
            deal->at[s] = (struct tc_deal_at){.open = false};
    deal->known = deal->at[shop].sold;
    deal->listed = deal->at[shop].listed;
    deal->later = deal->at[shop].list;
    tc_deal_settle(deal, shop);
}

enum tc_status tc_deal_at_price(struct tc_deal *deal, tc_money each)
{
    if (!deal->known && !deal->listed)
        deal->list = deal->later = each;
    for (int s = 0; s < deal->shops; s++) {
        struct tc_deal_at *at = &deal->at[s];
        at->sold = at->open && (!deal->known || s == deal->shop);
        at->each = each;
        at->list = deal->list;
    }
    deal->kind = TC_DEAL_TYPED;
    deal->known = true;
    deal->each = each;
    deal->first = deal->quantity;
    deal->sale = NULL;
    return checked(deal);
}

tc_money tc_deal_sum(const struct tc_deal *deal, enum tc_status *status)
{
    tc_money first = tc_money_times(deal->each, deal->first, status);
    tc_money rest = tc_money_times(deal->list, deal->quantity - deal->first, status);
    return tc_money_add(first, rest, status);
}

tc_money tc_deal_sum_at(const struct tc_deal *deal, int shop, enum tc_status *status)
{
    const struct tc_deal_at *at = &deal->at[shop];
    if (!at->sold)
        return TC_NOT_SOLD;
    tc_money first = tc_money_times(at->each, deal->first, status);
    return tc_money_add(first, tc_money_times(at->list, deal->quantity - deal->first, status), status);
}
