/* SPDX-License-Identifier: MIT */
/*
 * ini.h - one INI file, read safely, with the line of everything in it.
 *
 *     # a comment from here to the end of the line, as with ;
 *     [tank 29-high]
 *     length = 30 in            ; a blank on both sides makes this a comment
 *     note   = "kept at #4; quiet"
 *
 * Names of sections (words with blanks between) and of keys (one word) are
 * made of letters, digits, '-' and '.'; case does not count, and they are
 * given in lower case. A value is the rest of the line less the comment, or a
 * text in "double" or 'single' quotes, in which nothing is special: it cannot
 * hold its own kind of quote, nor a backslash. No value goes on in the next
 * line. Values are UTF-8 without control characters; a tab counts as a blank.
 *
 * The file is read by iniparser. As that one cuts, merges, drops or joins
 * lines of odd form without a word, a scan of our own (ini_scan.h) goes first:
 * it reports each such line as a fault and passes on only those that every
 * release of iniparser reads the same way.
 */
#ifndef TC_PROFILE_INI_H
#define TC_PROFILE_INI_H

#include <stddef.h>

#include "core/base/status.h"
#include "profile/fault.h"
#include "profile/ini_file.h"

/*
 * Opens the file at path into *ini, which need not be initialised, and adds
 * what is wrong to faults: all of it but for the values, which are as written,
 * with their quotes (see ini_values.h). TC_OK if it could be read, with or without faults.
 * Else *ini has no sections and faults says why:
 *   TC_IO        it is not there, cannot be read, or is not a regular file;
 *   TC_SYNTAX    it is no text, or too large: nothing of it is used;
 *   TC_NO_MEMORY.
 * In every case tc_ini_free() *ini when done; all names and values live until
 * then. The second form reads from memory; file is the name to use in faults.
 */
enum tc_status tc_ini_open(const char *path, struct tc_ini *ini, struct tc_faults *faults);
enum tc_status tc_ini_open_bytes(const char *file, const char *bytes, size_t length, struct tc_ini *ini,
                                 struct tc_faults *faults);

/* That and tc_ini_values (ini_values.h) for one text in memory. Where it is not TC_OK, *ini has been freed.
 */
enum tc_status tc_ini_read_bytes(const char *file, const char *bytes, size_t length, struct tc_ini *ini,
                                 struct tc_faults *faults);

/* The key of that name, in lower case, or NULL. */
const struct tc_ini_key *tc_ini_key(const struct tc_ini_section *section, const char *name);

void tc_ini_free(struct tc_ini *ini);

#endif
