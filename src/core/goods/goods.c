/* SPDX-License-Identifier: MIT */
#include "core/goods/goods.h"

#include <math.h>

#include "core/base/name.h"

const struct tc_price *tc_price_in(const struct tc_price_list *list, struct tc_currency currency)
{
    for (int i = 0; i < list->count; i++)
        if (tc_name_same(list->price[i].currency.code, currency.code))
            return &list->price[i];
    return NULL;
}

bool tc_goods_price(const struct tc_goods *goods, double own, struct tc_currency currency, double *amount)
{
    const struct tc_price *price = tc_price_in(&goods->price, currency);
    *amount = !isnan(own) ? own : price ? price->amount : 0;
    return !isnan(own) || price;
}
