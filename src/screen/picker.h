/* SPDX-License-Identifier: MIT */
/*
 * picker.h - a list to choose from, narrowed down by typing.
 *
 * The list is a sheet (sheet.h) whose rows are the choices: the label says
 * what it is, the columns say what there is to know about it, and the path
 * that the first cell would edit is the value that choosing it stands for.
 * Groups and sentences head the rows after them and cannot be chosen.
 */
#ifndef TC_SCREEN_PICKER_H
#define TC_SCREEN_PICKER_H

#include <stdbool.h>
#include <stddef.h>

#include "core/base/status.h"
#include "print/layout.h"
#include "screen/input.h"
#include "sheet/sheet.h"

struct tc_picker {
    struct tc_sheet sheet;   /* owned */
    struct tc_layout layout; /* of it, one line a row */
    struct tc_input filter;
    size_t *shown; /* owned: the rows that pass the filter, groups included */
    size_t shown_count;
    size_t at;  /* the selected one, an index of shown; shown_count where there is none */
    size_t top; /* the first one in sight */
};

/*
 * Opens with a sheet, which it takes over (it is freed whatever the status),
 * selecting the choice of that value ("" or one that is not there: the first).
 * TC_NO_MEMORY leaves nothing open.
 */
enum tc_status tc_picker_open(struct tc_picker *picker, struct tc_sheet *sheet, const char *value);

/* Puts a sheet with the same choices, as they are now, in the place of the present one. */
enum tc_status tc_picker_renew(struct tc_picker *picker, struct tc_sheet *sheet);

void tc_picker_close(struct tc_picker *picker);

/* The value selected; NULL where there is none. */
const char *tc_picker_value(const struct tc_picker *picker);

/* The row of the sheet selected; NULL where there is none. */
const struct tc_row *tc_picker_row(const struct tc_picker *picker);

/* Moves by so many choices, stopping at the ends; the selected one stays in sight of so many lines. */
void tc_picker_move(struct tc_picker *picker, long by, size_t page);

/* Takes the filter away; the selected choice stays selected. */
void tc_picker_clear(struct tc_picker *picker, size_t page);

/* Types into the filter; false where the press has no meaning there. */
bool tc_picker_type(struct tc_picker *picker, uint32_t code, size_t page);

#endif
