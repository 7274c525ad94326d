/* SPDX-License-Identifier: MIT */
/*
 * advice.h - what a knowledgeable friend would say of a study's alternatives: whom to leave out and why,
 * which one to take, when it is a tie, and what more money buys.
 *
 * Compared is what is complete and suits the animals. Two cost the same where they differ by at most 2 % of
 * the lower, or where the chance that one is the cheaper lies between 20 and 80 %. Of two that are not the
 * same thing cost alone decides nothing (NIST Handbook 135): it is said what the dearer one gives for it.
 */
#ifndef TC_SHEET_ADVICE_H
#define TC_SHEET_ADVICE_H

#include <stdbool.h>

#include "core/cost/dominance.h"
#include "sheet/band.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

struct tc_rating {
    bool complete; /* every figure of its cost is known */
    bool suits;    /* the animals of its setup */
    int beaten_by; /* one of those compared that is better in everything that counts, or -1 */
    struct tc_merits merits;
    double score; /* what the goal ranks by: the present value, or that for each unit of the goal */
};

struct tc_advice {
    const struct tc_study *study; /* borrowed */
    enum tc_goal goal;
    struct tc_rating rating[TC_CANDIDATES_MAX];
    struct tc_bands bands;
    int compared; /* how many are complete and suit */
    int best;     /* of those, the one of the lowest score; -1: none */
    int next;     /* the next one; -1: none */
    int tied;     /* how many of those compared tie with the best, itself among them */
};

/* TC_NO_MEMORY, TC_OVERFLOW. */
enum tc_status tc_advice_make(struct tc_advice *advice, const struct tc_study *study);

/* True if two amounts count as the same where nothing is known of chances. */
bool tc_same_cost(tc_money a, tc_money b);

/* Adds the findings: at most four sentences, the most useful first. */
void tc_advice_findings(struct tc_sheet *sheet, const struct tc_advice *advice);

/* Those of them that say whom to leave out and why; for sheets whose answer is another one. */
void tc_advice_left_out(struct tc_sheet *sheet, const struct tc_advice *advice);

#endif
