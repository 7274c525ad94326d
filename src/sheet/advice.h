/* SPDX-License-Identifier: MIT */
/*
 * advice.h - the rules by which a study's alternatives are held against each other: who can be compared at
 * all, who ranks first, who ties, who is beaten.
 *
 * Compared is what is complete and suits the animals. Two cost the same where they differ by at most 2 % of
 * the lower, or where the chance that one is the cheaper lies between 20 and 80 %. Of two that are not the
 * same thing cost alone decides nothing (NIST Handbook 135): it is said (verdict.h)
 * what the dearer one gives for it.
 */
#ifndef TC_SHEET_ADVICE_H
#define TC_SHEET_ADVICE_H

#include <stdbool.h>

#include "core/cost/dominance.h"
#include "sheet/band.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/* "water", "bottom", "length to swim"; "" for cost. */
const char *tc_goal_word(enum tc_goal goal);

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

/* True if it is one of those that are compared: complete, and suits. */
bool tc_rating_compared(const struct tc_rating *rating);

/* True if the alternatives' costs count as the same. */
bool tc_advice_same(const struct tc_advice *advice, int a, int b);

/* True if they do so only because the ranges in the figures leave open which is the cheaper. */
bool tc_advice_toss_up(const struct tc_advice *advice, int a, int b);

/* True if they differ in nothing that counts but cost. */
bool tc_advice_alike(const struct tc_advice *advice, int a, int b);

/* True if one holds so much more water that they are not the same thing, and cost decides little. */
bool tc_advice_unlike(const struct tc_advice *advice, int a, int b);

/* What an alternative would rank by, did owning it cost so much: for each unit of the goal. */
double tc_advice_score(const struct tc_advice *advice, int i, tc_money present_value);

/* True if two scores count as the same where nothing is known of chances; likewise of two amounts. */
bool tc_same_score(double a, double b);
bool tc_same_cost(tc_money a, tc_money b);

/*
 * For sentences on an alternative, each a text that lives as long as the sheet: how it is called (a tank by
 * its name, a wall by that of its layout in quotes), an amount with its currency, and without, where the
 * currency stands beside another one.
 */
const char *tc_advice_head(struct tc_sheet *sheet, const struct tc_advice *advice, int i);
const char *tc_advice_money(struct tc_sheet *sheet, const struct tc_study *study, tc_money amount);
const char *tc_advice_amount(struct tc_sheet *sheet, const struct tc_study *study, tc_money amount);

/* The present value of an alternative, as the plan buys it. */
tc_money tc_advice_present(const struct tc_advice *advice, int i);

#endif
