/* SPDX-License-Identifier: MIT */
/*
 * section_file.h - sections of the user's own profiles written from the screen,
 * in force at once, with undo. Heads are as in a file: "light strip-60",
 * "prices lowmere-shop lid".
 */
#ifndef TC_SCREEN_SECTION_FILE_H
#define TC_SCREEN_SECTION_FILE_H

#include "profile/section.h"
#include "screen/state.h"

/* The section of that head that is in force, the user's own before others; NULL where there is none. */
const struct tc_section *tc_section_of(const struct tc_state *state, const char *head);

/* Whether it may be changed: it did not come with the program. False for NULL. */
bool tc_section_is_own(const struct tc_state *state, const struct tc_section *section);

/* Whose it is, in a word or two: "yours", "installed", "invented". */
const char *tc_section_whose(const struct tc_state *state, const struct tc_section *section);

/*
 * Sets a key of a section of the user's own, which is made where it is missing;
 * "" takes the key out. All is read again, and a fault of the section is told.
 * False where the file could not be written, which is told as well: in the
 * prompt where one is open.
 */
bool tc_section_set(struct tc_state *state, const char *head, const char *key, const char *value);

/* Likewise makes a section, with the keys of another one but for its mark as invented ("": with none). */
bool tc_section_make(struct tc_state *state, const char *head, const char *from);

/* Likewise writes several keys at once. */
struct tc_section_line;
bool tc_section_write(struct tc_state *state, const char *head, const struct tc_section_line *lines,
                      size_t count);

/* Likewise takes a section out of its file. */
bool tc_section_delete(struct tc_state *state, const char *head);

/* Likewise writes a plan to a file of its own, with its wall and all that belongs to it. */
bool tc_section_write_plan(struct tc_state *state, const struct tc_plan *plan);

/* Likewise deletes the whole file of a section, as that of a plan is. */
bool tc_section_delete_file(struct tc_state *state, const char *head);

/* Takes the last writing back, and says so. */
void tc_section_undo(struct tc_state *state);

#endif
