/* SPDX-License-Identifier: MIT */
/*
 * save.h - writes a file so that it is there whole, or as it was before.
 */
#ifndef TC_PROFILE_SAVE_H
#define TC_PROFILE_SAVE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "core/base/status.h"
#include "core/base/text.h"
#include "profile/fault.h"

/*
 * Makes length bytes of data the content of the file at path, which is
 * created if it is not there. The bytes go into a new file in the same
 * folder, are synced to the disk and only then take the place of the old
 * file, in one step; whatever fails before leaves the old file untouched and
 * no new one behind. Only a process that is killed meanwhile leaves one, which
 * the next saving in that folder takes away.
 *
 * The permissions of an old file are kept (not its owner, unless the process
 * may give files away); a new one gets what umask leaves of rw-rw-rw-. A
 * symbolic link stays, the file it leads to is written. A file that must not be
 * written is not replaced either. What is no regular
 * file (a device, a pipe) is written to directly.
 *
 * TC_OK, or TC_IO or TC_NO_MEMORY with an error added to faults that names
 * path and says why.
 */
enum tc_status tc_save(const char *path, const void *data, size_t length, struct tc_faults *faults);

/*
 * Makes a folder, and those above it, as far as they are missing; false, with
 * an error that names the first one that could not be made.
 */
bool tc_make_folders(const char *folder, struct tc_faults *faults);

/*
 * Adds what the file at path holds to text. A file that is not there, or one
 * that is not a regular file and so holds nothing to be kept, is TC_OK with *there
 * false. Anything else that stands in the way is TC_IO with an error in faults:
 * what cannot be read must not be replaced. TC_NO_MEMORY.
 */
enum tc_status tc_load(const char *path, struct tc_text *text, bool *there, struct tc_faults *faults);

/* Whether a file lies below a folder, by their names; NULL is no folder. */
bool tc_path_lies_in(const char *path, const char *folder);

/* What a file holds, as far as it takes to see later whether that has changed. */
struct tc_file_mark {
    bool there;
    size_t length;
    uint64_t sum; /* FNV-1a of its bytes */
};

/* Of a text; of a file, where one that cannot be read has a mark unlike any other. */
struct tc_file_mark tc_mark_file(const char *path);
bool tc_mark_equal(const struct tc_file_mark *a, const struct tc_file_mark *b);

/* Writes all of data to an open file, in as many steps as it takes; false, with errno, if that fails. */
bool tc_write_all(int file, const void *data, size_t length);

#endif
