/* SPDX-License-Identifier: MIT */
/*
 * left_out.h - whom the advice leaves out: alternatives that do not suit the animals, and those whose cost
 * is not known; why, and what would mend it.
 */
#ifndef TC_SHEET_LEFT_OUT_H
#define TC_SHEET_LEFT_OUT_H

#include "sheet/advice.h"

/* "too short": what is wrong with a tank that gives not enough of a need, or too much. */
const char *tc_left_out_need(enum tc_need need);

/* What follows those words in a sentence: " for the animals", or "" where they say for what already. */
const char *tc_left_out_for(enum tc_need need);

/* The first need that is not met; NULL where all are. */
const struct tc_lack *tc_left_out_lack(const struct tc_alternative *alternative);

/* Adds the findings on them: one sentence on each kind, and one on what would mend it. */
void tc_left_out_tell(struct tc_sheet *sheet, const struct tc_advice *advice);

/* "Of the 2 that suit, ": what a sentence on the best begins with where others are left out; else "". */
const char *tc_left_out_among(struct tc_sheet *sheet, const struct tc_advice *advice);

#endif
