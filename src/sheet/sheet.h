/* SPDX-License-Identifier: MIT */
/*
 * sheet.h - the neutral sheet: one question answered; the words of the marks on its cells.
 *
 * A sheet is a title, a line that states the assumptions, a table, optionally
 * charts and a drawing, and notes. It knows nothing of terminals or file
 * formats; print/ and screen/ show any sheet without knowing which it is.
 *
 * A sheet owns every text in it: the builders copy (and clean of control
 * characters) what they are given. Readers use the fields directly and change
 * nothing. Builders never fail on the spot: a failed allocation is remembered
 * in `failed`, after which builders do nothing, and is looked at once, when
 * the sheet is done.
 *
 * All text is UTF-8. Labels use signs such as "²", "×" and "–"; whoever shows
 * a sheet on a device without UTF-8 replaces them (print/ does).
 */
#ifndef TC_SHEET_SHEET_H
#define TC_SHEET_SHEET_H

#include <stdbool.h>
#include <stddef.h>

#include "core/money/currency.h"
#include "core/money/money.h"

enum tc_cell_kind {
    TC_CELL_EMPTY,
    TC_CELL_TEXT,
    TC_CELL_MONEY,
    TC_CELL_NUMBER,
    TC_CELL_MISSING /* something that should stand here is not known; text says what */
};

/* Marks say by a word or sign what colour alone must not. */
enum tc_mark {
    TC_MARK_BEST = 1,       /* the best column of this row */
    TC_MARK_TYPED = 2,      /* typed by hand, not from a profile */
    TC_MARK_SHORT = 4,      /* falls short of what the setup asks */
    TC_MARK_INCOMPLETE = 8, /* a sum that lacks a figure */
    TC_MARK_PINNED = 16,    /* chosen by the plan, not by cost */
    TC_MARK_OVER = 32       /* past a limit */
};

/* The word every reader shows for a single mark: "best", "typed", "short"; "" for none. */
const char *tc_mark_word(enum tc_mark mark);

/* In place of a count of decimals: to the eighth of an inch, "23⅝", or where a device has no such sign "23
 * 5/8". */
enum { TC_EIGHTHS = -1, TC_EIGHTHS_ASCII = -2 };

struct tc_term;
struct tc_derive;

struct tc_cell {
    enum tc_cell_kind kind;
    unsigned marks;
    tc_money money; /* TC_CELL_MONEY, in currency */
    struct tc_currency currency;
    double number;    /* TC_CELL_NUMBER, in the unit of the row */
    int decimals;     /* or TC_EIGHTHS */
    const char *text; /* TC_CELL_TEXT, TC_CELL_MISSING; else NULL */
    const char *edit; /* what typing here changes (a path of the plan), or NULL where nothing can be typed */
    const struct tc_term *term; /* how it came about (term.h), where that was asked for; else NULL */
};

enum tc_row_kind {
    TC_ROW_GROUP,    /* a heading; no cells */
    TC_ROW_LINE,     /* an ordinary line */
    TC_ROW_SUBTOTAL, /* the sum of the lines of its group above it */
    TC_ROW_TOTAL,    /* a key figure */
    TC_ROW_SENTENCE  /* a label and one text over all columns, in cells[0] */
};

struct tc_row {
    enum tc_row_kind kind;
    const char *label;
    const char *subject;   /* what it is about, whatever its label says: see tc_sheet_about */
    const char *unit;      /* of its numbers, as printed ("kWh"); "" where none */
    struct tc_cell *cells; /* column_count of them; NULL for a group */
};

struct tc_column {
    const char *head;    /* "29-high" */
    const char *subhead; /* "sale lowmere-spring", or "" */
    const char *subject; /* what it is about, whatever its head says: see tc_sheet_about */
    bool words;          /* holds words: aligned left */
    bool aside;          /* shown, but never the best of a row: not suitable */
};

enum tc_note_kind {
    TC_NOTE_FINDING, /* an answer in one sentence */
    TC_NOTE_REMARK,  /* how a figure is meant */
    TC_NOTE_CAUTION, /* safety */
    TC_NOTE_FAULT    /* something is missing or wrong */
};

struct tc_note {
    enum tc_note_kind kind;
    const char *text; /* a sentence or two, no line breaks */
};

enum tc_chart_kind {
    TC_CHART_BARS,   /* one bar for each x label (months), made of the stacked series */
    TC_CHART_LINES,  /* a line for each series over x */
    TC_CHART_POINTS, /* points without lines, x_labels their names; those of the first series matter most */
    TC_CHART_SPANS   /* for each label a span between two values: series 0 and 1; one end alone is a point */
};

struct tc_series {
    const char *name;
    double *values; /* point_count of them; NAN where there is none */
};

struct tc_chart {
    enum tc_chart_kind kind;
    const char *title;
    const char *x_title;
    const char *y_title;   /* with its unit: "kWh" */
    const char **x_labels; /* point_count of them; "" where none */
    double *x;             /* positions of the points; of TC_CHART_LINES ascending */
    size_t point_count;
    struct tc_series *series;
    size_t series_count;
    const char *band; /* TC_CHART_BARS: what the last two series are, if they are no parts of the bars but the
                         ends of a range about each bar's sum: "likely range"; or "" */
    double middle;    /* TC_CHART_SPANS: where both ends start from; NAN where nothing does */
    const char *below; /* TC_CHART_SPANS: what it means to lie left of zero, or "" */
    const char *above; /* ... and right of it */
    int decimals;      /* of the y figures */
};

