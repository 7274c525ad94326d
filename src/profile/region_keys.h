/* SPDX-License-Identifier: MIT */
/*
 * region_keys.h - the keys of [region NAME].
 */
#ifndef TC_PROFILE_REGION_KEYS_H
#define TC_PROFILE_REGION_KEYS_H

#include "profile/key.h"

extern const struct tc_key_table tc_region_keys; /* of struct tc_region */

#endif
