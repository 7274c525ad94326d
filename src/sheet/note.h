/* SPDX-License-Identifier: MIT */
/*
 * note.h - notes that several sheets give: what is missing, assumed or unfit in
 * an alternative, and what no figure holds.
 */
#ifndef TC_SHEET_NOTE_H
#define TC_SHEET_NOTE_H

#include "sheet/sheet.h"
#include "sheet/study.h"

/*
 * Of each alternative: prices that are missing, parts that do not fit or are not there, a price typed for
 * whichever part is chosen, a sale that does not run, what resale follows, what its animals lack.
 */
void tc_note_alternatives(struct tc_sheet *sheet, const struct tc_study *study);

/* The same but for what is said of sales and resale: what a sheet without prices has to say. */
void tc_note_fit(struct tc_sheet *sheet, const struct tc_study *study);

/* What "to own" does not hold, so that nobody takes it for all that a tank costs, and which extras it lacks.
 */
void tc_note_not_counted(struct tc_sheet *sheet, const struct tc_study *study);

/* Which extras of the study do not count in a region, as they have no amount in its currency. */
void tc_note_unpriced_extras(struct tc_sheet *sheet, const struct tc_study *study, const char *region,
                             struct tc_currency currency);

#endif
