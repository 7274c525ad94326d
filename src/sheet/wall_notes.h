/* SPDX-License-Identifier: MIT */
/*
 * wall_notes.h - what the sheet wall says in sentences: what the wall holds and costs, where it stands, how
 * it is kept warm, what to buy, and what the search vouches for; or why nothing fits (internal to wall).
 */
#ifndef TC_SHEET_WALL_NOTES_H
#define TC_SHEET_WALL_NOTES_H

#include "sheet/sheet.h"
#include "sheet/wall_study.h"

/* The best mix holds tanks. */
void tc_wall_note_answer(struct tc_sheet *sheet, const struct tc_wall_study *wall_study);

/* "1 × 10-gal, 6 × 20-long": the tanks of a layout; owned by the sheet. */
const char *tc_wall_mix_words(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                              const struct tc_layout *layout);

/* It holds none. */
void tc_wall_note_none(struct tc_sheet *sheet, const struct tc_wall_study *wall_study);

#endif
