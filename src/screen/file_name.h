/* SPDX-License-Identifier: MIT */
/* file_name.h - names of files as users type them. */
#ifndef TC_SCREEN_FILE_NAME_H
#define TC_SCREEN_FILE_NAME_H

#include <stdbool.h>

enum { TC_PATH_SIZE = 1024 }; /* of a file's name with its folders, with its end */

/* The text without blanks around it, and "~/" as the home folder; false where that is too long. */
bool tc_file_name_read(const char *text, char path[TC_PATH_SIZE]);

/* Whether it has that ending, and something before it. */
bool tc_file_name_ends_in(const char *path, const char *ending);

/* What comes after the folders; within the path. */
const char *tc_file_name_base(const char *path);

#endif
