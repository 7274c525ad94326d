/* SPDX-License-Identifier: MIT */
/*
 * derive_shops.h - at which shop things are bought, and what the shops take
 * beside their prices, as terms (derive.h). `lines` are the terms of tank, slots
 * and fee, as tc_derive_buy gives them; NULL for a line of nothing.
 */
#ifndef TC_SHEET_DERIVE_SHOPS_H
#define TC_SHEET_DERIVE_SHOPS_H

#include "sheet/derive.h"

/* The place in the market of the shop that a line of tank and slots is bought at; -1: at none, or no market.
 */
int tc_derive_place(const struct tc_derive *derive, int line);

/* That shop; the study's own without a market. Where a later one is bought: of a slot, or -1 the tank. */
const struct tc_shop *tc_derive_shop(const struct tc_derive *derive, int line);
const struct tc_shop *tc_derive_later_shop(const struct tc_derive *derive, int slot);

/* Lines of the purchase. */
const struct tc_term *tc_derive_fee(struct tc_derive *derive);
const struct tc_term *tc_derive_delivery(struct tc_derive *derive, const struct tc_term *const lines[]);
const struct tc_term *tc_derive_taxes(struct tc_derive *derive, const struct tc_term *const lines[]);

/* What is paid at one shop: its goods, delivery and tax. */
const struct tc_term *tc_derive_goods_at(struct tc_derive *derive, const struct tc_term *const lines[],
                                         int place);
const struct tc_term *tc_derive_delivery_at(struct tc_derive *derive, const struct tc_term *const lines[],
                                            int place);
const struct tc_term *tc_derive_tax_at(struct tc_derive *derive, const struct tc_term *const lines[],
                                       int place);

#endif
