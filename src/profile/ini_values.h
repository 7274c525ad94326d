/* SPDX-License-Identifier: MIT */
/* ini_values.h - the values of INI files that were opened (ini.h), read by iniparser. */
#ifndef TC_PROFILE_INI_VALUES_H
#define TC_PROFILE_INI_VALUES_H

#include <stddef.h>

#include "core/base/status.h"
#include "profile/fault.h"
#include "profile/ini_file.h"

/*
 * Has iniparser read the values of `count` files, each opened with TC_OK and
 * not yet read; it takes longer to open one than to read a few lines, so it
 * is given many small ones at a time, and very many on several threads. TC_OK,
 * or TC_IO (no temporary file could be written) or TC_NO_MEMORY, when there is
 * one fault and all of their sections are bad and without keys. In
 * every case tc_ini_free() each.
 */
enum tc_status tc_ini_values(struct tc_ini *const files[], size_t count, struct tc_faults *faults);

#endif
