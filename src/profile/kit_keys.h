/* SPDX-License-Identifier: MIT */
/*
 * kit_keys.h - the keys of [kit NAME].
 */
#ifndef TC_PROFILE_KIT_KEYS_H
#define TC_PROFILE_KIT_KEYS_H

#include "profile/key.h"

/* Hour of day that is the middle of the light, where a kit does not say when it begins. */
#define TC_MIDDLE_OF_LIGHT 14

extern const struct tc_key_table tc_kit_keys; /* of struct tc_kit */

#endif
