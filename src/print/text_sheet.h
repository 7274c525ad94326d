/* SPDX-License-Identifier: MIT */
/*
 * text_sheet.h - a sheet as text for people: a terminal, a file, a printout.
 *
 * Title and assumptions; the findings, which are the answer; the table (table.h) with a legend of the signs
 * that occur in it; the drawing and the charts; the other notes, each led by what it is. Nothing is wider
 * than options->width, unless a single figure or a drawing needs more; there are no blanks at the end of a
 * line and, without options->colour, no escape codes.
 */
#ifndef TC_PRINT_TEXT_SHEET_H
#define TC_PRINT_TEXT_SHEET_H

#include "print/print_options.h"

enum tc_status tc_print_text(struct tc_text *out, const struct tc_sheet *sheet,
                             const struct tc_print_options *options);

#endif
