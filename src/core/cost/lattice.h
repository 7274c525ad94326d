/* SPDX-License-Identifier: MIT */
/*
 * lattice.h - the draws of uncertain figures, in chunks of evenly spread points.
 *
 * Each chunk is a rank-1 lattice that fills the cube of all figures, moved by a
 * random vector of its own (see uncertainty.h for why, and for the source).
 */
#ifndef TC_CORE_COST_LATTICE_H
#define TC_CORE_COST_LATTICE_H

#include <stdint.h>

#include "core/base/spread.h"

enum { TC_LATTICE_POINTS = 1021, TC_LATTICE_MOST_FIGURES = 512 };

/* The points of one chunk, one after the other. */
struct tc_lattice {
    int count; /* of the figures that are not fixed */
    double shift[TC_LATTICE_MOST_FIGURES];
    int place[TC_LATTICE_MOST_FIGURES]; /* in cells of 1 / TC_LATTICE_POINTS */
    int step[TC_LATTICE_MOST_FIGURES];
};

/*
 * Begins a chunk of the draws of these figures. Each owns the same number of steps of the
 * one random sequence of the seed: 2 for each figure that is not fixed.
 */
void tc_lattice_start(struct tc_lattice *lattice, const struct tc_spread spreads[], int figures,
                      uint64_t seed, int chunk);

/* The next draw of the k-th of the figures that are not fixed. */
double tc_lattice_draw(struct tc_lattice *lattice, int k, const struct tc_spread *spread);

/*
 * By how many cells of 1 / TC_LATTICE_POINTS a figure goes on from one point
 * of the first lattice to the next: for those who want its points alone.
 */
int tc_lattice_step(int figure);

#endif
