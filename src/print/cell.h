/* SPDX-License-Identifier: MIT */
/*
 * cell.h - how a cell reads, wherever it is shown: its figure, the signs of
 * its marks, and where the currency of its money is said.
 */
#ifndef TC_PRINT_CELL_H
#define TC_PRINT_CELL_H

#include <stdbool.h>
#include <stddef.h>

#include "core/base/number.h"
#include "core/base/status.h"
#include "sheet/sheet.h"

/*
 * The text of a cell without its marks: the figure (with its thousands set
 * apart by a blank if group is set; a figure that is not a number is "-"), the
 * words, "missing" for a missing cell without words, "" for an empty one. The
 * figure is written into buffer (at least TC_NUMBER_SIZE); words are the cell's.
 */
const char *tc_cell_text(char *buffer, const struct tc_cell *cell, bool group);

/* True for money and numbers: what is aligned on its point. */
bool tc_cell_is_figure(const struct tc_cell *cell);

/* How many columns of a figure's text stand before its point, or before its fraction: 2 of "23⅝". */
int tc_figure_whole(const char *text);

/* The i-th mark in the order in which they are shown, or 0 past the last. */
unsigned tc_mark_at(size_t i);

/* A sign of one column for a single mark ("◄", or "*" with ascii); "" for none. */
const char *tc_mark_sign(unsigned mark, bool ascii);

/* A few words that say what a single mark means; they hold its word of sheet.h. */
const char *tc_mark_meaning(unsigned mark);

/* How many marks are set: the columns their signs take. */
int tc_marks_count(unsigned marks);

/* All marks that occur anywhere in the sheet. */
unsigned tc_marks_of_sheet(const struct tc_sheet *sheet);

/* The code of the one currency of a row's money; "" where it has several, NULL where there is no money. */
const char *tc_code_of_row(const struct tc_sheet *sheet, size_t row);

/*
 * Each currency code is said once, at the widest place it is true for: for the
 * sheet if all its money is in one currency, else at the head of each column
 * for what most of its money is in; there, a row of other money all in one
 * currency says so itself, and so does each remaining cell.
 *
 * Texts are "" where nothing is to be said at that place.
 */
struct tc_codes {
    const struct tc_sheet *sheet;
    const char *whole; /* for the whole sheet */
    const char **columns;
    const char **rows;
};
enum tc_status tc_codes_find(struct tc_codes *codes, const struct tc_sheet *sheet);
const char *tc_codes_of_cell(const struct tc_codes *codes, size_t row, size_t column);
void tc_codes_free(struct tc_codes *codes);

#endif
