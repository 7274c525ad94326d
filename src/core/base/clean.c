/* SPDX-License-Identifier: MIT */
#include "core/base/clean.h"

#include <string.h>

int tc_utf8_decode(const char *text, size_t length, uint32_t *code)
{
    /* The least code point that needs that many bytes; less is an overlong form. */
    static const uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    const unsigned char *bytes = (const unsigned char *)text;
    size_t n;
    uint32_t c;

    if (length == 0)
        return 0;
    c = bytes[0];
    if (c < 0x80) {
        *code = c;
        return 1;
    }
    if (c >= 0xC2 && c <= 0xDF)
        n = 2;
    else if (c >= 0xE0 && c <= 0xEF)
        n = 3;
    else if (c >= 0xF0 && c <= 0xF4)
        n = 4;
    else
        return 0;
    if (length < n)
        return 0;
    c &= 0x7Fu >> n;
    for (size_t i = 1; i < n; i++) {
        if ((bytes[i] & 0xC0) != 0x80)
            return 0;
        c = c << 6 | (bytes[i] & 0x3F);
    }
    if (c < least[n] || c > 0x10FFFF || (c >= 0xD800 && c <= 0xDFFF))
        return 0;
    *code = c;
    return (int)n;
}

static bool continues(char byte)
{
    return ((unsigned char)byte & 0xC0) == 0x80;
}

size_t tc_utf8_cut(const char *text, size_t length, size_t limit)
{
    uint32_t code;
    size_t start = limit;

    if (limit >= length)
        return length;
    /* A character has at most three bytes after its first. */
    while (start > 0 && limit - start < 3 && continues(text[start]))
        start--;
    int n = tc_utf8_decode(text + start, length - start, &code);
    return start + (size_t)n > limit ? start : limit;
}

bool tc_code_unsafe(uint32_t code)
{
    return code < 0x20 || (code >= 0x7F && code <= 0x9F) || (code >= 0x2028 && code <= 0x202E) ||
           (code >= 0x2066 && code <= 0x2069);
}

bool tc_is_clean(const char *text, size_t length)
{
    for (size_t i = 0; i < length;) {
        uint32_t code;
        int n = tc_utf8_decode(text + i, length - i, &code);
        if (n == 0 || tc_code_unsafe(code))
            return false;
        i += (size_t)n;
    }
    return true;
}

size_t tc_clean_bytes(char *buffer, size_t size, const char *text, size_t length)
{
    size_t out = 0;

    for (size_t i = 0; i < length;) {
        uint32_t code = 0;
        size_t n = (size_t)tc_utf8_decode(text + i, length - i, &code);
        if (n != 0 && !tc_code_unsafe(code)) {
            if (n > size - 1 - out)
                break;
            memmove(buffer + out, text + i, n);
            out += n;
        } else {
            if (out == size - 1)
                break;
            buffer[out++] = code == '\t' ? ' ' : '?';
        }
        i += n == 0 ? 1 : n;
    }
    buffer[out] = '\0';
    return out;
}

size_t tc_clean(char *buffer, size_t size, const char *text)
{
    return tc_clean_bytes(buffer, size, text, strlen(text));
}
