/* SPDX-License-Identifier: MIT */
/*
 * bill.h - what each candidate costs to buy, each year, and over the period.
 *
 * Every subtotal and total is the sum of the lines of its group, to the minor
 * unit; a line that is nothing for every candidate is left out.
 */
#ifndef TC_SHEET_BILL_H
#define TC_SHEET_BILL_H

#include "sheet/ask.h"
#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/* As tc_question.make. */
enum tc_status tc_make_bill(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet);

#endif
