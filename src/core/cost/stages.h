/* SPDX-License-Identifier: MIT */
/*
 * stages.h - what to buy in which month, where only so much can be spent in each.
 *
 * Things are of two sorts. Steps are bought in their order, at one price: a
 * rack, then what stands on it, then the next rack. Of each kind, so many are
 * wanted that are all alike, in any month; in some months the first of them
 * cost less, in a sale; they wait for the steps that make room for them. All that is bought in a month is one
 * order: it is delivered at a price, or for nothing where its goods are worth enough. What is left of a
 * month's money may be spent later.
 *
 * The answer costs least of all that have everything in the months there are;
 * of these, it has everything earliest; of these, what is worth most is there
 * for most of the time. It is exact: a recursion over the months (Bellman) on how far
 * the steps and kinds are bought. To have bought that much, having spent less
 * is never worse, neither for the sum nor for what is left to spend.
 *
 * Amounts are minor units of one currency.
 */
#ifndef TC_CORE_COST_STAGES_H
#define TC_CORE_COST_STAGES_H

#include "core/base/status.h"
#include "core/money/money.h"

enum { TC_STAGE_MONTHS_MAX = 24, TC_STAGE_KINDS_MAX = 8, TC_STAGE_STEPS_MAX = 400 };

/* What a thing costs: its goods before tax, by which delivery goes, and all that is paid for it. */
struct tc_stage_price {
    tc_money goods, paid;
};

struct tc_stage_kind {
    int count; /* wanted */
    int worth; /* of each, as step_worth */
    struct tc_stage_price list;
    struct tc_stage_price sale[TC_STAGE_MONTHS_MAX]; /* of each of the first; paid no more than at list */
    int sale_most[TC_STAGE_MONTHS_MAX];              /* so many of them in that month; 0: no sale */
    int room[TC_STAGE_STEPS_MAX +
             1]; /* for so many at most when so many steps are bought; never less for more */
};

struct tc_stages {
    int months;         /* in which all has to be bought, 1 or more */
    tc_money a_month;   /* to spend */
    tc_money delivery;  /* of an order */
    tc_money free_from; /* goods worth this are brought for nothing; 0: never */
    struct tc_stage_price step[TC_STAGE_STEPS_MAX];
    int step_worth[TC_STAGE_STEPS_MAX]; /* of having it a month earlier, a million at most; below 0: of having
                                           it later */
    int step_count;
    struct tc_stage_kind kind[TC_STAGE_KINDS_MAX];
    int kind_count;
};

struct tc_stage_month {
    int steps;                       /* bought in it */
    int count[TC_STAGE_KINDS_MAX];   /* of each kind */
    int on_sale[TC_STAGE_KINDS_MAX]; /* of them */
    tc_money delivery, paid;         /* paid: with delivery */
};

struct tc_stages_answer {
    struct tc_stage_month month[TC_STAGE_MONTHS_MAX];
    int months; /* until everything is there */
    tc_money paid;
};

/*
 * TC_NO_RESULT: not all can be bought in these months. TC_RANGE: a figure is out
 * of range, or it would take too long (see tc_stages_work). TC_NO_MEMORY, TC_OVERFLOW.
 */
enum tc_status tc_stages_find(const struct tc_stages *stages, struct tc_stages_answer *answer);

/* Orders that would have to be looked at for each month, and how many there may be. */
double tc_stages_work(const struct tc_stages *stages);
#define TC_STAGES_WORK_MAX 4e6

#endif
