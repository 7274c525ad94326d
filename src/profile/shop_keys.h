/* SPDX-License-Identifier: MIT */
/*
 * shop_keys.h - the keys of [shop NAME].
 */
#ifndef TC_PROFILE_SHOP_KEYS_H
#define TC_PROFILE_SHOP_KEYS_H

#include "profile/key.h"

extern const struct tc_key_table tc_shop_keys; /* of struct tc_shop */

#endif
