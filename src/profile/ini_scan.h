/* SPDX-License-Identifier: MIT */
/*
 * ini_scan.h - the pass over the bytes of an INI file that comes before
 * iniparser: finds sections, keys and their lines, reports what iniparser
 * would silently misread, and leaves that out. For ini.c only.
 */
#ifndef TC_PROFILE_INI_SCAN_H
#define TC_PROFILE_INI_SCAN_H

#include "core/base/status.h"
#include "profile/fault.h"
#include "profile/ini_file.h"

/*
 * Scans ini->bytes (length bytes and one more for an end, cut into pieces in
 * place) and fills in the sections and keys of ini, which has none yet. The
 * value of a key is its text as written, with its quotes but without comment
 * and outer blanks: at most TC_INI_LINE_MAX bytes that iniparser reads the
 * same way in all releases. TC_OK, TC_SYNTAX, TC_NO_MEMORY as tc_ini_open(),
 * except that on TC_NO_MEMORY no fault is added.
 */
enum tc_status tc_ini_scan(struct tc_ini *ini, size_t length, struct tc_faults *faults);

#endif
