/* SPDX-License-Identifier: MIT */
/*
 * wall_study.h - the wall of a plan worked out: the best mix of its candidates'
 * tanks, walls to compare it with, what the room shares, and what it all
 * costs.
 *
 * Every candidate of the plan is a model that may stand on the wall as often
 * as it fits; one that does not suit its animals, or has no price, not at all. The rack carries it, so it
 * needs no stand; one air pump serves all. While the mix is sought every tank costs what a first one would;
 * the cost of a layout is then worked out for the whole room, each tank's energy on top of the others', in
 * the climate that room and tanks make where the room's loss is known: the mix is sought again in it until it
 * stays. There is then a layout more, kept warm the other way: its room is heated instead of its tanks, or,
 * where the plan heats the room, its tanks. Budget and circuit are kept by the room as a whole: see
 * wall_study_fill.h. What a limit more would bring is in wall_study_sensitivity.h.
 */
#ifndef TC_SHEET_WALL_STUDY_H
#define TC_SHEET_WALL_STUDY_H

#include "sheet/ask.h"
#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/search_budget.h"
#include "sheet/study.h"
#include "sheet/wall_layout.h"

/*
 * Works the wall out. TC_SYNTAX, with ask->problem, where the plan has no wall
 * or a model cannot stand on one; TC_NO_MEMORY, TC_OVERFLOW, TC_RANGE,
 * TC_STOPPED. That nothing fits is no failure: see the layouts. Free it
 * whatever the status. search is that of the sheet, and stays its own.
 */
enum tc_status tc_wall_study_make(struct tc_wall_study *wall_study, const struct tc_study *study,
                                  const struct tc_ask *ask, struct tc_search_budget *search);
void tc_wall_study_free(struct tc_wall_study *wall_study);

/*
 * Answers a question about the walls instead of the candidates: makes a study
 * whose alternatives are the layouts and hands it to make.
 */
enum tc_status tc_wall_study_ask(enum tc_status (*make)(const struct tc_study *study,
                                                        const struct tc_ask *ask, struct tc_sheet *sheet),
                                 const struct tc_study *study, const struct tc_ask *ask,
                                 struct tc_sheet *sheet);

#endif
