/* SPDX-License-Identifier: MIT */
/*
 * explain.h - where a figure of a sheet comes from: its terms (term.h) as a
 * sheet of their own, line by line, down to the leaves.
 *
 * A figure is named by its column, its group and its row, as
 * "20-high/present/energy"; a line of its derivation by the number behind that,
 * "20-high/present/energy/2.1". Of a name that is given, parts may be missing as
 * long as one figure alone is meant: "20-high/stand".
 */
#ifndef TC_SHEET_EXPLAIN_H
#define TC_SHEET_EXPLAIN_H

#include "core/base/text.h"
#include "sheet/ask.h"
#include "sheet/sheet.h"
#include "sheet/term.h"

/* A figure of a sheet by its place, and a line of its derivation. */
struct tc_figure {
    size_t row, column;
    const struct tc_term *term;
    const char *line; /* "2.1" of the name it was found by; "": the figure itself */
};

/* Whether the cell of a sheet is a figure. */
bool tc_figure_is(const struct tc_cell *cell);

/* Writes the name of the figure in a cell. */
void tc_figure_name(const struct tc_sheet *sheet, size_t row, size_t column, struct tc_text *name);

/*
 * Whether the figures of a row about `subject` are to say how they came about:
 * all are, or the name that is asked for (ask.h) may mean one of that row. For
 * sheets whose every row costs a study.
 */
bool tc_figure_asked(const struct tc_ask *ask, const char *subject);

/*
 * Finds the figure of a name on a sheet that was made with its terms. False,
 * with a problem that names others, where none or several are meant, or where
 * nobody recorded how it came about.
 */
bool tc_figure_find(const struct tc_sheet *sheet, const char *name, struct tc_figure *figure,
                    struct tc_text *problem);

/*
 * Fills an empty sheet with the derivation of a figure: two levels of it, or all
 * down to the leaves; `figure` NULL: all figures of the sheet, by their names.
 * TC_OK or TC_NO_MEMORY.
 */
enum tc_status tc_explain_make(const struct tc_sheet *sheet, const struct tc_figure *figure, bool all,
                               struct tc_sheet *out);

/* The term that a line such as "2.1" leads to from a term; NULL where none does. */
const struct tc_term *tc_explain_line(const struct tc_term *term, const char *line);

/* "= c × p", "profiles/tanks/tanks.ini:12: length = 30 in": how a term came about, in the memory of a sheet.
 */
const char *tc_explain_how(struct tc_sheet *sheet, const struct tc_term *term);

/* A cell of the last row: the value of a term. */
void tc_explain_value(struct tc_sheet *sheet, size_t column, const struct tc_term *term);

#endif
