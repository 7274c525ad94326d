/* SPDX-License-Identifier: MIT */
/*
 * print.h - any sheet as text, CSV, Markdown, JSON or HTML.
 *
 * Nothing here knows which question a sheet answers. The header of each format
 * (text_sheet.h, csv.h, markdown.h, json.h, html.h) says what its output looks like.
 */
#ifndef TC_PRINT_PRINT_H
#define TC_PRINT_PRINT_H

#include <stdbool.h>
#include <stddef.h>

#include "print/print_options.h"

enum tc_print_format { TC_PRINT_TEXT, TC_PRINT_CSV, TC_PRINT_MARKDOWN, TC_PRINT_JSON, TC_PRINT_HTML };

/* Finds a format by its name ("text", "csv", "markdown", "json", "html"); false where unknown. */
bool tc_print_format_find(const char *name, enum tc_print_format *format);

/* The name of the i-th format, or NULL past the last; for messages and hints. */
const char *tc_print_format_name(size_t i);

/* The format a file's name asks for by its ending, .txt, .csv, .md, .json or .html; false where it has none
 * of them.
 */
bool tc_print_format_of(const char *path, enum tc_print_format *format);

/*
 * Adds the sheet to out. TC_NO_MEMORY where out, the sheet or something on the
 * way ran out of memory: out then holds a part of it and must not be shown.
 */
enum tc_status tc_print(struct tc_text *out, const struct tc_sheet *sheet, enum tc_print_format format,
                        const struct tc_print_options *options);

/* Whether a format takes several sheets: those for people do. */
bool tc_print_format_several(enum tc_print_format format);

/*
 * Adds several sheets in such a format: HTML as one page with a title and links (html.h), the others one
 * after the other. TC_NO_MEMORY as above.
 */
enum tc_status tc_print_several(struct tc_text *out, const char *title, const struct tc_sheet *sheets,
                                size_t count, enum tc_print_format format,
                                const struct tc_print_options *options);

#endif
