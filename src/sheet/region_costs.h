/* SPDX-License-Identifier: MIT */
/*
 * region_costs.h - the candidates of a study in several regions, and what turns the
 * money of each into one money.
 */
#ifndef TC_SHEET_REGION_COSTS_H
#define TC_SHEET_REGION_COSTS_H

#include "core/money/exchange.h"
#include "sheet/region_cost.h"
#include "sheet/ask.h"
#include "core/base/status.h"
#include "sheet/study.h"

/* Owns its arrays, of count items each; borrows the study. */
struct tc_region_costs {
    const struct tc_study *study;
    struct tc_currency money;         /* the one all are compared in */
    const struct tc_region **regions; /* in the stock */
    struct tc_region_cost *local;
    struct tc_conversion *conversion; /* from a region's money into the one; rate 0 where none is quoted */
    size_t count;
    int own;       /* index of the plan's own region, or -1 where the plan compares others only */
    int templates; /* regions left out because they are templates with gaps */
    size_t left;   /* regions beyond count that stopped work did not come to */
};

/*
 * Which regions they are, before anything is worked out: those the plan lists,
 * or else its own and all others but templates with gaps, compared in ask->money
 * or else the money of the plan's region. TC_SYNTAX, with ask->problem, where
 * that is not a currency or a region is unknown; TC_NO_MEMORY. Free them
 * whatever the status.
 */
enum tc_status tc_region_costs_find(struct tc_region_costs *regions, const struct tc_study *study,
                                    const struct tc_ask *ask);

/*
 * Works those regions out; the sheet takes their terms (region_cost.h). Stopped with
 * ask->partial, those that are known stay. TC_STOPPED; TC_NO_MEMORY.
 */
enum tc_status tc_region_costs_make(struct tc_region_costs *regions, const struct tc_ask *ask,
                                    struct tc_sheet *sheet);
void tc_region_costs_free(struct tc_region_costs *regions);

/* What a candidate is called, or NULL where it could not be worked out anywhere. */
const char *tc_region_costs_head(const struct tc_region_costs *regions, int candidate);

#endif
