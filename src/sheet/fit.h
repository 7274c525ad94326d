/* SPDX-License-Identifier: MIT */
/*
 * fit.h - what each tank's shape is and what it forces the keeper to buy.
 *
 * Sizes, weights and loads with their cautions, what each slot asks for, what
 * fills it, and why each part was chosen or refused.
 */
#ifndef TC_SHEET_FIT_H
#define TC_SHEET_FIT_H

#include "sheet/ask.h"
#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/* As tc_question.make. */
enum tc_status tc_make_fit(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet);

#endif
