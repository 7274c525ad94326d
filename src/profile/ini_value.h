/* SPDX-License-Identifier: MIT */
/*
 * ini_value.h - what stands behind the '=' of a line: a value, and perhaps a
 * comment. For ini_scan.c and comments.c only.
 */
#ifndef TC_PROFILE_INI_VALUE_H
#define TC_PROFILE_INI_VALUE_H

#include <stdbool.h>
#include <stddef.h>

enum { TC_INI_PROBLEM_SIZE = 128 };

/*
 * Cuts a value down, in place, to its text with its quotes; it has no blanks
 * at its ends. False, with what is wrong and what would be right, where
 * releases of iniparser would read it in different ways or not as written.
 */
bool tc_ini_value(char *value, char problem[TC_INI_PROBLEM_SIZE]);

/*
 * Where the comment starts in what stands behind the '=', of length bytes:
 * behind the closing quote or, without quotes, at a mark between blanks. NULL
 * where there is none.
 */
const char *tc_ini_comment(const char *value, size_t length);

/* Nothing, or blanks and a comment: what may follow a ']' or a closing quote. */
bool tc_ini_only_comment(const char *text);

/* Cuts blanks off both ends of text, in place. */
char *tc_ini_trim(char *text);

static inline bool tc_ini_blank(char c)
{
    return c == ' ' || c == '\t';
}

static inline bool tc_ini_comment_mark(char c)
{
    return c == '#' || c == ';';
}

#endif
