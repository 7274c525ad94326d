/* SPDX-License-Identifier: MIT */
/*
 * key_quantity.h - the forms of keys that hold figures: quantities, counts,
 * amounts, rates, prices and months. For key.c only.
 */
#ifndef TC_PROFILE_KEY_QUANTITY_H
#define TC_PROFILE_KEY_QUANTITY_H

#include "profile/key_form.h"

/* As tc_key_read_with and tc_key_write, for a key of one of these forms. */
bool tc_key_quantity_read(const struct tc_key *key, const char *text, void *record,
                          struct tc_reading *reading);
void tc_key_quantity_write(const struct tc_key *key, const void *record, enum tc_unit_system system,
                           char text[TC_VALUE_SIZE]);

#endif
