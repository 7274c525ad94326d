/* SPDX-License-Identifier: MIT */
#include "core/base/text.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Makes room for `more` bytes and the end. */
static bool reserve(struct tc_text *text, size_t more)
{
    if (text->failed)
        return false;
    if (more < text->capacity - text->length) /* 0 - 0 while nothing is allocated */
        return true;

    size_t capacity = text->capacity == 0 ? 64 : text->capacity;
    char *data = NULL;
    if (more < SIZE_MAX / 4 - text->length) {
        while (capacity <= text->length + more)
            capacity *= 2;
        data = realloc(text->data, capacity);
    }
    if (data == NULL) {
        text->failed = true;
        return false;
    }
    text->data = data;
    text->capacity = capacity;
    return true;
}

void tc_text_add_bytes(struct tc_text *text, const void *bytes, size_t length)
{
    if (!reserve(text, length))
        return;
    if (length > 0)
        memcpy(text->data + text->length, bytes, length);
    text->length += length;
    text->data[text->length] = '\0';
}

void tc_text_add(struct tc_text *text, const char *string)
{
    tc_text_add_bytes(text, string, strlen(string));
}

void tc_text_add_char(struct tc_text *text, char c)
{
    tc_text_add_bytes(text, &c, 1);
}

void tc_text_add_repeated(struct tc_text *text, const char *string, size_t times)
{
    size_t length = strlen(string);

    if (length > 0 && times > SIZE_MAX / length) {
        text->failed = true;
        return;
    }
    if (!reserve(text, length * times))
        return;
    for (size_t i = 0; i < times && length > 0; i++)
        tc_text_add_bytes(text, string, length);
}

static void add_formatted(struct tc_text *text, const char *format, va_list arguments)
{
    va_list again;
    int length;

    va_copy(again, arguments);
    length = vsnprintf(NULL, 0, format, arguments);
    if (length < 0) {
        text->failed = true;
    } else if (reserve(text, (size_t)length)) {
        vsnprintf(text->data + text->length, (size_t)length + 1, format, again);
        text->length += (size_t)length;
    }
    va_end(again);
}

void tc_text_addf(struct tc_text *text, const char *format, ...)
{
    va_list arguments;

    va_start(arguments, format);
    add_formatted(text, format, arguments);
    va_end(arguments);
}

const char *tc_text_string(const struct tc_text *text)
{
    return text->data == NULL ? "" : text->data;
}

char *tc_text_take(struct tc_text *text)
{
    char *data = NULL;

    tc_text_add_bytes(text, "", 0); /* an empty text is handed over as "", not as NULL */
    if (!text->failed) {
        data = text->data;
        text->data = NULL;
    }
    tc_text_free(text);
    return data;
}

void tc_text_clear(struct tc_text *text)
{
    text->length = 0;
    text->failed = false;
    if (text->data != NULL)
        text->data[0] = '\0';
}

void tc_text_free(struct tc_text *text)
{
    free(text->data);
    *text = (struct tc_text)TC_TEXT_EMPTY;
}
