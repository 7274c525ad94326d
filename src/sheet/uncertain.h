/* SPDX-License-Identifier: MIT */
/*
 * uncertain.h - the figures of a study that are known as ranges only, and what
 * every candidate costs when they take other values.
 *
 * A figure comes from a profile or from the plan, and may stand in several
 * places at once: the price of a light that three candidates use is one
 * figure. The parts bought stay those chosen at the middle values, in the same
 * counts: who buys does so before knowing better. Everything else follows the
 * figures: sizes, heat hour by hour, tariffs, deals, replacements.
 */
#ifndef TC_SHEET_UNCERTAIN_H
#define TC_SHEET_UNCERTAIN_H

#include "sheet/uncertain_collect.h"

/* Collects the figures that matter to the study. TC_NO_MEMORY. Free them whatever the status. */
enum tc_status tc_uncertain_find(struct tc_uncertain *uncertain, const struct tc_study *study);
void tc_uncertain_free(struct tc_uncertain *uncertain);

/*
 * From here on each alternative's last years of heat are remembered, for figures
 * that are moved one after the other: the costs are then for one thread alone.
 * TC_NO_MEMORY.
 */
enum tc_status tc_uncertain_remember(struct tc_uncertain *uncertain);

/*
 * Present values of all alternatives, minor units, unrounded, when the figures have
 * these values; NAN where one cannot be worked out. Reads only: may be called
 * from several threads. Its type is that of tc_uncertainty_costs with the figures as
 * context.
 */
void tc_uncertain_costs(void *context, const double values[], double costs[]);

#endif
