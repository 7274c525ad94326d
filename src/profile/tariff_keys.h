/* SPDX-License-Identifier: MIT */
/*
 * tariff_keys.h - the keys of [tariff NAME].
 */
#ifndef TC_PROFILE_TARIFF_KEYS_H
#define TC_PROFILE_TARIFF_KEYS_H

#include "profile/key.h"

/* Of a record that begins with a struct tc_named_tariff, which is what it becomes. */
extern const struct tc_key_table tc_tariff_keys;

#endif
