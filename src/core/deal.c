/* SPDX-License-Identifier: MIT */
#include "core/deal.h"

static enum tc_status settle(struct tc_deal *deal, enum tc_deal_kind kind, int quantity, bool known,
                             tc_money each, tc_money list)
{
    *deal = (struct tc_deal){
        .kind = kind, .known = known, .quantity = quantity, .each = each, .first = quantity, .list = list};
    enum tc_status status = TC_OK;
    tc_deal_sum(deal, &status);
    return status;
}

enum tc_status tc_deal_at_list(struct tc_deal *deal, int quantity, bool listed, tc_money list)
{
    return settle(deal, TC_DEAL_LIST, quantity, listed, listed ? list : 0, listed ? list : 0);
}

enum tc_status tc_deal_on_order(struct tc_deal *deal, int quantity, bool listed, tc_money list,
                                tc_money fee_each)
{
    enum tc_status status =
        settle(deal, TC_DEAL_ORDER, quantity, listed, listed ? list : 0, listed ? list : 0);
    deal->fee = tc_money_times(fee_each, quantity, &status);
    return status;
}

enum tc_status tc_deal_typed(struct tc_deal *deal, int quantity, bool listed, tc_money list, tc_money each)
{
    return settle(deal, TC_DEAL_TYPED, quantity, true, each, listed ? list : each);
}

enum tc_status tc_deal_on_sale(struct tc_deal *deal, int quantity, bool listed, tc_money list,
                               const struct tc_sale *sale, const struct tc_tank *tank,
                               struct tc_currency currency)
{
    enum tc_status status = TC_OK;
    tc_money each = tc_sale_price(sale, tank, listed ? list : 0, currency, &status);
    if (status != TC_OK)
        return status;
    bool known = listed || sale->rule != TC_SALE_PERCENT;
    status = settle(deal, TC_DEAL_SALE, quantity, known, each, listed ? list : each);
    deal->sale = sale;
    if (sale->limit > 0 && sale->limit < quantity) {
        deal->first = sale->limit;
        deal->known = deal->known && listed; /* the rest is bought at list price */
        tc_deal_sum(deal, &status);
    }
    return status;
}

tc_money tc_deal_sum(const struct tc_deal *deal, enum tc_status *status)
{
    tc_money first = tc_money_times(deal->each, deal->first, status);
    tc_money rest = tc_money_times(deal->list, deal->quantity - deal->first, status);
    return tc_money_add(first, rest, status);
}
