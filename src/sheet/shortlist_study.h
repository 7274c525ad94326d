/* SPDX-License-Identifier: MIT */
/*
 * shortlist_study.h - every tank of the stock worked out for one plan: which suit
 * its setup, fit its space and keep its budget, in what order, and what a little
 * more of one limit would let in.
 *
 * Each tank is worked out as a candidate of its own, bought one at a time in the
 * way of the plan. First comes what its measures alone decide; what passes is
 * equipped and costed, on several threads. What is left out for one limit of the
 * space alone is costed only as far as it takes to say what that limit would
 * have to be. The answer does not depend on the number of threads.
 */
#ifndef TC_SHEET_SHORTLIST_STUDY_H
#define TC_SHEET_SHORTLIST_STUDY_H

#include <stdbool.h>

#include "sheet/ask.h"
#include "core/base/status.h"
#include "sheet/study.h"

/* Why a tank is left out. Those before TC_OUT_LIMITS are limits of the plan's space. */
enum tc_out {
    TC_OUT_LENGTH, /* m */
    TC_OUT_WIDTH,  /* m */
    TC_OUT_HEIGHT, /* m, with stand and access */
    TC_OUT_WEIGHT, /* kg, filled */
    TC_OUT_REACH,  /* m */
    TC_OUT_BUDGET, /* minor units */
    TC_OUT_LIMITS,
    TC_OUT_ANIMALS = TC_OUT_LIMITS, /* it does not suit the setup's animals: see suit */
    TC_OUT_EQUIPMENT,               /* a slot that nothing on offer fits */
    TC_OUT_FAILED,                  /* it cannot be worked out */
    TC_OUT_COUNT
};

/* A tank of the stock. What is not worked out is 0. */
struct tc_listed {
    const struct tc_tank *tank;  /* borrowed */
    unsigned out;                /* 1u << each reason that is known; 0: it is on the list */
    bool worked_out;             /* equipped and costed; else `out` holds what its measures say alone */
    bool priced;                 /* its price and those of its parts are known; else the sums lack them */
    enum tc_slot unfitted;       /* TC_OUT_EQUIPMENT: the first such slot */
    double takes[TC_OUT_LIMITS]; /* what each limit would have to be for it, in the units above */
    tc_money to_buy, to_own;
    double water, bottom, swim_length, reach; /* m3, m2, m, m */
    double upkeep;                            /* hours a year */
    struct tc_suit suit;
    char how[TC_NAME_SIZE + 48]; /* how it is bought */
    int beaten_by;               /* a tank of the list that no other beats, by its index; -1: unbeaten */
};

/* What one limit would have to be to let in what it alone keeps out. */
struct tc_near_miss {
    enum tc_out limit;
    double least; /* the limit that lets the first of them in, in the units above */
    int tank;     /* that one's index */
};

/* Owns its arrays; borrows the study. */
struct tc_shortlist {
    const struct tc_study *study;
    struct tc_listed *tanks; /* of the stock, in its order */
    int count;
    int *ranked; /* indexes of those on the list: the priced ones by the goal, then the others */
    int ranked_count, priced_count;
    struct tc_near_miss near[TC_OUT_LIMITS];
    int near_count;
    int looked;   /* tanks of which all is known that counts */
    bool stopped; /* these are not all */
    bool growing; /* nor are these, and the others follow */
};

/* Takes note of a list that grows: it lasts as long as the call. */
typedef void tc_shortlist_told(void *context, const struct tc_shortlist *known);

/*
 * Works the list out. TC_NO_MEMORY, TC_STOPPED where ask->go_on said so: with ask->partial the list of those
 * that were worked out by then, without near misses, if there are any. Free it
 * whatever the status.
 *
 * Where told is not NULL it is told what is known as soon as some are worked out, and then each time twice as
 * many are, while much is left to do: ranked, without near misses.
 */
enum tc_status tc_shortlist_make(struct tc_shortlist *list, const struct tc_study *study,
                                 const struct tc_ask *ask, tc_shortlist_told *told, void *context);

/*
 * A tank of the list worked out once more, whole, as a candidate that says nothing of itself. The alternative
 * borrows the candidate and the study.
 */
enum tc_status tc_shortlist_again(const struct tc_shortlist *list, int index, struct tc_candidate *candidate,
                                  struct tc_alternative *alternative);

void tc_shortlist_free(struct tc_shortlist *list);

#endif
