/* SPDX-License-Identifier: MIT */
/*
 * fault.h - what is wrong in the profiles, all of it, with the place.
 *
 * Reading never prints and never stops at the first mistake: it adds a fault
 * to a list and goes on. A fault is an error (the item is left out) or a note
 * (worth knowing, the item is used). A fault reads
 *
 *     tanks/shop.ini:12: [tank 29-high] length: has no unit; write '30 in' or '76 cm'
 *
 * in lower case, without a full stop: what is wrong, and what would be right.
 *
 * A list that runs out of memory does not hide it: it ends with an error that
 * says so (and counts as one). All texts are cleaned (core/base/clean.h) when added.
 */
#ifndef TC_PROFILE_FAULT_H
#define TC_PROFILE_FAULT_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

#include "core/base/text.h"

/* A fault's text is cut, at a character's border, to fit in this with its end. */
#define TC_FAULT_TEXT_SIZE 1024

enum tc_severity { TC_ERROR, TC_NOTE };

/* Where a fault is. Any of the names may be NULL, the line 0: left unsaid. */
struct tc_place {
    const char *file;
    int line; /* from 1 */
    const char *section;
    const char *key;
};

struct tc_fault {
    enum tc_severity severity;
    struct tc_place place;
    const char *text;
};

/* Read it through the functions below; zeroed, it is an empty list. */
struct tc_faults {
    struct tc_fault **items; /* owned, each one allocation with its texts */
    size_t count;
    size_t capacity;
    size_t errors; /* of severity TC_ERROR among items */
    bool lost;     /* out of memory: some fault is missing */
};

#define TC_FAULTS_EMPTY                                                                                      \
    {                                                                                                        \
        NULL, 0, 0, 0, false                                                                                 \
    }

/* Add an error or a note, with a text as by printf. All texts are copied. */
void tc_faults_error(struct tc_faults *faults, struct tc_place place, const char *format, ...)
    TC_PRINTF(3, 4);
void tc_faults_note(struct tc_faults *faults, struct tc_place place, const char *format, ...) TC_PRINTF(3, 4);
void tc_faults_addv(struct tc_faults *faults, enum tc_severity severity, struct tc_place place,
                    const char *format, va_list arguments) TC_PRINTF(4, 0);

/* Moves all faults of another list behind those of this one; that one is empty then. */
void tc_faults_move(struct tc_faults *faults, struct tc_faults *from);

/* Number of faults, with the one that says that others were lost. */
size_t tc_faults_count(const struct tc_faults *faults);

/* Number of errors among them. */
size_t tc_faults_errors(const struct tc_faults *faults);

/* The i-th fault, i < tc_faults_count(); good until the list changes or is freed. */
const struct tc_fault *tc_faults_at(const struct tc_faults *faults, size_t i);

/*
 * Puts the faults of each file in the order of its lines (those without a
 * line first); files stay in the order in which they first came up, faults of
 * one line in the order in which they were added.
 */
void tc_faults_sort(struct tc_faults *faults);

/* Adds one fault to text: `file:line: [section] key: text`, no newline; a note with "note: " before its text.
 */
void tc_fault_write(const struct tc_fault *fault, struct tc_text *text);

/* Adds all faults to text, one a line. */
void tc_faults_write(const struct tc_faults *faults, struct tc_text *text);

void tc_faults_free(struct tc_faults *faults);

#endif
