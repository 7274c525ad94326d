/* SPDX-License-Identifier: MIT */
/*
 * month_key.h - keys whose value is a list of months: "5 6 7 8 9", "may to sep", "11 to 2, 7".
 *
 * The record holds a bool for each month of the year, January first.
 */
#ifndef TC_PROFILE_MONTH_KEY_H
#define TC_PROFILE_MONTH_KEY_H

#include "profile/key.h"

/* "jan" of 1, and so on to 12. */
const char *tc_month_name(int month);

/* For the fields read and write of a key of the form TC_KEY_OWN. */
bool tc_month_key_read(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading);
void tc_month_key_write(const struct tc_key *key, const void *record, enum tc_unit_system system,
                        char text[TC_VALUE_SIZE]);

#endif
