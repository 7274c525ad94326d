/* SPDX-License-Identifier: MIT */
/*
 * tank_keys.h - the keys of [tank NAME].
 */
#ifndef TC_PROFILE_TANK_KEYS_H
#define TC_PROFILE_TANK_KEYS_H

#include "profile/key.h"

extern const struct tc_key_table tc_tank_keys; /* of struct tc_tank */

#endif
