/* SPDX-License-Identifier: MIT */
/*
 * form.h - sections of profiles shown, made, copied, changed and deleted: what
 * the lists of them and of their keys hold, and what choosing does.
 *
 * A form is a view of a section as its file has it, one line a key, from the
 * table of its kind; a price list has a line for each thing of its kind. What
 * is typed is written to the user's own file at once (profile/section_save.h)
 * and in force at once; the last writings can be taken back. What came with the
 * program is only copied.
 */
#ifndef TC_SCREEN_FORM_H
#define TC_SCREEN_FORM_H

#include "screen/list.h"

/* Opens the list of the kinds of sections there are, to go on to those of one. */
void tc_form_kinds(struct tc_state *state, int unused);

/* Opens the form of a section by its head, "light strip-60", over what is open. */
void tc_form_open(struct tc_state *state, const char *head);

#endif
