/* SPDX-License-Identifier: MIT */
/*
 * shop.h - who sells, in a region: a shop, or a private seller. Its price lists
 * and sales stand beside it.
 *
 * Amounts are in major units of the region's currency.
 */
#ifndef TC_CORE_GOODS_SHOP_H
#define TC_CORE_GOODS_SHOP_H

#include <stdbool.h>

#include "core/goods/goods.h"
#include "core/base/name.h"

enum tc_seller {
    TC_SELLER_SHOP,
    TC_SELLER_PRIVATE /* adds no sales tax, and sells what is on the list alone */
};

struct tc_shop {
    char name[TC_NAME_SIZE];
    char title[TC_TITLE_SIZE];
    char region[TC_NAME_SIZE];
    enum tc_seller seller;
    double delivery;           /* of one order */
    double delivery_free_from; /* goods worth this are brought for nothing; 0: never */
    double pick_up;            /* what it costs to fetch an order there; below 0: it cannot be fetched */
    double order_fee;          /* for a special order, each tank */
    bool invented;             /* its terms, prices and sales */
};

#endif
