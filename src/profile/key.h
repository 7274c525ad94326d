/* SPDX-License-Identifier: MIT */
/*
 * key.h - the keys of profiles as tables: name, form, unit, bounds, default.
 *
 * One table for each kind of section is the one source for the reader, for
 * figures typed over on the command line and on the screen, for the ranges
 * that `doubts` and `whatif` vary, and for the manual page, whose list is
 * tested against it.
 */
#ifndef TC_PROFILE_KEY_H
#define TC_PROFILE_KEY_H

#include "profile/key_form.h"

/* The i-th of the words that a key takes in place of a figure or name; false past the last. */
bool tc_key_word_at(const struct tc_key *key, int i, char word[TC_NAME_SIZE]);

const struct tc_key *tc_key_find(const struct tc_key_table *table, const char *name);
/* The key that can stand in the place of this one (see instead) or in whose place this one can, or NULL. */
const struct tc_key *tc_key_sibling(const struct tc_key_table *table, const struct tc_key *key);

/* The name in a record that counts in the place of this key's figure (see instead); NULL where none can. */
char *tc_key_overruling(const struct tc_key_table *table, const struct tc_key *key, void *record);
/* The key's name nearest to a misspelt one, or NULL. */
const char *tc_key_nearest(const struct tc_key_table *table, const char *name);
/*
 * Says that a name is no key of the table and what to write: what it is called now if that is its former
 * name, else the key it probably means. False, and problem says only that it is unknown, where neither is.
 */
bool tc_key_unknown(const struct tc_key_table *table, const char *name, char problem[TC_PROBLEM_SIZE]);

/* Whether a key was there; false for a record that was typed over. */
bool tc_entry_given(const struct tc_entry *entry, const char *name);

/* Says what is wrong with a record, and with which key (NULL: with the whole); returns false. */
bool tc_entry_blame(struct tc_entry *entry, const char *key, const char *format, ...) TC_PRINTF(3, 4);

/* Makes a record of the table's size zero but for its defaults; what is required stays zero. */
void tc_key_defaults(const struct tc_key_table *table, void *record);

/*
 * Reads text into the record. For a range the record gets its middle (the
 * likely value, or else half way) and *spread the range; otherwise a fixed
 * spread. spread may be NULL. On failure the record is unchanged, false is
 * returned and problem says what is wrong, and what would be right. No
 * currency may be written beside an amount.
 */
bool tc_key_read(const struct tc_key *key, const char *text, void *record, struct tc_spread *spread,
                 char problem[TC_PROBLEM_SIZE]);

/* The same, knowing the currency and giving every range. */
bool tc_key_read_with(const struct tc_key *key, const char *text, void *record, struct tc_reading *reading);

/* The (first) range of a reading, or else the figure that the record got, fixed; 0 where it is no figure. */
struct tc_spread tc_key_spread(const struct tc_key *key, const void *record,
                               const struct tc_reading *reading);

/*
 * Writes what the record holds as tc_key_read takes it; "" where it holds
 * nothing. A figure is written in the unit that says it in the fewest digits,
 * of equals in the one the system prefers, and reads back to the same value
 * if it came from a text.
 */
void tc_key_write(const struct tc_key *key, const void *record, enum tc_unit_system system,
                  char text[TC_VALUE_SIZE]);

#endif
