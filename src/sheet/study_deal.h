/* SPDX-License-Identifier: MIT */
/*
 * study_deal.h - how the tanks of an alternative are bought: the ways that are
 * open to them, the deal of each, and what the alternative costs with it.
 */
#ifndef TC_SHEET_STUDY_DEAL_H
#define TC_SHEET_STUDY_DEAL_H

#include "sheet/study.h"

/*
 * What the deals of an alternative follow from, into its terms: list price, typed price and fee, before it
 * is said in which way it is bought. TC_OVERFLOW.
 */
enum tc_status tc_study_terms(const struct tc_study *study, struct tc_alternative *alternative);

/*
 * The deal in the alternative's own way, for which terms and way must be there; its terms are completed with
 * what the way says, and how it is bought is put into words. TC_OVERFLOW.
 */
enum tc_status tc_study_deal_planned(const struct tc_study *study, struct tc_alternative *alternative,
                                     struct tc_deal *deal);

/* Whether a sale is held by a shop at which an alternative's tanks may be bought. */
bool tc_study_sale_here(const struct tc_study *study, const struct tc_alternative *alternative,
                        const struct tc_sale *sale);

/* The way named "list", "best", "order" or as a sale of the stock; false where it is none of them. */
bool tc_study_way_find(const struct tc_study *study, const char *name, struct tc_way *way);

/*
 * The deal of an alternative's tanks bought in a way. A typed price counts in the
 * plan's own way and in every sale: what somebody has agreed on is in no
 * shop's sale.
 */
enum tc_status tc_study_deal(const struct tc_study *study, const struct tc_alternative *alternative,
                             struct tc_way way, struct tc_deal *deal);

/* The alternative's cost with another deal, its parts chosen again where the deal brings some along. */
enum tc_status tc_study_cost(const struct tc_study *study, const struct tc_alternative *alternative,
                             const struct tc_deal *deal, struct tc_equipment *equipment,
                             struct tc_prices *prices, struct tc_cost *cost);

#endif
