/* SPDX-License-Identifier: MIT */
/*
 * wall_study_sensitivity.h - what more of one limit of the wall would bring to the room as
 * a whole.
 *
 * core/wall/wall_sensitivity.h finds the least raise for the tanks alone. Here the wall is
 * filled again with that raise and with all the room shares, and raised further
 * until the room is better: the reported raise is enough.
 */
#ifndef TC_SHEET_WALL_STUDY_SENSITIVITY_H
#define TC_SHEET_WALL_STUDY_SENSITIVITY_H

#include "core/wall/wall_sensitivity.h"
#include "sheet/wall_study.h"

struct tc_wall_study_relief {
    double raise;   /* in the unit of the limit, whole steps of `step` */
    double reached; /* the goal with it, in the unit of tc_wall_mix's */
    bool proven;    /* all searches were carried to their end */
};

/*
 * The raise of one limit, in whole steps of `step` above 0, with which the best
 * mix of the room gets better. TC_NO_RESULT: none does, or none was found
 * (not proven). TC_STOPPED: the search was.
 */
enum tc_status tc_wall_study_relieve(const struct tc_wall_study *wall_study, struct tc_wall_limit_at at,
                                     double step, struct tc_search_budget *search,
                                     struct tc_wall_study_relief *relief);

/*
 * Where no mix holds what is wanted: the least raise of one limit, in whole steps, with which one does, the
 * others as they are; looked for up to four times the limit. TC_NO_RESULT: none does, or the wall has no such
 * limit. TC_STOPPED: the search was.
 */
enum tc_status tc_wall_study_short(const struct tc_wall_study *wall_study, struct tc_wall_limit_at at,
                                   double step, struct tc_search_budget *search, double *raise);

/*
 * How much less free height above every tank, in whole steps, brings as much as
 * a higher wall does. TC_NO_RESULT: no such amount does. TC_STOPPED: the search was.
 */
enum tc_status tc_wall_study_less_access(const struct tc_wall_study *wall_study,
                                         const struct tc_wall_study_relief *higher, double step,
                                         struct tc_search_budget *search, double *less);

#endif
