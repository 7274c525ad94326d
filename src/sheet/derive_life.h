/* SPDX-License-Identifier: MIT */
/*
 * derive_life.h - what is paid over the period, line by line, as terms
 * (derive.h).
 */
#ifndef TC_SHEET_DERIVE_LIFE_H
#define TC_SHEET_DERIVE_LIFE_H

#include "sheet/derive.h"

/* Lines of a tc_cost by their index there, as paid and in today's money; and the sums. */
const struct tc_term *tc_derive_paid(struct tc_derive *derive, int index);
const struct tc_term *tc_derive_as_paid(struct tc_derive *derive);
const struct tc_term *tc_derive_present(struct tc_derive *derive, int index);
const struct tc_term *tc_derive_present_value(struct tc_derive *derive);

/* What an equal amount for each year of the study is worth today, for each unit of it: U. */
const struct tc_term *tc_derive_annuity(struct tc_derive *derive);

/* What is paid up to the end of a year, as the flow of the cost has it, not rounded. */
const struct tc_term *tc_derive_course(struct tc_derive *derive, int year, bool today);

/* The same with its share of what the rounding of the bill's lines made: sheet/years.c; rounded. */
const struct tc_term *tc_derive_by_year(struct tc_derive *derive, int year, bool today, tc_money money);

/* Present values that the bill rounds: what is invested (bought, replaced, less resale), and what running
 * costs. */
const struct tc_term *tc_derive_invested(struct tc_derive *derive);
const struct tc_term *tc_derive_running(struct tc_derive *derive);

#endif
