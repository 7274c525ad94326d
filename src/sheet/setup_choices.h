/* SPDX-License-Identifier: MIT */
/*
 * setup_choices.h - what other choices of a setup would change: another kind of
 * filter, a lid or none, no light, each with the parts chosen again.
 */
#ifndef TC_SHEET_SETUP_CHOICES_H
#define TC_SHEET_SETUP_CHOICES_H

#include "sheet/sheet.h"
#include "sheet/study.h"

/*
 * Adds a group of rows to a sheet with a column for each alternative: the
 * present value with a choice less that of the alternative as it is. A cell is
 * empty where that is its choice already, or where the plan pins the part.
 * TC_OVERFLOW; what cannot be worked out is told in its cell.
 */
enum tc_status tc_setup_choices_add(struct tc_sheet *sheet, const struct tc_study *study);

#endif
