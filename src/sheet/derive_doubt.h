/* SPDX-License-Identifier: MIT */
/*
 * derive_doubt.h - the ranges that a figure was drawn from, as terms (derive.h).
 */
#ifndef TC_SHEET_DERIVE_DOUBT_H
#define TC_SHEET_DERIVE_DOUBT_H

#include "sheet/derive.h"

/* An end of the band of the present value: one in ten of the draws below it, or nine in ten; with the ranges.
 */
const struct tc_term *tc_derive_band(struct tc_derive *derive, tc_money end, bool high);

#endif
