/* SPDX-License-Identifier: MIT */
/*
 * wall_ties.h - whether another mix of tanks is about as good as the best one (internal to wall).
 */
#ifndef TC_SHEET_WALL_TIES_H
#define TC_SHEET_WALL_TIES_H

#include "sheet/search_budget.h"
#include "sheet/sheet.h"
#include "sheet/wall_study.h"

/*
 * Says which other mix reaches as much of the goal, or up to 2 % less, for no more than 2 % more to own: the
 * best of those that have fewer of some tank than the best mix, which holds tanks. Statuses as
 * tc_wall_study_fill's.
 */
enum tc_status tc_wall_note_ties(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                                 struct tc_search_budget *search);

#endif
