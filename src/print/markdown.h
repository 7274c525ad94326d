/* SPDX-License-Identifier: MIT */
/*
 * markdown.h - a sheet as Markdown, with the tables of GitHub Flavored
 * Markdown.
 *
 * A heading, the assumptions, the table (groups and totals in bold, the words
 * of marks after their figure), drawing and charts as blocks of text, the
 * notes as a list. A sentence is an item of a list, since a table cell is no
 * place for it: the table ends before and goes on after it. Texts are escaped
 * so that none of them is taken for markup.
 */
#ifndef TC_PRINT_MARKDOWN_H
#define TC_PRINT_MARKDOWN_H

#include "print/print_options.h"

enum tc_status tc_print_markdown(struct tc_text *out, const struct tc_sheet *sheet,
                                 const struct tc_print_options *options);

#endif
