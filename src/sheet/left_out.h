/* SPDX-License-Identifier: MIT */
/*
 * left_out.h - whom the advice leaves out: alternatives that do not suit the animals, and those whose cost
 * is not known; why, and what would mend it.
 */
#ifndef TC_SHEET_LEFT_OUT_H
#define TC_SHEET_LEFT_OUT_H

#include "sheet/advice.h"

/* Adds the findings on them: one sentence on each kind, and one on what would mend it. */
void tc_left_out_tell(struct tc_sheet *sheet, const struct tc_advice *advice);

/* "its heater has no price here": what the cost of an alternative lacks; *mend: what would mend it. */
const char *tc_left_out_gap(struct tc_sheet *sheet, const struct tc_alternative *alternative,
                            const char **mend);

/* "Of the 2 that suit, ": what a sentence on the best begins with where others are left out; else "". */
const char *tc_left_out_among(struct tc_sheet *sheet, const struct tc_advice *advice);

#endif
