/* SPDX-License-Identifier: MIT */
/*
 * derive_bill.h - what is bought and what a year costs, line by line, as terms
 * (derive.h).
 */
#ifndef TC_SHEET_DERIVE_BILL_H
#define TC_SHEET_DERIVE_BILL_H

#include "sheet/derive.h"

/* What a month of electricity costs, all consumers together; what one of them bears of it; of the year. */
const struct tc_term *tc_derive_month_cost(struct tc_derive *derive, int month);
const struct tc_term *tc_derive_year_cost(struct tc_derive *derive);

/* Lines of a tc_cost by their index there: to buy, each year; and the sums. */
const struct tc_term *tc_derive_buy(struct tc_derive *derive, int index);
const struct tc_term *tc_derive_to_buy(struct tc_derive *derive);

/* What is paid at one shop of the market: all its goods (TC_BUY_TANK), delivery (TC_BUY_DELIVERY), tax
 * (TC_BUY_TAX), or all of it (TC_BUY_COUNT), `sum` in all. */
const struct tc_term *tc_derive_at_shop(struct tc_derive *derive, int line, int place, tc_money sum);
const struct tc_term *tc_derive_run(struct tc_derive *derive, int index);

/* A line that a meter counts, from its units by month, whatever else is made otherwise. */
const struct tc_term *tc_derive_metered(struct tc_derive *derive, int index);
const struct tc_term *tc_derive_each_year(struct tc_derive *derive);

/* One of the case's extras, what it comes to each time. */
const struct tc_term *tc_derive_extra(struct tc_derive *derive, int i);

/* Whether an extra has no amount here: in another currency, or, of a wall, borne once by other tanks. */
bool tc_derive_extra_apart(const struct tc_derive *derive, int i);

/* What heat given to the room saves in its heating, or costs in its cooling. */
const struct tc_term *tc_derive_room_money(struct tc_derive *derive, tc_money money, bool cooling);

/* Price of one tank; of one piece of a slot. */
const struct tc_term *tc_derive_tank_price(struct tc_derive *derive);
const struct tc_term *tc_derive_piece_price(struct tc_derive *derive, enum tc_slot slot);

/* The list price of one tank; tanks bought at the price that counts, or those beyond it; parts of a bundle.
 */
const struct tc_term *tc_derive_list_price(struct tc_derive *derive);
const struct tc_term *tc_derive_bought(struct tc_derive *derive, bool first);
const struct tc_term *tc_derive_included(struct tc_derive *derive, enum tc_slot slot, int included);

#endif
