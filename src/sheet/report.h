/* SPDX-License-Identifier: MIT */
/* report.h - which sheets matter for a plan, in the order in which one reads them. */
#ifndef TC_SHEET_REPORT_H
#define TC_SHEET_REPORT_H

#include <stddef.h>

#include "sheet/question.h"

enum { TC_REPORT_MOST = 7 };

/*
 * The questions of a plan's report: the plan's wall first, if it has one; bill and years; the price, or for a
 * plan of several regions the places, unless it is about a wall; then fit, doubts and list. Returns how many.
 * A plan with a wall or several regions says so by their keys.
 */
size_t tc_report_questions(const struct tc_plan *plan, const struct tc_question *questions[TC_REPORT_MOST]);

#endif
