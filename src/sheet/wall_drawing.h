/* SPDX-License-Identifier: MIT */
/*
 * wall_drawing.h - the elevation of the best mix, to scale: uprights, shelves and
 * tanks with a letter for each model (internal to wall).
 */
#ifndef TC_SHEET_WALL_DRAWING_H
#define TC_SHEET_WALL_DRAWING_H

#include "sheet/wall_study.h"
#include "sheet/sheet.h"

/* Letters follow the plan's candidates, the first being A. The room's best mix holds tanks. */
void tc_wall_add_drawing(struct tc_sheet *sheet, const struct tc_wall_study *wall_study);

/* The same in one finding, as far as it has room: bays that are alike are told once. */
void tc_wall_note_bays(struct tc_sheet *sheet, const struct tc_wall_study *wall_study);

/* Adds where each tank of the best mix stands, in words: a sentence a bay, from left to right. */
void tc_wall_add_bays(struct tc_sheet *sheet, const struct tc_wall_study *wall_study);

#endif
