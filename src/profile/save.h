/* SPDX-License-Identifier: MIT */
/*
 * save.h - writes a file so that it is there whole, or as it was before.
 */
#ifndef TC_PROFILE_SAVE_H
#define TC_PROFILE_SAVE_H

#include <stdbool.h>
#include <stddef.h>

#include "core/base/status.h"
#include "profile/fault.h"

/*
 * Makes length bytes of data the content of the file at path, which is
 * created if it is not there. The bytes go into a new file in the same
 * folder, are synced to the disk and only then take the place of the old
 * file, in one step; whatever fails before leaves the old file untouched and
 * no new one behind.
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

/* Writes all of data to an open file, in as many steps as it takes; false, with errno, if that fails. */
bool tc_write_all(int file, const void *data, size_t length);

#endif
