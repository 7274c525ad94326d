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
 * each figure alone, at five places from end to end, and taken to be moved by
 * the sum of what the figures do alone; that sum is then drawn at the points of
 * one lattice of core/cost/uncertainty.h. What two figures do together beyond
 * that is small: the ends agree with those of `doubts` within a tenth of the
 * band's width (tested), at a thirtieth of the work. TC_NO_MEMORY, TC_OVERFLOW.
 */
enum tc_status tc_bands_find(struct tc_bands *bands, const struct tc_study *study);

#endif
