/* SPDX-License-Identifier: MIT */
/*
 * plan_keys.h - the keys of a plan and of the sections that belong to it.
 */
#ifndef TC_PROFILE_PLAN_KEYS_H
#define TC_PROFILE_PLAN_KEYS_H

#include "profile/key.h"

extern const struct tc_key_table tc_plan_keys;      /* of struct tc_plan */
extern const struct tc_key_table tc_candidate_keys; /* of struct tc_candidate */
extern const struct tc_key_table tc_wall_keys;      /* of struct tc_wall_plan */
extern const struct tc_key_table tc_space_keys;     /* of struct tc_space */

#endif
