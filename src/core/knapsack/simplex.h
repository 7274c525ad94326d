/* SPDX-License-Identifier: MIT */
/*
 * simplex.h - a linear program whose columns come one after another.
 *
 *     largest sum of gain[k] * x[k]  with  sum of use[r][k] * x[k] <= limit[r],  x >= 0
 *
 * The revised primal simplex method in two phases (Dantzig; Chvatal, Linear
 * Programming, 1983, chapters 7 and 8) with an inverse of one line per row, for
 * column generation (Gilmore and Gomory 1961): solve, ask for a column that
 * would gain at the multipliers, add it, solve again. The multipliers are what
 * a caller builds its proofs on, by a bound that holds for any multipliers >= 0.
 * So an inexact solution can cost time and never an optimum.
 */
#ifndef TC_CORE_KNAPSACK_SIMPLEX_H
#define TC_CORE_KNAPSACK_SIMPLEX_H

#include <stdbool.h>

#include "core/base/status.h"

enum { TC_SIMPLEX_ROWS_MAX = 64 };

struct tc_simplex; /* owns all memory it uses */

/* TC_RANGE: too many rows; TC_NO_MEMORY. The limits may be negative. Freed with tc_simplex_free (NULL too).
 */
enum tc_status tc_simplex_create(int rows, const double *limits, struct tc_simplex **simplex);
void tc_simplex_free(struct tc_simplex *simplex);

/* Adds a column, the first being 0, with uses[rows]; TC_NO_MEMORY. */
enum tc_status tc_simplex_add(struct tc_simplex *simplex, double gain, const double *uses);

/*
 * Solves from the last basis on: the first phase, which looks for any x that
 * keeps the limits, as long as none is known, then the second. multiplier[rows],
 * never negative, are those of the phase it ended in. Returns whether there is
 * such an x. Columns added later may yet give one.
 */
bool tc_simplex_solve(struct tc_simplex *simplex, double *multiplier);

#endif
