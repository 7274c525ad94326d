/* SPDX-License-Identifier: MIT */
/*
 * wall_study_cost.h - what a layout costs, draws and gives off, as a whole (internal
 * to room).
 *
 * The room's energy is added to the household's bill model by model, in the
 * plan's order, and what is shared last, so that the lines add up to the bill
 * of them all.
 */
#ifndef TC_SHEET_WALL_STUDY_COST_H
#define TC_SHEET_WALL_STUDY_COST_H

#include "sheet/wall_layout.h"
#include "sheet/wall_study_share.h"

/* Fills cost, power, heat and evaporated from mix and share. TC_NO_MEMORY, TC_OVERFLOW, TC_RANGE. */
enum tc_status tc_wall_study_cost(const struct tc_wall_study *wall_study, struct tc_layout *layout);

/* kWh a year of everything. */
double tc_wall_study_energy(const struct tc_layout *layout);

/*
 * A model's tanks as the layout has them bought: so many, with their deal,
 * parts and cost, on top of what the others before it use. Statuses as above.
 */
enum tc_status tc_wall_study_bought(const struct tc_wall_study *wall_study, const struct tc_layout *layout,
                                    int model, const struct tc_running *before,
                                    struct tc_alternative *bought);

/*
 * What the layout shares, and what heats and cools its room, whose own electricity goes into *load; what is
 * filled likewise, or NULL. Returns how many things. Sticky status.
 */
int tc_wall_study_things(const struct tc_wall_study *wall_study, const struct tc_layout *layout,
                         struct tc_shared things[TC_ROOM_SHARED_MAX + 1],
                         struct tc_wall_thing what[TC_ROOM_SHARED_MAX + 1], struct tc_load *load,
                         enum tc_status *status);

#endif
