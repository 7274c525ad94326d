/* SPDX-License-Identifier: MIT */
/*
 * name_list.h - a value that lists names: "29-high 40-breeder".
 */
#ifndef TC_PROFILE_NAME_LIST_H
#define TC_PROFILE_NAME_LIST_H

#include <stdbool.h>

#include "core/base/name.h"
#include "profile/key.h"

/*
 * Reads names set apart by blanks, commas or both, at most `room`, none
 * twice, into names; the rest of which is zeroed. False, with a problem, where
 * that cannot be or the list would not fit into a line of a profile.
 */
bool tc_name_list_read(const char *text, char names[][TC_NAME_SIZE], int capacity, int *count,
                       char problem[TC_PROBLEM_SIZE]);

/* Writes count names, as read above, with blanks between. */
void tc_name_list_write(const char names[][TC_NAME_SIZE], int count, char text[TC_VALUE_SIZE]);

#endif