/* A box of a drawing, in metres from its lower left corner. */
struct tc_box {
    double x, y, width, height;
    char letter;       /* drawn inside; ' ' for structure (post, shelf) */
    const char *label; /* for the legend: said once a letter; NULL for structure */
};

struct tc_drawing {
    const char *title;
    double width, height; /* of the whole, m */
    const char *unit;     /* of the scale: "in" or "cm" */
    double unit_length;   /* m in one such unit */
    struct tc_box *boxes;
    size_t box_count, box_capacity;
};

struct tc_sheet {
    const char *name;  /* the command: "bill" */
    const char *title; /* "What each costs to own over 10 years" */
    const char *assumptions;
    const char *row_head; /* heads the label column, or "" */
    struct tc_column *columns;
    size_t column_count;
    bool facts; /* its columns are facts of what the rows name: none compares with another */
    struct tc_row *rows;
    size_t row_count, row_capacity;
    struct tc_note *notes;
    size_t note_count, note_capacity;
    struct tc_chart *charts;
    size_t chart_count, chart_capacity;
    struct tc_drawing *drawing; /* or NULL */
    struct tc_block *memory;    /* everything above hangs here */
    struct tc_derive *derives;  /* how its figures come about, while it is made (derive.h) */
    bool explained;             /* its figures are to say how they came about; set after the start */
    bool first;                 /* asked for a glance, it left out what takes long: it is to be asked again */
    bool failed;                /* an allocation failed; what is there is cut short */
};

/* An empty sheet with column_count empty columns. Free it with tc_sheet_free, whatever happens. */
void tc_sheet_start(struct tc_sheet *sheet, const char *name, size_t column_count);
void tc_sheet_free(struct tc_sheet *sheet);

/* Zeroed memory that lives as long as the sheet; NULL after a failure. */
void *tc_sheet_memory(struct tc_sheet *sheet, size_t count, size_t size);

/* A cleaned copy of a text or a formatted text that lives as long as the sheet; "" after a failure. */
const char *tc_sheet_copy(struct tc_sheet *sheet, const char *text);
const char *tc_sheet_format(struct tc_sheet *sheet, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

void tc_sheet_head(struct tc_sheet *sheet, const char *title, const char *assumptions, const char *row_head);
void tc_sheet_column(struct tc_sheet *sheet, size_t column, const char *head, const char *subhead);

/* Adds a row of empty cells, which the calls below fill: they speak of the row added last. */
void tc_sheet_row(struct tc_sheet *sheet, enum tc_row_kind kind, const char *label, const char *unit);

/*
 * Says what the last row or a column is about, for those who have to know it
 * again or act on it: "candidate 2" (of the plan, from 1), the slot "filter", or
 * both, "candidate 2/filter". A row or column of which nothing is said is about
 * its label or head, so it has to be said where that holds a figure, a unit or
 * anything else that may change while the subject stays. "" says nothing.
 */
void tc_sheet_about(struct tc_sheet *sheet, const char *subject);
void tc_sheet_column_about(struct tc_sheet *sheet, size_t column, const char *subject);

/* Adds a TC_ROW_SENTENCE. */
void tc_sheet_sentence(struct tc_sheet *sheet, const char *label, const char *text);

/* Fill a cell of the last row. Columns out of range are ignored. */
void tc_sheet_money(struct tc_sheet *sheet, size_t column, tc_money money, struct tc_currency currency);
void tc_sheet_number(struct tc_sheet *sheet, size_t column, double number, int decimals);
void tc_sheet_text(struct tc_sheet *sheet, size_t column, const char *text);
void tc_sheet_missing(struct tc_sheet *sheet, size_t column, const char *what);

/* Add marks to a cell of the last row (what is past a limit is not marked best); say what typing there
 * changes. */
void tc_sheet_mark(struct tc_sheet *sheet, size_t column, unsigned marks);
void tc_sheet_edit(struct tc_sheet *sheet, size_t column, const char *path);

/*
 * Mark the cell of the last row with the lowest (highest) figure as best;
 * none where fewer than two columns have a figure, where two share the best,
 * or for cells marked TC_MARK_INCOMPLETE, which cannot be compared. Columns
 * that stand aside are not looked at.
 */
void tc_sheet_mark_lowest(struct tc_sheet *sheet);
void tc_sheet_mark_highest(struct tc_sheet *sheet);

void tc_sheet_note(struct tc_sheet *sheet, enum tc_note_kind kind, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* Adds a chart with zeroed series and empty texts; NULL after a failure. Good until the next chart is added.
 */
struct tc_chart *tc_sheet_chart(struct tc_sheet *sheet, enum tc_chart_kind kind, size_t series_count,
                                size_t point_count);

/* Adds the drawing, without boxes; then its boxes, whose labels are copied. */
void tc_sheet_drawing(struct tc_sheet *sheet, const char *title, double width, double height,
                      const char *unit, double unit_length);
void tc_sheet_box(struct tc_sheet *sheet, struct tc_box box);

#endif
