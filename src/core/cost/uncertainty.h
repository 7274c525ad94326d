/* SPDX-License-Identifier: MIT */
/*
 * uncertainty.h - how sure is the choice, when some figures are known as ranges.
 *
 * A study draws all uncertain figures many times, computes the cost of every
 * candidate from the same draw, and counts. Common draws make the candidates
 * comparable: what is costly for all does not decide between them.
 *
 * The draws of a chunk are the 1021 points of a lattice that fills the cube
 * of all figures evenly, moved by a random vector of its own. So each draw
 * has exactly the distribution asked for, chunks are independent of one
 * another, and the standard errors below are found from the scatter between
 * chunks. Independent draws would have to be some three times as many for the same
 * error of the chances, and a hundred times as many for that of the means (`make
 * bench`). (P. L'Ecuyer and C. Lemieux, "Variance reduction via lattice
 * rules", Management Science 46 (2000) 1214-1235.)
 *
 * The same seed gives the same answer to the last bit on any number of
 * threads: the chunks are fixed parts of one random sequence, and their sums
 * are added in the order of the chunks.
 */
#ifndef TC_CORE_COST_UNCERTAINTY_H
#define TC_CORE_COST_UNCERTAINTY_H

#include <stdbool.h>
#include <stdint.h>

#include "core/base/parallel.h"
#include "core/base/spread.h"
#include "core/base/status.h"
#include "core/cost/lattice.h"

enum {
    TC_UNCERTAINTY_CHUNK = TC_LATTICE_POINTS,
    TC_UNCERTAINTY_FEWEST_CHUNKS = 16,
    TC_UNCERTAINTY_MOST_CHUNKS = 10000,
    TC_UNCERTAINTY_MOST_CANDIDATES = 512,
    TC_UNCERTAINTY_MOST_FIGURES = TC_LATTICE_MOST_FIGURES
};

/*
 * Computes the cost of all candidates for one set of figures: all at once, so
 * that what they share (a tariff with a drawn rate) is made once. Called from
 * several threads at a time: context must not be written to. Every cost must
 * come out finite, and the same figures must give the same costs.
 */
typedef void tc_uncertainty_costs(void *context, const double figures[], double costs[]);

struct tc_uncertainty_study {
    int candidates; /* 1 to TC_UNCERTAINTY_MOST_CANDIDATES */
    int figures;    /* 0 to TC_UNCERTAINTY_MOST_FIGURES */
    const struct tc_spread *spreads;
    tc_uncertainty_costs *costs;
    void *context;
    int draws; /* rounded up to whole chunks, within the fewest and most */
    uint64_t seed;
    int threads;
    tc_go_on *go_on; /* progress and stop, see parallel.h; may be NULL */
    void *go_on_context;
    bool partial; /* stopped work says what is known from the draws so far, where these are enough */
};

struct tc_uncertainty_candidate {
    double middle;         /* cost with every figure at its middle */
    double cheapest;       /* share of draws in which no other is cheaper; ties are shared */
    double cheapest_error; /* standard error of that share */
    double mean, mean_error;
    double deviation;     /* standard deviation of the cost */
    double p10, p50, p90; /* of the draws that are kept, see tc_uncertainty_run */
    double regret;        /* mean of what it costs more than the cheapest of the draw */
    double regret_error;
};

/*
 * What one figure does alone, all others at their middle. The difference is
 * the cost of the second best candidate less that of the best (both by their
 * middle costs): positive while the best stays ahead of it. `turn_below` is the
 * value nearest to the middle, going down, at which another candidate takes
 * the lead, `turn_above` the same going up; NaN where the best stays ahead of
 * all. winner_* says who takes the lead (-1: nobody). The way down and up is
 * looked at in eight steps each and the first change bisected; a lead that
 * changes and changes back within one step can be missed.
 */
struct tc_uncertainty_bar {
    int figure;
    /*
     * Expected value of perfect information about this figure alone (EVPPI): what
     * the choice costs less on average by who knows the figure, and of the others
     * only their ranges. E min over x of E[cost | x], by regression: the costs of
     * the draws are fitted by a cubic in the figure (M. Strong, J. E. Oakley, A.
     * Brennan, Medical Decision Making 34(3), 2014, 311-326, who fit splines). A
     * cost that moves in steps is smoothed by it.
     */
    double worth;
    double at_low, at_high; /* the difference at the ends of the range */
    double turn_below, turn_above;
    int winner_below, winner_above;
};

struct tc_uncertainty {
    int candidates, figures;
    int draws;        /* done */
    double worth;     /* expected value of perfect information about all figures at once (EVPI) */
    int best, second; /* by cost at the middle; second is -1 for a single candidate */
    struct tc_uncertainty_candidate *candidate; /* candidates of them */
    struct tc_uncertainty_bar *bar;             /* figures of them, the longest |at_high - at_low| first */
};

/*
 * Runs a study. The result is to be freed with tc_uncertainty_free whatever the
 * status: on any but TC_OK it is empty. TC_RANGE for counts out of range, a
 * spread tc_spread_check refuses, or a cost that is not finite; TC_NO_MEMORY;
 * TC_STOPPED if go_on said so (and, with `partial`, too little was drawn by then).
 *
 * Memory does not grow with the draws beyond some: two million costs are kept one
 * by one, those of the first draws. The percentiles and what knowing one figure is
 * worth are found from these; everything else counts all draws.
 */
enum tc_status tc_uncertainty_run(const struct tc_uncertainty_study *study, struct tc_uncertainty *result);

void tc_uncertainty_free(struct tc_uncertainty *result);

#endif
