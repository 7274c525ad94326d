/* SPDX-License-Identifier: MIT */
/*
 * html.h - sheets as one page of HTML.
 *
 * The page stands by itself: its style is in it, it asks for nothing from
 * elsewhere and runs no script. For each sheet: title and assumptions, findings,
 * the table (groups as row groups; every mark as its sign and, for those who
 * listen, its word), the legend of the signs, drawing and charts as SVG (svg.h),
 * the other notes. It can be printed on A4 and Letter in black and white, and
 * read on a narrow screen, where wide tables scroll by themselves. All texts are
 * escaped. The page is UTF-8, whatever the terminal.
 */
#ifndef TC_PRINT_HTML_H
#define TC_PRINT_HTML_H

#include "print/print_options.h"

enum tc_status tc_print_html(struct tc_text *out, const struct tc_sheet *sheet,
                             const struct tc_print_options *options);

/*
 * Several sheets on one page, with a title of its own and links to each. The
 * findings of the first come first, as the answer. A note that stands on the page
 * already is not said again.
 */
enum tc_status tc_print_html_page(struct tc_text *out, const char *title, const struct tc_sheet *sheets,
                                  size_t count, const struct tc_print_options *options);

#endif
