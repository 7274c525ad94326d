/* SPDX-License-Identifier: MIT */
/*
 * part_keys.h - the keys of what is bought for a tank, a table for each slot.
 */
#ifndef TC_PROFILE_PART_KEYS_H
#define TC_PROFILE_PART_KEYS_H

#include "profile/key.h"

/* All of struct tc_part. */
extern const struct tc_key_table tc_stand_keys;
extern const struct tc_key_table tc_lid_keys;
extern const struct tc_key_table tc_light_keys;
extern const struct tc_key_table tc_filter_keys;
extern const struct tc_key_table tc_air_pump_keys;
extern const struct tc_key_table tc_heater_keys;
extern const struct tc_key_table tc_substrate_keys;

#endif
