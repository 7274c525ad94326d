/* SPDX-License-Identifier: MIT */
#include "profile/shop_keys.h"

#include "core/goods/shop.h"
#include "profile/key_table.h"

#define SHOP struct tc_shop

static const struct tc_key_word never[] = {{"never", 0}, {NULL, 0}};
static const struct tc_key_word no_pick_up[] = {{"none", -1}, {NULL, 0}};

static const struct tc_key keys[] = {
    TC_TITLE_KEY(SHOP, title, "Shop of Lowmere, by the mill"),
    TC_NAME_KEY("region", SHOP, region, NULL, "lowmere", "where it sells", .of = "region"),
    {.name = "seller",
     .form = TC_KEY_CHOICE,
     .offset = offsetof(SHOP, seller),
     .words = "shop private",
     .fallback = "shop",
     .example = "private",
     .help = "shop, or private: a private seller adds no sales tax"},
    TC_MONEY_KEY("delivery", SHOP, delivery, 1e8, "0", "35", "cost of delivery of one order"),
    TC_MONEY_KEY("delivery-free-from", SHOP, delivery_free_from, 1e8, "never", "250",
                 "orders from this amount are delivered free", .word = never),
    TC_MONEY_KEY("pick-up", SHOP, pick_up, 1e8, "none", "6",
                 "what it costs you to fetch an order there: the trip; the word none: it cannot be fetched",
                 .word = no_pick_up),
    TC_MONEY_KEY("order-fee", SHOP, order_fee, 1e8, "0", "25", "fee for each tank on special order"),
    TC_INVENTED_KEY(SHOP, invented),
};

const struct tc_key_table tc_shop_keys = {
    .kind = "shop",
    .help = "who sells in a region; prices and sales name it",
    .keys = keys,
    .count = TC_COUNT_OF(keys),
    .record_size = sizeof(SHOP),
};
