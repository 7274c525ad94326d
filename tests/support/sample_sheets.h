/* SPDX-License-Identifier: MIT */
/*
 * sample_sheets.h - sheets made by hand, for the tests of what shows sheets.
 *
 * All figures, places and prices are invented. Each function starts the sheet
 * it is given; free it with tc_sheet_free.
 */
#ifndef TC_TESTS_SAMPLE_SHEETS_H
#define TC_TESTS_SAMPLE_SHEETS_H

#include <stddef.h>

#include "sheet/sheet.h"

void sample_bill(
    struct tc_sheet *sheet);             /* three tanks; groups, sums, every mark, something missing, notes */
void sample_fit(struct tc_sheet *sheet); /* units, words in cells, sentences */
void sample_list(struct tc_sheet *sheet);   /* a column of words */
void sample_places(struct tc_sheet *sheet); /* seven columns in three currencies, with 0, 2 and 3 decimals */
void sample_energy(struct tc_sheet *sheet); /* bars */
void sample_years(struct tc_sheet *sheet);  /* lines */
void sample_doubts(struct tc_sheet *sheet); /* spans */
void sample_shortlist(struct tc_sheet *sheet); /* points */
void sample_wall(struct tc_sheet *sheet);      /* a drawing */
void sample_odd(struct tc_sheet *sheet);       /* texts and figures that formats trip over */

/* All of them by name, for tests that take each: samples[i].make for i < sample_count. */
struct sample {
    const char *name;
    void (*make)(struct tc_sheet *sheet);
};
extern const struct sample samples[];
extern const size_t sample_count;

#endif
