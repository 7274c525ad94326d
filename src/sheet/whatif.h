/* SPDX-License-Identifier: MIT */
/*
 * whatif.h - what every candidate costs along one assumption, and where
 * another one takes the lead.
 *
 * The assumption is named as it is typed over ("region/room", "setup/light-hours",
 * "plan/discount"), or by its key alone where that is enough ("room"). At each
 * step the plan is worked out again, parts and all.
 */
#ifndef TC_SHEET_WHATIF_H
#define TC_SHEET_WHATIF_H

#include "sheet/ask.h"
#include "core/base/status.h"
#include "sheet/sheet.h"
#include "sheet/study.h"

/* As tc_question.make; ask->vary is "NAME=FROM..TO", with the unit behind TO; NULL: the study period. */
enum tc_status tc_make_whatif(const struct tc_study *study, const struct tc_ask *ask, struct tc_sheet *sheet);

#endif
