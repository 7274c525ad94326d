/* SPDX-License-Identifier: MIT */
/*
 * section_save.h - one section of a profile written again, and nothing else of
 * its file touched.
 */
#ifndef TC_PROFILE_SECTION_SAVE_H
#define TC_PROFILE_SECTION_SAVE_H

#include <stddef.h>

#include "core/base/status.h"
#include "core/base/text.h"
#include "profile/fault.h"

/* A key and its value, as the user means it: quotes are put where the file needs them. */
struct tc_section_line {
    const char *key, *value;
};

/*
 * Makes the section "light strip-60" of the file at path hold these keys and no
 * others. The file is made if it is missing, with its folders, and the section
 * where the file has none of that head. All comments stay, and so does every
 * line outside the section, to the byte. As tc_save (save.h); TC_SYNTAX where
 * the file that is there is no profile or a value cannot be written.
 */
enum tc_status tc_section_save(const char *path, const char *head, const struct tc_section_line *lines,
                               size_t count, struct tc_faults *faults);

/*
 * The same with `text`, of a file that path only names in faults: for changes of
 * several sections that are to be written at once. Unless TC_OK it is as it was.
 */
enum tc_status tc_section_put(struct tc_text *text, const char *path, const char *head,
                              const struct tc_section_line *lines, size_t count, struct tc_faults *faults);

/*
 * Takes the section out, with its comments; the file goes as well where nothing
 * is left in it. Otherwise likewise.
 */
enum tc_status tc_section_remove(const char *path, const char *head, struct tc_faults *faults);

#endif
