/* SPDX-License-Identifier: MIT */
/*
 * band.h - how far the ranges in the figures carry a candidate's present value:
 * the band between one in ten and nine in ten.
 *
 * For the sheets that show one figure and must be ready within a frame; the
 * sheet `doubts` draws many times more and says how sure it is of it.
 */
#ifndef TC_SHEET_BAND_H
#define TC_SHEET_BAND_H

#include "core/money/money.h"
#include "sheet/study.h"

struct tc_band {
    bool known; /* the study has ranges that matter, and the alternative can be worked out for all of them */
    tc_money low, high; /* one in ten, nine in ten of the draws lie below */
};

/* All of a study's. */
struct tc_bands {
    struct tc_band band[TC_CANDIDATES_MAX];
    /* The share of the draws in which the first costs less than the second; NAN where that is not known. */
    double chance[TC_CANDIDATES_MAX][TC_CANDIDATES_MAX];
};

/*
 * The bands of the study's alternatives. The present value is followed along
 * each figure alone, at five places from end to end; of the six figures that
 * move it most, each two are looked at together as well, three quarters of the
 * way to their ends, and what they do beyond each alone is taken to grow with
 * both. The sum of all that is then drawn at the points of one lattice of
 * core/cost/uncertainty.h. The ends agree with those of `doubts` within a tenth
 * of the band's width (tested), by some hundred costs in place of twenty
 * thousand: of 12 candidates in less than a frame (tests/bench/bench_sheets.c).
 * TC_NO_MEMORY, TC_OVERFLOW.
 */
enum tc_status tc_bands_find(struct tc_bands *bands, const struct tc_study *study);

#endif
