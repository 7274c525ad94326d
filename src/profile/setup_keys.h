/* SPDX-License-Identifier: MIT */
/*
 * setup_keys.h - the keys of [setup NAME].
 */
#ifndef TC_PROFILE_SETUP_KEYS_H
#define TC_PROFILE_SETUP_KEYS_H

#include "profile/key.h"

/* Hour of day that is the middle of the light, where a setup does not say when it begins. */
#define TC_MIDDLE_OF_LIGHT 14

extern const struct tc_key_table tc_setup_keys; /* of struct tc_setup */

#endif
