/* SPDX-License-Identifier: MIT */
/*
 * clean.h - makes text from outside safe to show.
 *
 * A name or note in a profile may hold bytes that drive a terminal or turn
 * the reading direction of a line around. Everything that reaches a terminal
 * or a sheet goes through here first. Text is UTF-8 (RFC 3629).
 */
#ifndef TC_CORE_BASE_CLEAN_H
#define TC_CORE_BASE_CLEAN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/*
 * Decodes the character at the start of text, of which `length` bytes may be
 * read. Returns its length in bytes, 1 to 4, and stores the code point; or 0
 * if the bytes there are no character (a stray or missing continuation byte,
 * an overlong form, a surrogate, beyond U+10FFFF, length 0).
 */
int tc_utf8_decode(const char *text, size_t length, uint32_t *code);

/*
 * The number of bytes of text, at most limit, after which it can be cut
 * without cutting a character in two. length is the length of text.
 */
size_t tc_utf8_cut(const char *text, size_t length, size_t limit);

/*
 * True for what must not be shown as it is: control characters (C0 with tab
 * and newline, DEL, C1), the line and paragraph separators U+2028 and U+2029,
 * and the embedding, override and isolate characters of the Unicode
 * Bidirectional Algorithm, U+202A to U+202E and U+2066 to U+2069.
 */
bool tc_code_unsafe(uint32_t code);

/* True if text is valid UTF-8 without any unsafe character. */
bool tc_is_clean(const char *text, size_t length);

/*
 * Copies text into buffer (size bytes, at least 1, always ended): a tab
 * becomes a blank, every other unsafe character and every byte that belongs
 * to no character a '?'. What does not fit is left off at a character's
 * border. The result is never longer than the text, so a buffer of length + 1
 * always suffices; buffer may be text itself. Returns the length written.
 */
size_t tc_clean_bytes(char *buffer, size_t size, const char *text, size_t length);

/* The same for an ended text. */
size_t tc_clean(char *buffer, size_t size, const char *text);

#endif
