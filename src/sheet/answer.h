/* SPDX-License-Identifier: MIT */
/*
 * answer.h - a question answered: its sheet, and on it what its figures rest on.
 */
#ifndef TC_SHEET_ANSWER_H
#define TC_SHEET_ANSWER_H

#include "sheet/question.h"
#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/* As question->make (question.h); the sheet also says how many of its figures are invented or assumed. */
enum tc_status tc_answer_make(const struct tc_question *question, const struct tc_study *study,
                              const struct tc_ask *ask, struct tc_sheet *sheet);

#endif
