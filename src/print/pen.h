/* SPDX-License-Identifier: MIT */
/*
 * pen.h - writes lines of text from left to right, in tones.
 *
 * A tone is what a piece of text is, not how it looks: the pen turns it into
 * escape codes (ECMA-48 SGR) if it has colour, ncurses code into attributes.
 * No tone says anything that signs and words do not say as well. Blanks at
 * the end of a line are never written.
 */
#ifndef TC_PRINT_PEN_H
#define TC_PRINT_PEN_H

#include <stdbool.h>

#include "core/base/text.h"

enum tc_tone {
    TC_TONE_PLAIN,
    TC_TONE_STRONG, /* titles, heads, totals */
    TC_TONE_SOFT,   /* rules, units, axes */
    TC_TONE_BEST,
    TC_TONE_TYPED,
    TC_TONE_WARN,  /* short, over, incomplete, missing; cautions */
    TC_TONE_SERIES /* the first of TC_TONE_SERIES_COUNT tones, one for each series of a chart */
};

enum { TC_TONE_SERIES_COUNT = 6, TC_TONE_COUNT = TC_TONE_SERIES + TC_TONE_SERIES_COUNT };

struct tc_pen {
    struct tc_text *out;
    bool colour;
    int column;        /* where the next text goes, from 0 */
    int blanks;        /* of these, not yet written */
    enum tc_tone tone; /* the tone whose codes are in force */
};

/* Moves right to a column; nothing happens if the pen is there or beyond. */
void tc_pen_to(struct tc_pen *pen, int column);

/* Writes length bytes of a text, or all of it. */
void tc_pen_write(struct tc_pen *pen, enum tc_tone tone, const char *text);

/* Writes a sign of one column count times: a rule. */
void tc_pen_rule(struct tc_pen *pen, enum tc_tone tone, const char *sign, int count);

/* Ends the line. */
void tc_pen_line(struct tc_pen *pen);

/*
 * Writes a text as a paragraph from the present column on: its further lines
 * begin at column `hang`, none goes beyond `width` (0: no limit) where words
 * allow. Ends the last line.
 */
void tc_pen_paragraph(struct tc_pen *pen, enum tc_tone tone, const char *text, int hang, int width);

#endif
