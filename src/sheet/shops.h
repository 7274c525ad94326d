/* SPDX-License-Identifier: MIT */
/*
 * shops.h - what it would cost to buy at several shops what an alternative
 * buys at one.
 */
#ifndef TC_SHEET_SHOPS_H
#define TC_SHEET_SHOPS_H

#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/*
 * Adds to a sheet, for an alternative bought at the study's shop, the cheapest
 * spread of its purchase over all sellers of the region (core/cost/basket.h),
 * or that none is cheaper, and how much more would make delivery free. Other
 * shops are asked for their list prices; a price that was typed holds where
 * it was typed. Nothing where the study has no shop or the region no other.
 * TC_NO_MEMORY, TC_OVERFLOW, TC_RANGE.
 */
enum tc_status tc_shops_compare(struct tc_sheet *sheet, const struct tc_study *study,
                                const struct tc_alternative *alternative);

/*
 * The same as an answer (a finding) and without the tank's name, for a sheet that advises on this one
 * alternative; nothing where no other way costs less.
 */
enum tc_status tc_shops_advise(struct tc_sheet *sheet, const struct tc_study *study,
                               const struct tc_alternative *alternative);

/*
 * Adds, for each alternative of a study that does not look for it, at which one shop all of it would cost
 * least to own, its parts chosen of what that shop sells, and how much more or less that is. TC_NO_MEMORY,
 * TC_OVERFLOW, TC_RANGE.
 */
enum tc_status tc_shops_tell_best(struct tc_sheet *sheet, const struct tc_study *study);

/* How many sellers the region has. */
int tc_shops_count(const struct tc_study *study);

#endif
