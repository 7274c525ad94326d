/* SPDX-License-Identifier: MIT */
/*
 * search_budget.h - how much work a sheet gives a search for the best mix, and how
 * progress is reported.
 *
 * Where somebody waits at a screen, a search ends after a fraction of a second;
 * a command may take longer. The sheet says what a search ended with: the best
 * found and the bound.
 */
#ifndef TC_SHEET_SEARCH_BUDGET_H
#define TC_SHEET_SEARCH_BUDGET_H

#include <stdbool.h>

#include "core/knapsack/knapsack.h"
#include "sheet/ask.h"
#include "core/base/status.h"

struct tc_search_budget {
    const struct tc_ask *ask;
    double from, to; /* the share of the whole work that the searches to come are */
    int64_t nodes;   /* most of them a goal, of one search */
    double done;     /* share told last: it never goes back */
    bool stopped;    /* the person said so, and a find is of no use */
    bool cut;        /* the same where what is known so far is wanted: all searches end soon */
};

/* A search that is all of the work. */
void tc_search_budget_start(struct tc_search_budget *search, const struct tc_ask *ask);

/*
 * Begins one search: tells how far the work is, and what effort to spend, which borrows the search.
 * TC_STOPPED where the person said so, but not where what is known so far is wanted. Look at search->stopped
 * afterwards as well: a find is then of no use.
 */
enum tc_status tc_search_budget_begin(struct tc_search_budget *search, struct tc_knapsack_effort *effort);

#endif
