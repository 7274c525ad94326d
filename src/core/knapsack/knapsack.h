/* SPDX-License-Identifier: MIT */
/*
 * knapsack.h - exact choice under several limits at once.
 *
 * The problem is the multiple-choice, multi-constraint knapsack (Kellerer,
 * Pferschy, Pisinger: Knapsack Problems, 2004, chapters 9 and 11): from every
 * class exactly one choice is taken; each choice has a gain and uses some of
 * every row; no row may be used beyond its limit; the sum of the gains is to
 * be as large as possible. A yes-or-no item is a class of two choices, "up to
 * five of it" a class of six, "at least N" a row of negative uses with the
 * limit -N, and least cost is a gain of minus the cost.
 *
 * Several goals may be given, in order: among the answers that are best for
 * the first, the best for the second is taken, and so on.
 *
 * Every figure is a whole number, so that "exact" is exact: sums of choices
 * are only ever compared as int64. Floating point serves the bounds alone, and
 * each bound is valid for any multipliers and carries a margin for rounding
 * (see knapsack_bound.h). The caller turns lengths, watts and the like into whole
 * units, rounding uses up and limits down.
 *
 * Same problem, same answer: the search uses no clock and no random numbers.
 */
#ifndef TC_CORE_KNAPSACK_KNAPSACK_H
#define TC_CORE_KNAPSACK_KNAPSACK_H

#include <stdbool.h>
#include <stdint.h>

#include "core/base/status.h"
#include "core/knapsack/knapsack_size.h"

struct tc_knapsack; /* a problem being built; holds all memory it uses */

struct tc_knapsack_answer {
    bool found;                            /* picks and gains hold a valid answer */
    bool proven;                           /* no better one exists, for any goal */
    int goals_proven;                      /* so many goals, from the first, are proven */
    int64_t gains[TC_KNAPSACK_GOALS_MAX];  /* what the picks reach */
    int64_t bounds[TC_KNAPSACK_GOALS_MAX]; /* what nothing can surpass, given the goals before; = gains where
                                          proven */
    int64_t nodes;                         /* nodes searched, all goals together */
};

/*
 * A problem with `rows` limits (0 to TC_KNAPSACK_ROWS_MAX) and `goals` goals (1 to
 * TC_KNAPSACK_GOALS_MAX). *pack is the caller's, to be freed with tc_knapsack_free.
 * TC_RANGE for counts or limits out of range, TC_NO_MEMORY.
 */
enum tc_status tc_knapsack_create(int rows, const int64_t *limits, int goals, struct tc_knapsack **knapsack);
void tc_knapsack_free(struct tc_knapsack *knapsack); /* NULL is allowed */

/* Opens the next class; the first is class 0. A class without choices makes the problem impossible. */
enum tc_status tc_knapsack_class(struct tc_knapsack *knapsack);

/*
 * Adds a choice to the newest class: gains[goals], uses[rows] (NULL where
 * there are no rows); of any sign. The first choice of a class is number 0.
 * Classes whose choices grow steadily in size are searched fastest.
 * TC_RANGE: no class opened, or a figure beyond TC_KNAPSACK_FIGURE_MAX.
 */
enum tc_status tc_knapsack_choice(struct tc_knapsack *knapsack, const int64_t *gains, const int64_t *uses);

/*
 * Gives the next tc_knapsack_solve an answer to start from: the number of a choice
 * for every class. It is copied; one that breaks a limit is of no use and no
 * harm. A good one saves work; which of several equally good answers is found
 * may depend on it. TC_RANGE for numbers of no choice, TC_NO_MEMORY.
 */
enum tc_status tc_knapsack_suggest(struct tc_knapsack *knapsack, const int *picks);

/*
 * Solves. picks[class] becomes the number of the choice taken; the caller
 * provides room for every class. effort may be NULL.
 *
 * TC_OK: answer->found is true; where answer->proven is false the search was
 * stopped and the picks are the best found, with the proven bounds beside
 * them. TC_NO_RESULT: proven that no picks keep all limits. TC_STOPPED: the
 * search was stopped before any valid picks were found. TC_OVERFLOW: sums over
 * the classes would leave TC_KNAPSACK_FIGURE_MAX. TC_NO_MEMORY.
 */
enum tc_status tc_knapsack_solve(struct tc_knapsack *knapsack, const struct tc_knapsack_effort *effort,
                                 struct tc_knapsack_answer *answer, int *picks);

#endif
