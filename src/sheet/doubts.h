/* SPDX-License-Identifier: MIT */
/*
 * doubts.h - how sure is the answer when figures are ranges, and which of them
 * decides it.
 */
#ifndef TC_SHEET_DOUBTS_H
#define TC_SHEET_DOUBTS_H

#include "sheet/ask.h"
#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/* As tc_question.make; uses ask's seed, draws and threads. */
enum tc_status tc_make_doubts(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet);

#endif
