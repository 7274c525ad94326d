/* SPDX-License-Identifier: MIT */
/*
 * form.h - a section of a profile, shown, made, copied and changed: what the
 * list of its keys holds, and what choosing does.
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

/* Opens the form of a section by its head, "light strip-60", over what is open. */
void tc_form_open(struct tc_state *state, const char *head);

/* Asks for the name of a new section of a kind, with what another one says by its head ("": nothing). */
void tc_form_ask_name(struct tc_state *state, const char *kind, const char *from);

#endif
