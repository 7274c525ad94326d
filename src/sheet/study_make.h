/* SPDX-License-Identifier: MIT */
/*
 * study_make.h - a study made from a plan: names looked up, shop and deals
 * found, losses fitted to a meter, and everything worked out.
 */
#ifndef TC_SHEET_STUDY_MAKE_H
#define TC_SHEET_STUDY_MAKE_H

#include "sheet/study.h"

/*
 * Works a plan out. Where the plan has what a heater used by a meter, that
 * tank's losses are fitted to it, and the mean of such factors is used for the
 * plan's other tanks of the same setup. What is wrong with the plan (unknown names, figures out of
 * range) goes to faults with the status TC_SYNTAX; a candidate that cannot be
 * worked out is left out with a fault, and the study goes on with the others.
 * TC_NO_MEMORY, TC_OVERFLOW. Free it (tc_study_free) whatever the status.
 */
enum tc_status tc_study_make(struct tc_study *study, const struct tc_stock *stock, const struct tc_plan *plan,
                             struct tc_date today, struct tc_faults *faults);

/*
 * Works out a candidate that the plan does not have: with the plan's setup and way of buying, its own
 * wishes, and nothing of the other candidates; `tank` is the record of its tank. The alternative borrows
 * study and candidate. Reads only: may be called from several threads. TC_RANGE, TC_NO_RESULT, TC_OVERFLOW.
 */
enum tc_status tc_study_try(const struct tc_study *study, const struct tc_candidate *candidate,
                            const struct tc_tank *tank, struct tc_alternative *alternative);

#endif
