/* SPDX-License-Identifier: MIT */
/*
 * section.h - the sections of all profiles that were read, each with its
 * place, before records are made of them.
 *
 * An item's section, "[tank 29-high]", is there once in a layer; in a later
 * layer it replaces that of an earlier one. The sections of a plan's file,
 * "[candidate 1]", "[assume setup]", "[wall]", belong to the file's one plan.
 * "[prices lowmere-shop lid]" holds items of its own, one a key, and is kept
 * however often it is there.
 */
#ifndef TC_PROFILE_SECTION_H
#define TC_PROFILE_SECTION_H

#include <stdbool.h>
#include <stddef.h>

#include "core/base/index.h"
#include "core/base/name.h"
#include "profile/fault.h"
#include "profile/ini.h"

struct tc_section_file {
    struct tc_ini ini; /* owned */
    int layer;
};

struct tc_section {
    char kind[TC_NAME_SIZE]; /* "tank", "prices", "candidate" */
    char name[TC_NAME_SIZE]; /* of an item; of prices the shop; of assumptions "setup", "region" or "shop" */
    char detail[TC_NAME_SIZE]; /* of prices the kind of item; of assumptions the shop; else "" */
    int number;                /* of a candidate, from 1; else 0 */
    size_t file;               /* index into files */
    const struct tc_ini_section *ini;
    size_t record; /* place of its record in the stock, from 1; 0: none was made */
    bool bad;      /* it was reported that it cannot be used */
    bool replaced; /* a later layer has it as well */
};

struct tc_sections {
    struct tc_section_file *files;
    struct tc_section **items; /* each owned, in the order of reading */
    size_t file_count, file_capacity, count, capacity;
    size_t file_read;      /* so many of the files have their values */
    struct tc_index index; /* the live items by kind and name */
    int layer;             /* of the files read last */
};

/* Whether a name has a meaning of its own where names of items of a kind stand, such as "none", and so cannot
 * be one.
 */
bool tc_section_reserved(const char *kind, const char *name);

/* NULL if out of memory. */
struct tc_sections *tc_sections_new(void);
void tc_sections_free(struct tc_sections *sections);

/* What is read from now on is a layer of its own. */
void tc_sections_next_layer(struct tc_sections *sections);

/*
 * Opens a file and sorts its sections in. What is wrong with the file or its
 * sections' names is a fault. TC_NO_MEMORY where memory ran out; TC_OK also
 * where the file could not be read.
 */
enum tc_status tc_sections_add(struct tc_sections *sections, const char *path, struct tc_faults *faults);

/* The same for several files one after the other; large ones are opened on all processors. */
enum tc_status tc_sections_add_all(struct tc_sections *sections, const char *const paths[], size_t count,
                                   struct tc_faults *faults);

/* The same from memory; name is the file's for faults. */
enum tc_status tc_sections_add_bytes(struct tc_sections *sections, const char *name, const char *bytes,
                                     size_t length, struct tc_faults *faults);

/*
 * Has the values read of all files that were added since it was last called:
 * until then those of their keys are as written (see tc_ini_values). TC_OK, TC_IO or
 * TC_NO_MEMORY; a section that could not be read is bad, and a fault says why.
 */
enum tc_status tc_sections_values(struct tc_sections *sections, struct tc_faults *faults);

/* The live section of an item, or NULL. It may be a bad one. */
const struct tc_section *tc_sections_find(const struct tc_sections *sections, const char *kind,
                                          const char *name);

/* Where it stands; key (of the section, or NULL) gives the line if it is not NULL. */
struct tc_place tc_section_place(const struct tc_sections *sections, const struct tc_section *section,
                                 const struct tc_ini_key *key);

/* The text of one of its keys as the file has it; NULL where it has none. The section may be NULL. */
const char *tc_section_text(const struct tc_section *section, const char *key);

/* Whether it came with the program: its file lies below that folder (NULL: none). */
bool tc_section_is_installed(const struct tc_sections *sections, const struct tc_section *section,
                             const char *installed);

/* Whose it is, in a word or two: "yours", "installed", "invented". */
const char *tc_section_whose_of(const struct tc_sections *sections, const struct tc_section *section,
                                const char *installed);

#endif
