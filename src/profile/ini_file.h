/* SPDX-License-Identifier: MIT */
/*
 * ini_file.h - the sections and keys of one INI file in memory, each with its
 * line, and how large a file may be. Reading one is in ini.h.
 */
#ifndef TC_PROFILE_INI_FILE_H
#define TC_PROFILE_INI_FILE_H

#include <stdbool.h>
#include <stddef.h>

/* Limits: beyond them a file or line is a fault. */
#define TC_INI_FILE_MAX    (8 * 1024 * 1024) /* bytes of a file */
#define TC_INI_LINE_MAX    1000              /* bytes of a line that is no comment */
#define TC_INI_SECTION_MAX 200               /* bytes of a section's name */
#define TC_INI_ENTRY_MAX   65536             /* sections and keys of a file */
#define TC_INI_KEY_MAX     16384             /* keys of a section */
#define TC_INI_FAULT_MAX   200               /* after so many faults the rest is left unread */

struct tc_ini_key {
    const char *name;  /* in lower case */
    const char *value; /* may be empty, written "" */
    int line;          /* from 1 */
};

struct tc_ini_section {
    const char *name; /* in lower case, one blank between words: "tank 29-high" */
    int line;         /* of its [name] */
    /*
     * There was a fault at or in this section, and it has been reported: what
     * stands here may be looked through for further faults, but must not be
     * used. The keys are those that could be read; of a section whose name is
     * faulty or was there before there are none.
     */
    bool bad;
    struct tc_ini_key *keys; /* in the order of the file, no name twice */
    size_t key_count;
};

struct tc_ini {
    char *file;                      /* as given to tc_ini_open */
    struct tc_ini_section *sections; /* in the order of the file */
    size_t section_count;

    /* Memory behind the above. */
    struct tc_ini_key *keys;
    size_t key_count;
    size_t key_capacity, section_capacity;
    char *bytes;
};

#define TC_INI_EMPTY                                                                                         \
    {                                                                                                        \
        NULL, NULL, 0, NULL, 0, 0, 0, NULL                                                                   \
    }

#endif
