/* SPDX-License-Identifier: MIT */
/*
 * shortlist.h - which tank at all: of every tank there is, those that suit the
 * setup, fit the plan's space and keep its budget, those that no other beats,
 * why the rest is left out, and what a little more space or money would let in.
 */
#ifndef TC_SHEET_SHORTLIST_H
#define TC_SHEET_SHORTLIST_H

#include "sheet/ask.h"
#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

enum tc_status tc_make_shortlist(const struct tc_study *study, const struct tc_ask *ask,
                                 struct tc_sheet *sheet);

#endif
