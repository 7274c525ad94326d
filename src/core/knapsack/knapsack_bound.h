/* SPDX-License-Identifier: MIT */
/*
 * knapsack_bound.h - the bound of a packing problem (internal to pack).
 *
 * The linear relaxation of a table, in which a class may mix its choices, is
 * solved by the dual simplex method with generalised upper bounds (Dantzig and
 * Van Slyke 1967): one choice of each class is its key, and only as many
 * further elements are basic as there are rows, so that the basis to invert
 * has one line per row, not one per class.
 *
 * What counts as proof is not the simplex: from its multipliers (the worth of
 * one whole limit of each row), cut to >= 0, the Lagrangian bound
 *     sum over classes of max (gain - multipliers . shares) + sum of multipliers
 * is computed afresh. It holds for any multipliers, so an inexact simplex can
 * cost time and never an optimum (Geoffrion 1974).
 */
#ifndef TC_CORE_KNAPSACK_KNAPSACK_BOUND_H
#define TC_CORE_KNAPSACK_KNAPSACK_BOUND_H

#include "core/knapsack/knapsack_presolve.h"
#include "core/base/status.h"

enum tc_knapsack_relaxed {
    TC_RELAXED_BOUND,     /* relax->bound is the bound found */
    TC_RELAXED_CUT,       /* the bound fell to the cutoff or below */
    TC_RELAXED_IMPOSSIBLE /* certified: the choices allowed cannot keep the limits */
};

struct tc_knapsack_bound {
    const struct tc_knapsack_table *table; /* borrowed */
    double bound;                          /* upper bound of the sum of gains, its margin included */
    double *value; /* per choice: gain - multipliers . shares; valid within [low, high] */
    double *best;  /* per class: largest value allowed */
    double multiplier[TC_KNAPSACK_TABLE_ROWS];
    double part[TC_KNAPSACK_TABLE_ROWS]; /* how much of work[k] the mixed solution takes */
    int *owner;                          /* per choice: its class */
    double *along;                       /* per choice: scratch of the ratio test */
    double inverse[TC_KNAPSACK_TABLE_ROWS][TC_KNAPSACK_TABLE_ROWS];
    double size; /* magnitude of the gains, for the margin */
};

enum tc_status tc_knapsack_bound_create(struct tc_knapsack_bound *relax,
                                        const struct tc_knapsack_table *table);
void tc_knapsack_bound_free(struct tc_knapsack_bound *relax);

/* A basis to start from when there is none: every class takes its largest gain, and no limit counts. */
void tc_knapsack_bound_start(const struct tc_knapsack_table *table, int *key, int *work);

/*
 * Bounds the problem in which class i may take the choices low[i]..high[i]
 * (indexes into the table, both allowed). Stops early where the bound falls to
 * cutoff. key[classes] and work[rows] are the basis: a good start on entry
 * (of a similar problem), the one reached on return. work[k] is a choice, or
 * -1 - r for the slack of row r.
 */
enum tc_knapsack_relaxed tc_knapsack_bound_solve(struct tc_knapsack_bound *relax, const int *low,
                                                 const int *high, double cutoff, int *key, int *work);

#endif
