/* SPDX-License-Identifier: MIT */
/*
 * name.h - the names of items and keys: what they may look like, when two
 * are the same, and which known one a misspelt one probably means.
 *
 * Letters are told apart in ASCII only, the same in every locale.
 */
#ifndef TC_CORE_BASE_NAME_H
#define TC_CORE_BASE_NAME_H

#include <stdbool.h>
#include <string.h>

/* Room for any valid name, with its end. */
#define TC_NAME_SIZE 48

/* What a name is made of, for messages. */
#define TC_NAME_RULE "letters, digits, '-' and '.', 47 at most"

/* The lower-case form of an ASCII letter; anything else as it is. */
char tc_name_lower(char c);

/*
 * True if name has the form of a name: 1 to TC_NAME_SIZE - 1 lower-case
 * letters, digits, '-' and '.', the first of them a letter or a digit.
 */
bool tc_name_valid(const char *name);

/* True if a and b are the same but for the case of ASCII letters. */
bool tc_name_equal(const char *a, const char *b);

/*
 * True if a and b are the same in every byte. For searches through tables:
 * most names differ in the first letter, and then nothing is called.
 */
static inline bool tc_name_same(const char *a, const char *b)
{
    return a[0] == b[0] && strcmp(a, b) == 0;
}

/*
 * Writes into name the valid name closest to a text that is none: in lower
 * case, blanks and '_' turned into '-', everything else left out. Returns
 * false, and an empty name, if nothing is left or the text is too long.
 */
bool tc_name_mend(char name[TC_NAME_SIZE], const char *text);

/*
 * The known name nearest to wrong, or NULL if none is near. Nearness is the
 * optimal string alignment distance (Damerau 1964 in its restricted form: one
 * insertion, removal, replacement or swap of neighbours costs 1), case not
 * counted; near is up to a third of the length of wrong, at least 1, with one
 * letter or more in common. Of equally near names the first is taken; where
 * none is near, the first that wrong, of three letters or more, is the
 * beginning of ("temp" is "temperature"). Names that begin with the same number
 * and a '-' come before all others: "29-gal" is "29-high", not "10-gal".
 *
 * at(context, i) gives the i-th of count known names; NULLs are passed over.
 * The result is what `at` gave and lives as long as that.
 */
const char *tc_name_nearest(const char *wrong, const char *(*at)(const void *context, size_t i),
                            const void *context, size_t count);

/* The same for a plain array of names. */
const char *tc_name_nearest_of(const char *wrong, const char *const *names, size_t count);

#endif
