/* SPDX-License-Identifier: MIT */
/*
 * wall_limits.h - the part of the sheet wall that says what binds, and what more
 * of each limit would bring (internal to wall).
 */
#ifndef TC_SHEET_WALL_LIMITS_H
#define TC_SHEET_WALL_LIMITS_H

#include "sheet/wall_study.h"
#include "sheet/sheet.h"

/*
 * Adds a sentence for each limit the wall has; the room's best mix holds tanks.
 * Statuses as tc_wall_study_relieve's but TC_NO_RESULT, which is said in the sheet.
 */
enum tc_status tc_wall_add_limits(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                                  struct tc_search_budget *search);

/*
 * Where nothing holds what is wanted: which limits alone keep it off, and how much more of each would do.
 * Statuses likewise.
 */
enum tc_status tc_wall_add_shortages(struct tc_sheet *sheet, const struct tc_wall_study *wall_study,
                                     struct tc_search_budget *search);

/* A reached figure of the room's goal in words, in TC_WORDS_SIZE: "7 tanks", "310 gal of water". */
const char *tc_wall_reached(char *words, const struct tc_wall_study *wall_study, double reached);

#endif
