/* SPDX-License-Identifier: MIT */
/*
 * wall_stages.h - the best mix of a wall bought in stages: what to buy in which month, with so much to spend
 * in each and the shop's sales in view (internal to list).
 */
#ifndef TC_SHEET_WALL_STAGES_H
#define TC_SHEET_WALL_STAGES_H

#include "sheet/sheet.h"
#include "sheet/wall_study.h"

/*
 * Adds to the list what to buy when: for each month its count of tanks, its sum, and in words what it is; and
 * a finding. Nothing where the plan does not say what may be spent a month. count, sum: columns of the sheet.
 * TC_NO_MEMORY, TC_OVERFLOW, TC_RANGE.
 */
enum tc_status tc_wall_add_stages(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                                  size_t count, size_t sum);

#endif
