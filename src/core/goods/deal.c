/* SPDX-License-Identifier: MIT */
#include "core/goods/deal.h"

/* Whether what all of it costs is within the range of money. */
static enum tc_status checked(const struct tc_deal *deal)
{
    enum tc_status status = TC_OK;
    tc_money_add(tc_deal_sum(deal, &status), deal->fee, &status);
    return status;
}

/* All tanks at one price. */
static struct tc_deal simple_deal(enum tc_deal_kind kind, int quantity, bool listed, tc_money list,
                                  tc_money each)
{
    return (struct tc_deal){
        .kind = kind,
        .known = true,
        .listed = listed,
        .quantity = quantity,
        .each = each,
        .first = quantity,
        .list = listed ? list : each,
    };
}

enum tc_status tc_deal_at_list(struct tc_deal *deal, int quantity, bool listed, tc_money list)
{
    *deal = simple_deal(TC_DEAL_LIST, quantity, listed, list, listed ? list : 0);
    deal->known = listed;
    return checked(deal);
}

enum tc_status tc_deal_on_order(struct tc_deal *deal, int quantity, bool listed, tc_money list,
                                tc_money fee_each)
{
    enum tc_status status = TC_OK;
    *deal = simple_deal(TC_DEAL_ORDER, quantity, listed, list, listed ? list : 0);
    deal->known = listed;
    deal->fee = tc_money_times(fee_each, quantity, &status);
    return status == TC_OK ? checked(deal) : status;
}

enum tc_status tc_deal_typed(struct tc_deal *deal, int quantity, bool listed, tc_money list, tc_money each)
{
    *deal = simple_deal(TC_DEAL_TYPED, quantity, listed, list, each);
    return checked(deal);
}

enum tc_status tc_deal_on_sale(struct tc_deal *deal, int quantity, bool listed, tc_money list,
                               const struct tc_sale *sale, const struct tc_tank *tank,
                               struct tc_currency currency)
{
    enum tc_status status = TC_OK;
    tc_money each = tc_sale_price(sale, tank, listed ? list : 0, currency, &status);
    if (status != TC_OK)
        return status;
    *deal = simple_deal(TC_DEAL_SALE, quantity, listed, list, each);
    deal->sale = sale;
    if (sale->limit > 0 && sale->limit < quantity)
        deal->first = sale->limit;
    /* Neither a share off nor the tanks beyond the limit have a price where there is no list price. */
    deal->known = listed || (sale->rule != TC_SALE_PERCENT && deal->first == quantity);
    return checked(deal);
}

tc_money tc_deal_sum(const struct tc_deal *deal, enum tc_status *status)
{
    tc_money first = tc_money_times(deal->each, deal->first, status);
    tc_money rest = tc_money_times(deal->list, deal->quantity - deal->first, status);
    return tc_money_add(first, rest, status);
}
