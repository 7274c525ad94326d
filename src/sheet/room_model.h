/* SPDX-License-Identifier: MIT */
/*
 * room_model.h - the plan's wall and its candidates as the search for the best
 * mix knows them (internal to room).
 */
#ifndef TC_SHEET_ROOM_MODEL_H
#define TC_SHEET_ROOM_MODEL_H

#include "sheet/room.h"

/*
 * Fills wall, goal, alternatives and models of a room whose study is set and whose
 * alternatives have place for every alternative. TC_SYNTAX with ask->problem; TC_OVERFLOW, TC_RANGE.
 */
enum tc_status tc_room_model(struct tc_room *room, const struct tc_ask *ask);

/* W that a slot's parts draw, of one tank; and light, filter and heater of one tank, all on at once. */
double tc_room_slot_power(const struct tc_equipment *equipment, enum tc_slot slot);
double tc_room_unit_power(const struct tc_alternative *alternative);

#endif
