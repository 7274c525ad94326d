/* SPDX-License-Identifier: MIT */
#include "core/goods.h"

#include <string.h>

const struct tc_price *tc_price_in(const struct tc_price_list *list, struct tc_currency currency)
{
    for (int i = 0; i < list->count; i++)
        if (strcmp(list->price[i].currency.code, currency.code) == 0)
            return &list->price[i];
    return NULL;
}
