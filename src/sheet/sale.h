/* SPDX-License-Identifier: MIT */
/*
 * sale.h - is this price good: every candidate in every price scenario, the
 * walk-away prices, and whether to wait for the next sale.
 */
#ifndef TC_SHEET_SALE_H
#define TC_SHEET_SALE_H

#include "sheet/ask.h"
#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/* As tc_question.make. */
enum tc_status tc_make_sale(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet);

#endif
