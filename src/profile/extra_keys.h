/* SPDX-License-Identifier: MIT */
/*
 * extra_keys.h - the keys of [extra NAME].
 */
#ifndef TC_PROFILE_EXTRA_KEYS_H
#define TC_PROFILE_EXTRA_KEYS_H

#include "profile/key.h"

extern const struct tc_key_table tc_extra_keys;

#endif
