/* SPDX-License-Identifier: MIT */
/*
 * energy.h - where a candidate's electricity goes: by consumer, by month, by
 * the surface its heat leaves through; what a lid saves; how hard the heater
 * works and how warm the summer gets.
 */
#ifndef TC_SHEET_ENERGY_H
#define TC_SHEET_ENERGY_H

#include "sheet/ask.h"
#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/* As tc_question.make. */
enum tc_status tc_make_energy(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet);

#endif
