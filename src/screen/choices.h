/* SPDX-License-Identifier: MIT */
/*
 * choices.h - what there is to choose from: one list for each kind of picker,
 * with what a user wants to know before choosing.
 */
#ifndef TC_SCREEN_CHOICES_H
#define TC_SCREEN_CHOICES_H

#include "screen/state.h"

/* Whom a list is about, where it is about one candidate or slot. */
struct tc_choices_about {
    int candidate;
    enum tc_slot slot;
};

/*
 * Fills an empty sheet with the choices of a kind, as picker.h wants it. An
 * ASCII screen gets ASCII. TC_NO_MEMORY; free it whatever the status.
 */
enum tc_status tc_choices_make(const struct tc_state *state, enum tc_picker_kind kind,
                               struct tc_choices_about about, struct tc_sheet *sheet);

/* The value of the list that is in force now; into buffer (TC_NAME_SIZE). */
const char *tc_choices_present(const struct tc_state *state, enum tc_picker_kind kind,
                               struct tc_choices_about about, char *buffer);

#endif
