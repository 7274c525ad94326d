/* SPDX-License-Identifier: MIT */
/*
 * ini_write.h - a value written so that reading it (ini.h) gives it back.
 */
#ifndef TC_PROFILE_INI_WRITE_H
#define TC_PROFILE_INI_WRITE_H

#include <stdbool.h>

#include "core/base/text.h"

/* Bytes of a value that fits into a line under any key. */
#define TC_INI_VALUE_MAX 900

/*
 * Adds value to text as it stands behind `key = `: as it is where that reads
 * the same, else in "..." or '...'. Returns false and adds nothing if no form
 * can hold it: it has a tab or control character, is not UTF-8, is longer
 * than TC_INI_VALUE_MAX, or needs quotes (for a blank at an end, a ';' or '#',
 * or a quote in front) but holds a '\' or both kinds of quote.
 */
bool tc_ini_write_value(struct tc_text *text, const char *value);

#endif
