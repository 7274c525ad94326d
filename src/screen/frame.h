/* SPDX-License-Identifier: MIT */
/*
 * frame.h - how the screen is divided: a strip on top that says what is
 * compared under which assumptions, the sheet, and two lines at the bottom,
 * of which the first says what is selected or has happened and the second
 * what can be done here.
 *
 * The strip holds the sheet's findings, which are the answer: all of them
 * where one begins to read, and on a small screen the first alone further down.
 */
#ifndef TC_SCREEN_FRAME_H
#define TC_SCREEN_FRAME_H

#include <stdbool.h>
#include <stddef.h>

#include "sheet/sheet.h"

/* A smaller screen shows nothing but a notice. */
enum { TC_FRAME_LEAST_WIDTH = 60, TC_FRAME_LEAST_HEIGHT = 16 };

struct tc_frame {
    int width, height;
    bool too_small;
    bool roomy; /* blank lines and rules can be afforded */
    int storey; /* the most lines of each storey of the column heads */
    int margin; /* blank columns at the left and right */
    int inside; /* columns between the margins */
    /* Rows: where each begins, and how many there are. */
    int assumptions, assumptions_height;
    int finding, finding_height; /* what is shown of the findings: all, or where folded the first */
    int findings_height, first_height;
    bool cut;      /* there is no room for all findings */
    bool folded;   /* further down in a sheet, on a small screen, only the first finding is shown */
    bool foldable; /* the findings would take too much of the screen there */
    int faults, faults_height; /* 1 where something is wrong with the plan or the profiles */
    int heads, heads_height;
    int rule; /* under the heads */
    int body, body_height;
    int status, hints;
};

/*
 * Divides a screen for a sheet, NULL where there is none to show. heads is
 * the height of the column heads: they come from the sheet as laid out, for
 * which in turn the width is needed; so ask with 2, lay out, and ask again.
 */
void tc_frame_make(struct tc_frame *frame, int width, int height, const struct tc_sheet *sheet, bool faults,
                   int heads);

/* Shows the first finding alone, or all of them: what is below moves. */
void tc_frame_fold(struct tc_frame *frame, bool folded);

/* The i-th finding of a sheet; NULL past the last. */
const char *tc_frame_finding(const struct tc_sheet *sheet, size_t i);

#endif
