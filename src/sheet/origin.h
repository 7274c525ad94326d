/* SPDX-License-Identifier: MIT */
/*
 * origin.h - whose figures a sheet rests on: how many of them are invented, how
 * many assumed because nobody gave them, and which.
 *
 * Counted are the keys of the sections that a study uses (its region, tariffs,
 * shop, tanks, parts) and the prices that it takes from a list; a setup is
 * policy and counts for nothing. What the plan types over is the user's own.
 */
#ifndef TC_SHEET_ORIGIN_H
#define TC_SHEET_ORIGIN_H

#include "sheet/sheet.h"
#include "sheet/study.h"

/*
 * Says it on a finished sheet of the study: in few words behind its assumptions,
 * and in a note with all of them.
 */
void tc_origin_say(const struct tc_study *study, struct tc_sheet *sheet);

/* The note alone, on a sheet that has the assumptions of another one. */
void tc_origin_note(const struct tc_study *study, struct tc_sheet *sheet);

#endif
