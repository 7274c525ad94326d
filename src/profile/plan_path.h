/* SPDX-License-Identifier: MIT */
/*
 * plan_path.h - where a path such as "candidate 2/price" leads in a plan.
 */
#ifndef TC_PROFILE_PLAN_PATH_H
#define TC_PROFILE_PLAN_PATH_H

#include "profile/plan_record.h"

struct tc_plan_place {
    const struct tc_key_table *table;
    const struct tc_key *key;
    bool assumed;                /* of the setup, region or a shop: kept as an override */
    char shop[TC_NAME_SIZE];     /* whose, of a shop's; else "" */
    size_t offset;               /* else: of the table's record in the plan */
    int position;                /* places of one plan in their order in its file */
    char path[2 * TC_NAME_SIZE]; /* in its one right form */
};

/* The number N, from 1, of "candidate N/..."; 0 for other paths. *rest is behind the '/'. */
int tc_plan_path_candidate(const char *path, const char **rest);

/* Where a path leads; false, and problem says what would be right, where it leads nowhere. */
bool tc_plan_place_find(const struct tc_plan *plan, const char *path, struct tc_plan_place *place,
                        char problem[TC_PROBLEM_SIZE]);

/* The place of a typed range or override that is in a plan. */
struct tc_plan_place tc_plan_place_of_override(const struct tc_plan *plan,
                                               const struct tc_override *override);
struct tc_plan_place tc_plan_place_of_range(const struct tc_plan *plan, const struct tc_typed_range *range);

#endif
