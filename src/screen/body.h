/* SPDX-License-Identifier: MIT */
/*
 * body.h - a sheet laid out for scrolling: what of it stands on which line.
 *
 * The table comes first, then the legend of its signs, the drawing and the
 * charts, and the notes. Where the table leaves room at its right, as many
 * pictures as fit the height stand there instead and do not scroll, and under
 * them as many of the notes, the first ones, as still fit.
 *
 * The labels at the left always stay in sight. If the columns do not all fit,
 * as many are shown as do, from a first one on; the widths and so the lines
 * stay the same wherever that is.
 */
#ifndef TC_SCREEN_BODY_H
#define TC_SCREEN_BODY_H

#include <stdbool.h>
#include <stddef.h>

#include "core/base/status.h"
#include "print/canvas.h"
#include "print/layout.h"
#include "sheet/sheet.h"

enum tc_line_kind {
    TC_LINE_BLANK,
    TC_LINE_RULE,     /* over a sum; index is the row of the sum */
    TC_LINE_GROUP,    /* index: the row */
    TC_LINE_ROW,      /* likewise */
    TC_LINE_SENTENCE, /* likewise */
    TC_LINE_LEGEND,   /* of the signs; index: 0 */
    TC_LINE_PICTURE,  /* index: of body->pictures */
    TC_LINE_NOTE      /* index: the note */
};

/* What takes several lines has one of these for each, with parts from 0 on. */
struct tc_line {
    enum tc_line_kind kind;
    size_t index;
    int part;
    size_t strip; /* of body->strips, where it is drawn; none for blanks and pictures */
};

enum { TC_HEAD_STOREYS = 3 };

struct tc_body {
    const struct tc_sheet *sheet; /* borrowed; texts suit the terminal */
    bool ascii, fine;
    struct tc_layout layout;
    int width;                               /* of the lines */
    int head_height;                         /* lines of the column heads, all storeys */
    struct tc_canvas heads[TC_HEAD_STOREYS]; /* owned: head, subhead, currency of the money; all columns */
    struct tc_line *lines;                   /* owned */
    size_t count, capacity;
    struct tc_canvas *strips; /* owned: rows with all columns, rules, legend and notes, drawn once */
    size_t strip_count, strip_capacity;
    struct tc_canvas *pictures; /* owned: the drawing, then the charts */
    size_t picture_count;
    size_t beside;            /* the first so many stand beside the table */
    int beside_start;         /* from this column on */
    struct tc_canvas *asides; /* owned: notes that stand under the pictures beside the table */
    size_t *aside_notes;      /* owned: which */
    size_t aside_count;
};

#define TC_BODY_EMPTY                                                                                        \
    {                                                                                                        \
        .sheet = NULL                                                                                        \
    }

/* What the layout depends on beside the sheet. */
struct tc_body_room {
    int width, height; /* of the place in which it scrolls, heads apart */
    bool roomy;        /* blank lines between groups and rules over sums */
    int storey;        /* the most lines of each storey of the heads; what does not fit is cut */
    bool ascii;
    bool findings; /* the findings stand among the notes, as they have no room above */
    bool fine;     /* pictures with braille and eighths of blocks (canvas.h) */
};

/* Lays a sheet out again; what the body held is freed. TC_NO_MEMORY leaves it empty. */
enum tc_status tc_body_make(struct tc_body *body, const struct tc_sheet *sheet,
                            const struct tc_body_room *room);
void tc_body_free(struct tc_body *body);

/* Whether a line can be selected: the first of a row, sentence or note, and each of a picture. */
bool tc_body_stop(const struct tc_body *body, size_t line);

/* The next such line in a direction (1 or -1) from a line on, itself included; body->count if there is none.
 */
size_t tc_body_next_stop(const struct tc_body *body, size_t line, int direction);

/*
 * Where one is at first: the first row near the top, and within so many lines,
 * in which something can be typed, else the first stop.
 */
size_t tc_body_start(const struct tc_body *body, int height);

/* The name of the group that a line belongs to, where its heading stands above that line; NULL: none does. */
const char *tc_body_group(const struct tc_body *body, size_t line);

/* The lines that are to be in sight with a selected one: all parts, and the headings over it. */
void tc_body_extent(const struct tc_body *body, size_t line, size_t *first, size_t *last);

/* How many columns are shown if `left` is the first; at least one where there is any. */
size_t tc_body_columns(const struct tc_body *body, size_t left);

/* The screen column at which the field of a sheet's column starts, if `left` is the first one shown. */
int tc_body_field(const struct tc_body *body, size_t left, size_t column);

#endif
