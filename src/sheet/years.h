/* SPDX-License-Identifier: MIT */
/*
 * years.h - what each candidate has cost up to the end of each year, as paid
 * and in today's money, where the lines cross, and whether the dearer one to
 * buy pays back.
 */
#ifndef TC_SHEET_YEARS_H
#define TC_SHEET_YEARS_H

#include "sheet/ask.h"
#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/* As tc_question.make. */
enum tc_status tc_make_years(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet);

#endif
