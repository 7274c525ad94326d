/* SPDX-License-Identifier: MIT */
/*
 * list.h - the shopping list: what has to be bought.
 *
 * Every thing with its count, price and sum; each candidate's total is the
 * bill's "to buy". Of a plan with a wall: the tanks of its best mix, the rack and
 * what they share; the total is the wall's "to buy".
 */
#ifndef TC_SHEET_LIST_H
#define TC_SHEET_LIST_H

#include "sheet/ask.h"
#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/* As tc_question.make. */
enum tc_status tc_make_list(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet);

#endif
