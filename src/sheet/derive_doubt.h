/* SPDX-License-Identifier: MIT */
/*
 * derive_doubt.h - the ranges that a figure was drawn from, as terms (derive.h).
 */
#ifndef TC_SHEET_DERIVE_DOUBT_H
#define TC_SHEET_DERIVE_DOUBT_H

#include "sheet/derive.h"

/* Adds the ranges of a study to a term: of each its middle and where it stands, with its ends below. */
void tc_derive_ranges(struct tc_sheet *sheet, const struct tc_study *study, struct tc_term *term);

/* An end of the band of the present value: one in ten of the draws below it, or nine in ten; with the ranges.
 */
const struct tc_term *tc_derive_band(struct tc_derive *derive, tc_money end, bool high);

#endif
