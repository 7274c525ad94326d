/* SPDX-License-Identifier: MIT */
/* own_folder.h - a folder in which a test runs and writes, below that of the build. */
#ifndef TC_TESTS_OWN_FOLDER_H
#define TC_TESTS_OWN_FOLDER_H

enum { OWN_FOLDER_SIZE = 1024 };

struct own_folder {
    char path[OWN_FOLDER_SIZE]; /* as seen from top */
    char top[OWN_FOLDER_SIZE];  /* where the test came from */
};

/* Makes it, named after the test, and goes there; 0 or, for a cmocka setup, what failed. */
int own_folder_enter(struct own_folder *own, const char *name);

/* Goes back and takes it away with all that is in it; 0 or, for a cmocka teardown, what failed. */
int own_folder_leave(const struct own_folder *own);

#endif
