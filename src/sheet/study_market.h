/* SPDX-License-Identifier: MIT */
/*
 * study_market.h - where a study buys: at the one shop of its plan, or at
 * several of the region, and what each of them takes and asks.
 *
 * A plan that buys each thing where all together costs least has a market of
 * all sellers of its region; so has one that looks for the one shop where all of an
 * alternative costs least: it is worked out at each, and the best is kept. So has a candidate
 * that says of anything at which shop it is bought, but what it does not say comes
 * from the plan's shop. A plan with a wall buys everything at its shop, or the
 * first of the region.
 */
#ifndef TC_SHEET_STUDY_MARKET_H
#define TC_SHEET_STUDY_MARKET_H

#include "sheet/study.h"

/*
 * The shop that is bought at, its terms in the study's region, and the market where one is needed.
 * TC_SYNTAX, with a fault, where the plan names what there is not; TC_OVERFLOW.
 */
enum tc_status tc_study_shops(struct tc_study *study, struct tc_faults *faults);

/*
 * What a shop takes where its checkout adds a tax; fetching takes the place of a dearer delivery, in its
 * record as well. TC_OVERFLOW.
 */
enum tc_status tc_study_shop_terms(const struct tc_study *study, double tax, struct tc_shop *shop,
                                   struct tc_shop_terms *terms, tc_money *order_fee);

/* What all parts of the stock cost there, into the study. TC_NO_MEMORY. */
enum tc_status tc_study_offers(struct tc_study *study);

/* The market of an alternative that the plan has, with offers of its own where some are pinned. TC_NO_MEMORY.
 */
enum tc_status tc_study_market(struct tc_study *study, struct tc_alternative *alternative);

/* The list prices and fees of its tanks at the shops of its market, into its terms; sticky status. */
void tc_study_market_terms(const struct tc_study *study, struct tc_alternative *alternative,
                           enum tc_status *status);

/* Whether something may be bought at a shop of the market: at the one that is pinned for it, if any, else
 * where the plan says. */
bool tc_study_may_buy(const struct tc_study *study, const char *pinned, int place);

/*
 * Where one shop is looked for. Whether it may be this one: a price typed for a part that shops sell is one
 * of theirs. A case with all that is not pinned at that shop; and the shop of equipment that was chosen so.
 */
bool tc_study_shop_serves(const struct tc_study *study, const struct tc_alternative *alternative, int shop);
void tc_study_keep_to(const struct tc_alternative *alternative, int shop, struct tc_case *c);
int tc_study_kept_to(const struct tc_alternative *alternative, const struct tc_equipment *equipment,
                     const struct tc_cost *cost);

/* Where a shop stands in the market; -1: not there. */
int tc_study_shop_place(const struct tc_study *study, const char *name);

#endif
