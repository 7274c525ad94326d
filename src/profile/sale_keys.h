/* SPDX-License-Identifier: MIT */
/*
 * sale_keys.h - the keys of [sale NAME].
 */
#ifndef TC_PROFILE_SALE_KEYS_H
#define TC_PROFILE_SALE_KEYS_H

#include "profile/key.h"

extern const struct tc_key_table tc_sale_keys; /* of struct tc_sale */

#endif
