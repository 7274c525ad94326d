/* SPDX-License-Identifier: MIT */
/*
 * wall_study_fill.h - filling a wall so that the room as a whole, with all it shares,
 * keeps its budget and its circuit (internal to room).
 *
 * What the tanks share depends on the mix, and the mix on what budget and
 * circuit leave for the tanks. So the mix is sought with a guess of what is
 * shared (at first nothing) set aside; if the room then breaks a limit, or
 * needs less than was set aside, again with what it came to; at last with what
 * lies between too little and enough, since what is shared grows in steps.
 */
#ifndef TC_SHEET_WALL_STUDY_FILL_H
#define TC_SHEET_WALL_STUDY_FILL_H

#include "sheet/wall_layout.h"
#include "sheet/search_budget.h"

/*
 * Fills layout->wall with the best mix of the models (one an alternative of the study), and works its cost
 * out. TC_OK also where there is no mix: see layout->found. TC_STOPPED where the search was.
 */
enum tc_status tc_wall_study_fill(const struct tc_wall_study *wall_study, struct tc_layout *layout,
                                  const struct tc_wall_model *models, struct tc_search_budget *search);

/* Whether one reached figure is better than another, for the room's goal. */
bool tc_wall_study_better(const struct tc_wall_study *wall_study, double a, double b);

#endif
