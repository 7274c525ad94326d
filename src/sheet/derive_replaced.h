/* SPDX-License-Identifier: MIT */
/*
 * derive_replaced.h - what is bought again over the period and sold at its end, as
 * terms (derive.h).
 */
#ifndef TC_SHEET_DERIVE_REPLACED_H
#define TC_SHEET_DERIVE_REPLACED_H

#include "sheet/derive.h"

/* All that is bought again, R, as paid or in today's money; in one year, k. */
const struct tc_term *tc_derive_replaced(struct tc_derive *derive, bool today);
const struct tc_term *tc_derive_replaced_in(struct tc_derive *derive, int year, bool today);

/* What all is sold for at the end, V, in money of that day. */
const struct tc_term *tc_derive_resold(struct tc_derive *derive);

#endif
