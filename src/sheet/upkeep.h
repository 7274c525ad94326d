/* SPDX-License-Identifier: MIT */
/* upkeep.h - the hours of upkeep a year as sheets tell them: the range that keepers differ by. */
#ifndef TC_SHEET_UPKEEP_H
#define TC_SHEET_UPKEEP_H

#include "sheet/sheet.h"
#include "sheet/study.h"

/* "13–34", of so many hours, where a column is narrow; the sheet's. */
const char *tc_upkeep_brief(struct tc_sheet *sheet, double hours);

/* The row that says "13 to 34" of each alternative, with how they came about. */
void tc_upkeep_row(struct tc_sheet *sheet, const struct tc_study *study);

#endif
