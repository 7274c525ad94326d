/* SPDX-License-Identifier: MIT */
/*
 * arrange.h - a sheet arranged by its reader: rows and columns hidden, columns
 * sorted by a row, or two columns compared as a difference.
 *
 * Nothing is computed again: the figures, marks and subjects are those of the
 * whole sheet, and a note says what is not as the question made it. Rows and
 * columns are known by what they are about, so that an arrangement holds when
 * the sheet is made again.
 */
#ifndef TC_SHEET_ARRANGE_H
#define TC_SHEET_ARRANGE_H

#include <stdbool.h>
#include <stddef.h>

#include "core/base/status.h"
#include "sheet/sheet.h"

enum { TC_ARRANGE_ROWS = 64, TC_ARRANGE_COLUMNS = 16, TC_ARRANGE_KEY = 160 };

/* A row or column as an arrangement knows it; empty: none. */
struct tc_arrange_key {
    char text[TC_ARRANGE_KEY];
};

struct tc_arrange {
    struct tc_arrange_key row[TC_ARRANGE_ROWS]; /* hidden */
    int row_count;
    struct tc_arrange_key column[TC_ARRANGE_COLUMNS]; /* hidden */
    int column_count;
    struct tc_arrange_key sort;     /* columns go by the figures of this row */
    bool descending;                /* the highest first */
    struct tc_arrange_key from, to; /* only these columns, and how much more the second has */
};

/* The key of a row or column of a sheet. */
void tc_arrange_row(const struct tc_sheet *sheet, size_t row, struct tc_arrange_key *key);
void tc_arrange_column(const struct tc_sheet *sheet, size_t column, struct tc_arrange_key *key);

/*
 * Hides a row or column of a sheet. False where nothing more can be hidden, or
 * nothing would be left.
 */
bool tc_arrange_hide_row(struct tc_arrange *arrange, const struct tc_sheet *sheet, size_t row);
bool tc_arrange_hide_column(struct tc_arrange *arrange, const struct tc_sheet *sheet, size_t column);

/*
 * Sorts the columns by a row: the lowest first; asked again of the same row,
 * the highest first, and then as they were. False where fewer than two
 * columns have a figure there.
 */
bool tc_arrange_sort(struct tc_arrange *arrange, const struct tc_sheet *sheet, size_t row);

/* Compares two columns; false where they are different facts, or one. */
bool tc_arrange_compare(struct tc_arrange *arrange, const struct tc_sheet *sheet, size_t from, size_t to);

/* Whether a sheet comes out as it is. */
bool tc_arrange_is_none(const struct tc_arrange *arrange);

/*
 * The sheet arranged. Its texts, charts and drawing are those of the whole
 * one, which has to outlive it; free it like any sheet. What an arrangement
 * names and the sheet has not is passed over; compared columns are shown
 * whatever is hidden. TC_NO_MEMORY.
 */
enum tc_status tc_arrange_make(struct tc_sheet *view, const struct tc_sheet *whole,
                               const struct tc_arrange *arrange);

#endif
