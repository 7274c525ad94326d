/* SPDX-License-Identifier: MIT */
/*
 * figures_find.h - which figures of a study are known as ranges only, and
 * where each of them stands. For figures.c only.
 */
#ifndef TC_SHEET_FIGURES_FIND_H
#define TC_SHEET_FIGURES_FIND_H

#include "sheet/figures.h"

/*
 * Adds the figures that matter to the figures' study, with their targets: of
 * the profiles, of what the plan types over setup and region, and of the plan
 * itself. TC_NO_MEMORY.
 */
enum tc_status tc_figures_collect(struct tc_figures *figures);

#endif
