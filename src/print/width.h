/* SPDX-License-Identifier: MIT */
/*
 * width.h - how many columns of a terminal a text takes; cutting, padding and
 * wrapping by columns.
 *
 * Text is UTF-8. The C library's wcwidth answers, since terminals and ncurses follow it. It knows characters
 * beyond ASCII in a UTF-8 locale alone: tc_print sees to one. What it does not know, and a byte that belongs
 * to no character, counts as one column.
 */
#ifndef TC_PRINT_WIDTH_H
#define TC_PRINT_WIDTH_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Columns of one character: 0 (combining, control), 1 or 2. */
int tc_width_code(uint32_t code);

/* Columns of a text, and of its first length bytes. */
int tc_width(const char *text);
int tc_width_bytes(const char *text, size_t length);

/* How many bytes of text fit into that many columns, with whole characters and their combining marks. */
size_t tc_width_cut(const char *text, int columns);

/*
 * Wraps a text by words:
 *
 *     struct tc_wrap wrap = {text, width};
 *     while (tc_wrap_next(&wrap, &line, &length))
 *         ...length bytes at line...
 *
 * Breaks at blanks (not at U+00A0); a word wider than the line is broken after
 * a hyphen or slash in it, or else where the line ends. Width may change
 * between the calls; 0 or less means no limit. An empty text has no lines.
 */
struct tc_wrap {
    const char *rest;
    int width;
};
bool tc_wrap_next(struct tc_wrap *wrap, const char **line, size_t *length);

/* The least width at which no word is broken elsewhere than at a hyphen or slash. */
int tc_wrap_least(const char *text);

#endif
