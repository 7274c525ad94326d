/* SPDX-License-Identifier: MIT */
/*
 * plan_path.h - where a path such as "candidate 2/price" leads in a plan. For
 * the files of plan.h.
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

/* The place of a typed range or override that is in a plan. */
struct tc_plan_place tc_plan_place_of_range(const struct tc_plan *plan, const struct tc_typed_range *range);

/*
 * A currency of which amounts may have more decimals than there are coins: in
 * plans these are rounded where a bill is made, as the region, and with it the
 * currency, may have been changed since they were typed.
 */
struct tc_currency tc_plan_currency(struct tc_currency currency);

/* tc_plan_set, for amounts of a known currency, which may then be written. */
bool tc_plan_set_in(struct tc_plan *plan, const char *path, const char *text, struct tc_currency currency,
                    char problem[TC_PROBLEM_SIZE]);

#endif
