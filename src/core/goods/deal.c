/* SPDX-License-Identifier: MIT */
#include "core/goods/deal.h"

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

enum tc_status tc_deal_make(const struct tc_deal_terms *terms, struct tc_deal *deal)
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

enum tc_status tc_deal_at_price(struct tc_deal *deal, tc_money each)
{
    if (!deal->known && !deal->listed)
        deal->list = each;
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
