/* SPDX-License-Identifier: MIT */
/*
 * places_notes.h - what a comparison of regions says in sentences: the
 * cheapest place, where the winner changes and why, what is missing, and what
 * the figures rest on.
 */
#ifndef TC_SHEET_PLACES_NOTES_H
#define TC_SHEET_PLACES_NOTES_H

#include "sheet/region_costs.h"
#include "sheet/sheet.h"

/* Adds the notes to the sheet of these regions. TC_OVERFLOW. */
enum tc_status tc_places_notes(struct tc_sheet *sheet, const struct tc_region_costs *regions);

/*
 * The line of the present value that moves furthest in favour of candidate
 * `winner` against `loser` on the way from one region to another. Both are
 * complete in both. Differences are weighed in the one money, or, where a rate
 * is missing, as shares of what the loser costs in each region.
 */
int tc_places_moving_line(const struct tc_region_costs *regions, size_t from, size_t to, int winner,
                          int loser);

#endif
