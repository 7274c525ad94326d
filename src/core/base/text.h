/* SPDX-License-Identifier: MIT */
/*
 * text.h - a text that grows at its end.
 *
 *     struct tc_text text = TC_TEXT_EMPTY;
 *     tc_text_add(&text, "tank");
 *     tc_text_addf(&text, " %d of %d", i, n);
 *     if (text.failed)
 *         ...out of memory...
 *     puts(tc_text_string(&text));
 *     tc_text_free(&text);
 *
 * Failure is sticky: when an allocation fails (or a format does), `failed` is
 * set, what was there stays, and every later addition does nothing. So a text
 * made by many additions is checked once, at its end. An addition is made
 * whole or not at all. What is added must not be part of the text itself.
 *
 * The text may hold any bytes; it is always ended by a NUL beyond `length`.
 */
#ifndef TC_CORE_BASE_TEXT_H
#define TC_CORE_BASE_TEXT_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

#if defined(__GNUC__)
#define TC_PRINTF(string, first) __attribute__((format(printf, string, first)))
#else
#define TC_PRINTF(string, first)
#endif

struct tc_text {
    char *data;      /* owned; NULL until something is added: use tc_text_string */
    size_t length;   /* bytes, without the end */
    size_t capacity; /* bytes allocated */
    bool failed;     /* something is missing in it */
};

#define TC_TEXT_EMPTY                                                                                        \
    {                                                                                                        \
        NULL, 0, 0, false                                                                                    \
    }

void tc_text_add(struct tc_text *text, const char *string);
void tc_text_add_bytes(struct tc_text *text, const void *bytes, size_t length);
void tc_text_add_char(struct tc_text *text, char c);

/* Adds string `times` times: for rules and padding. */
void tc_text_add_repeated(struct tc_text *text, const char *string, size_t times);

/* Adds as printf does. Not for floating point: numbers are written by core/base/number.h. */
void tc_text_addf(struct tc_text *text, const char *format, ...) TC_PRINTF(2, 3);

/* The text, never NULL; good until the next addition. */
const char *tc_text_string(const struct tc_text *text);

/*
 * Hands the text over: the caller frees it, and `text` is empty again. NULL,
 * with everything freed, if something failed.
 */
char *tc_text_take(struct tc_text *text);

/* Empties the text, also of a failure; keeps its memory for the next one. */
void tc_text_clear(struct tc_text *text);

/* Frees the memory; the text is empty and can be used again. */
void tc_text_free(struct tc_text *text);

#endif
