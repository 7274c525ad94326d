/* SPDX-License-Identifier: MIT */
/*
 * csv.h - a sheet as comma-separated values (RFC 4180), for spreadsheets and
 * scripts: UTF-8, records ended by CR LF, one header record.
 *
 * Fields: kind, group, label, unit, currency, then one for each column of the
 * sheet, named "head (subhead)"; after a column in which any cell has a mark,
 * "NAME marks", the words of its marks set apart by blanks; after a column, if
 * any row of the sheet holds money of several currencies, "NAME currency",
 * filled in such rows, in which the field currency is empty.
 * Charts and drawings add the fields x and y at the end, a drawing also width,
 * height and letter.
 *
 * Records, by kind:
 *   title, assumptions          the text is the label
 *   line, subtotal, total       figures in full: money with all decimals of its
 *                               currency, numbers so that they read back the same
 *   sentence                    its text stands in the first column
 *   finding, remark, caution, fault   notes; the text is the label
 *   point                       of a chart: group is its title, label the series,
 *                               unit the title of its y axis, x the label or
 *                               else the position, y the value
 *   box                         of a drawing: group is its title, label what it
 *                               is, x and y its lower left corner in its unit,
 *                               to nine digits
 *
 * What is not a number is an empty field, a missing figure the words that say
 * what is missing. A text that a spreadsheet would run as a formula (it starts
 * with = + - @ or a control character) gets an apostrophe in front.
 */
#ifndef TC_PRINT_CSV_H
#define TC_PRINT_CSV_H

#include "print/print_options.h"

enum tc_status tc_print_csv(struct tc_text *out, const struct tc_sheet *sheet,
                            const struct tc_print_options *options);

#endif
