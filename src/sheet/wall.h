/* SPDX-License-Identifier: MIT */
/*
 * wall.h - how many tanks a wall, a budget and a circuit hold, which, and how
 * high: the best mix beside walls to compare it with, what binds, what the room
 * shares, and an elevation to scale.
 */
#ifndef TC_SHEET_WALL_H
#define TC_SHEET_WALL_H

#include "sheet/ask.h"
#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/* As tc_question.make. */
enum tc_status tc_make_wall(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet);

#endif
