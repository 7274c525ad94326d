/* SPDX-License-Identifier: MIT */
/*
 * input.h - one line of text being typed.
 *
 * A plain value. The text is clean UTF-8; the place of the next character is
 * a byte between two characters. A fresh text is replaced as a whole by the
 * first character typed, as in the cell of a ledger that is written over; any
 * other key keeps it.
 */
#ifndef TC_SCREEN_INPUT_H
#define TC_SCREEN_INPUT_H

#include <stdbool.h>
#include <stddef.h>

#include "screen/key_event.h"

enum { TC_INPUT_SIZE = 1024 };

struct tc_input {
    char text[TC_INPUT_SIZE];
    size_t length;
    size_t at;  /* where the next character goes */
    bool fresh; /* nothing was typed yet */
};

/* Starts with a text, cleaned and cut to fit, behind which typing goes on. */
void tc_input_start(struct tc_input *input, const char *text, bool fresh);

/* Takes a press; false where it does not concern a line of text. */
bool tc_input_press(struct tc_input *input, uint32_t code);

#endif
