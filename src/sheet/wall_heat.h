/* SPDX-License-Identifier: MIT */
/*
 * wall_heat.h - the room of a wall and its heat on the sheet: how warm and damp it gets, a heater in each
 * tank or the room heated instead, and what is to be said of both (internal to wall).
 */
#ifndef TC_SHEET_WALL_HEAT_H
#define TC_SHEET_WALL_HEAT_H

#include "sheet/sheet.h"
#include "sheet/wall_study.h"

/* The rows of every layout; nothing where no tank is heated and others hold the room. */
void tc_wall_add_heat(struct tc_sheet *sheet, const struct tc_wall_study *wall_study);

/* Its findings and remarks. */
void tc_wall_note_heat(struct tc_sheet *sheet, const struct tc_wall_study *wall_study);

#endif
