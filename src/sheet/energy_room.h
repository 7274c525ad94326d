/* SPDX-License-Identifier: MIT */
/*
 * energy_room.h - what the tanks give to the room they stand in (internal to energy).
 */
#ifndef TC_SHEET_ENERGY_ROOM_H
#define TC_SHEET_ENERGY_ROOM_H

#include "sheet/sheet.h"
#include "sheet/study.h"

/*
 * Adds the heat that the room gets by month, and what it saves in the months of heating and costs in those
 * of cooling, where their prices are known. TC_OVERFLOW.
 */
enum tc_status tc_energy_add_room(struct tc_sheet *sheet, const struct tc_study *study);

#endif
