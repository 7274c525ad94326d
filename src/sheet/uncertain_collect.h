/* SPDX-License-Identifier: MIT */
/*
 * uncertain_collect.h - which figures of a study are known as ranges only, and
 * where each of them stands. For uncertain.c only.
 */
#ifndef TC_SHEET_UNCERTAIN_COLLECT_H
#define TC_SHEET_UNCERTAIN_COLLECT_H

#include "sheet/uncertain.h"

/*
 * Adds the figures that matter to the figures' study, with their targets: of
 * the profiles, of what the plan types over setup and region, and of the plan
 * itself. TC_NO_MEMORY.
 */
enum tc_status tc_uncertain_collect(struct tc_uncertain *uncertain);

#endif
