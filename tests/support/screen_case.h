/* SPDX-License-Identifier: MIT */
/* screen_case.h - a screen without a terminal: pressed and looked at by tests. */
#ifndef TC_TESTS_SCREEN_CASE_H
#define TC_TESTS_SCREEN_CASE_H

#include <stdbool.h>

#include "core/base/text.h"
#include "print/canvas.h"
#include "screen/state.h"

struct screen_case {
    char profiles[4096]; /* the folder of the profiles */
    struct tc_stock stock;
    struct tc_faults faults;
    struct tc_plan plan;
    struct tc_screen_options options;
    struct tc_state state;
    struct tc_text seen;
};

/*
 * Starts the screen on the plan "spring" of tests/data/profiles, on a day on
 * which its sale runs. Free it whatever happens.
 */
void screen_case_start(struct screen_case *c, int width, int height);
void screen_case_start_on(struct screen_case *c, const char *profiles, const char *name, int width,
                          int height);
void screen_case_free(struct screen_case *c);

/* Puts a sheet made by hand in the place of the bill, which is then not made anew until the plan changes. */
void screen_case_show(struct screen_case *c, void (*make)(struct tc_sheet *sheet));

/* Presses one key, and lets the work be done that follows. */
void screen_press(struct screen_case *c, uint32_t code);

/* Presses a key for each character; '\r' is Enter, '\t' Tab, '\033' Esc, '\b' Backspace, '\025' Ctrl-U. */
void screen_type(struct screen_case *c, const char *keys);

/* The screen as lines without blanks at their ends; good until the next call. */
const char *screen_text(struct screen_case *c);

/*
 * The same with a second block below in which each cell says by a letter what
 * its role is: '.' plain, 'b' bold and so on, capital where selected; '+' marks the cursor.
 */
const char *screen_roles(struct screen_case *c);

/* Whether the screen shows a text anywhere on one line. */
bool screen_shows(struct screen_case *c, const char *text);

/* Selects the first row of the present sheet with that label, and a column. */
void screen_select(struct screen_case *c, const char *label, size_t column);

/* The text of a cell of the present sheet, by the label of the n-th row that has it (from 0); "" where it has
 * none. */
const char *screen_cell(struct screen_case *c, const char *label, int n, size_t column);

#endif
