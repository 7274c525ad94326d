/* SPDX-License-Identifier: MIT */
/*
 * energy_lid.h - what a lid is worth: its price against what it saves each year
 */
#ifndef TC_SHEET_ENERGY_LID_H
#define TC_SHEET_ENERGY_LID_H

#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/* The rows of that, each tank as equipped against the same tank open or covered. TC_NO_MEMORY, TC_OVERFLOW.
 */
enum tc_status tc_energy_add_lids(struct tc_sheet *sheet, const struct tc_study *study);

#endif
