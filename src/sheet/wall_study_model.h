/* SPDX-License-Identifier: MIT */
/*
 * wall_study_model.h - the plan's wall and its candidates as the search for the best
 * mix knows them (internal to room).
 */
#ifndef TC_SHEET_WALL_STUDY_MODEL_H
#define TC_SHEET_WALL_STUDY_MODEL_H

#include "sheet/wall_layout.h"
#include "sheet/ask.h"

/*
 * Fills wall, goal, alternatives and models of a room whose study is set and whose
 * alternatives have place for every alternative. TC_SYNTAX with ask->problem; TC_OVERFLOW, TC_RANGE.
 */
enum tc_status tc_wall_study_model(struct tc_wall_study *wall_study, const struct tc_ask *ask);

/* W that a slot's parts draw, of one tank; and light, filter and heater of one tank, all on at once. */
double tc_wall_study_slot_power(const struct tc_equipment *equipment, enum tc_slot slot);
double tc_wall_study_unit_power(const struct tc_alternative *alternative);

#endif
