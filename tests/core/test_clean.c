/* SPDX-License-Identifier: MIT */
/* Cleaning: UTF-8 as the standard says, nothing that drives a terminal, no half characters. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <iconv.h>
#include <string.h>

#include "core/base/clean.h"

/* Every code point, encoded by the system's iconv, which is not ours. */
static void decoding_agrees_with_iconv(void **state)
{
    (void)state;
    iconv_t to_utf8 = iconv_open("UTF-8", "UTF-32LE");
    if (to_utf8 == (iconv_t)-1)
        skip(); /* a C library of another machine may come without tables */
    for (uint32_t c = 0; c <= 0x10FFFF; c++) {
        unsigned char wide[4] = {c & 0xFF, c >> 8 & 0xFF, c >> 16 & 0xFF, 0};
        char utf8[8] = {0}, *in = (char *)wide, *out = utf8;
        size_t in_left = 4, out_left = sizeof utf8;
        uint32_t decoded = 0xFFFFFFFF;
        if (c >= 0xD800 && c <= 0xDFFF) {
            /* Surrogates, written as three bytes, are no UTF-8: RFC 3629, section 3. */
            utf8[0] = (char)(0xE0 | c >> 12);
            utf8[1] = (char)(0x80 | (c >> 6 & 0x3F));
            utf8[2] = (char)(0x80 | (c & 0x3F));
            assert_int_equal(tc_utf8_decode(utf8, 3, &decoded), 0);
            continue;
        }
        assert_int_equal(iconv(to_utf8, &in, &in_left, &out, &out_left), 0);
        size_t length = sizeof utf8 - out_left;
        assert_int_equal(tc_utf8_decode(utf8, sizeof utf8, &decoded), length);
        assert_int_equal(decoded, c);
        assert_int_equal(tc_utf8_decode(utf8, length - 1, &decoded), 0); /* cut short */
    }
    iconv_close(to_utf8);
}

/* Every sequence of up to three bytes, and of four from a few: accepted just if iconv accepts it. */
static void invalid_bytes_are_refused_as_iconv_does(void **state)
{
    (void)state;
    iconv_t from_utf8 = iconv_open("UTF-32LE", "UTF-8");
    static const unsigned char later[] = {0x00, 0x41, 0x7F, 0x80, 0x8F, 0x90, 0x9F, 0xA0, 0xBF, 0xC0, 0xFF};
    const size_t n = sizeof later;

    if (from_utf8 == (iconv_t)-1)
        skip();
    for (unsigned first = 0x80; first <= 0xFF; first++)
        for (size_t i = 0; i < n * n * n; i++) {
            char bytes[4] = {(char)first, (char)later[i % n], (char)later[i / n % n], (char)later[i / n / n]};
            uint32_t code, wide;
            int length = tc_utf8_decode(bytes, 4, &code);
            bool accepted = false;
            for (size_t take = 2; take <= 4 && !accepted; take++) {
                char *in = bytes, *out = (char *)&wide;
                size_t in_left = take, out_left = 4;
                iconv(from_utf8, NULL, NULL, NULL, NULL);
                if (iconv(from_utf8, &in, &in_left, &out, &out_left) == 0 && in_left == 0 && out_left == 0) {
                    accepted = true;
                    assert_int_equal(length, take);
                }
            }
            assert_int_equal(length != 0, accepted);
        }
    iconv_close(from_utf8);
}

static void the_text_is_cleaned(void **state)
{
    (void)state;
    static const struct {
        const char *text, *clean;
    } rows[] = {
        {"", ""},
        {"plain text, 29\" high", "plain text, 29\" high"},
        {"Gr\xC3\xB6\xC3\x9F"
         "e \xE6\xB0\xB4 \xF0\x9F\x90\x9F",
         "Gr\xC3\xB6\xC3\x9F"
         "e \xE6\xB0\xB4 \xF0\x9F\x90\x9F"},
        {"\x1B[31mred\x1B[0m", "?[31mred?[0m"}, /* ESC */
        {"a\tb\nc\rd\be\x7F", "a b?c?d?e?"},    /* C0 and DEL */
        {"a\xC2\x9B"
         "31m",
         "a?31m"}, /* C1: CSI in one character */
        {"a\xC2\x85"
         "b\xC2\xA0"
         "c",
         "a?b\xC2\xA0"
         "c"}, /* NEL, but not the no-break space after C1 */
        {"\xE2\x80\xAE"
         "evil",
         "?evil"},                                                             /* U+202E */
        {"\xE2\x80\xA7\xE2\x80\xA8\xE2\x80\xAF", "\xE2\x80\xA7?\xE2\x80\xAF"}, /* U+2027, 2028, 202F */
        {"\xE2\x81\xA5\xE2\x81\xA6\xE2\x81\xA9\xE2\x81\xAA",
         "\xE2\x81\xA5??\xE2\x81\xAA"}, /* U+2065 to 206A */
        {"\xFF\xFE", "??"},
        {"caf\xE9", "caf?"},          /* Latin-1 */
        {"\xC0\xAF", "??"},           /* overlong '/' */
        {"\xED\xA0\x80", "???"},      /* a surrogate */
        {"\xF4\x90\x80\x80", "????"}, /* beyond U+10FFFF */
        {"\xE6\xB0", "??"},           /* cut short by the end */
        {"\xE6\xB0z", "??z"},
    };

    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char buffer[64];
        size_t length = strlen(rows[i].text);
        assert_int_equal(tc_clean(buffer, sizeof buffer, rows[i].text), strlen(rows[i].clean));
        assert_string_equal(buffer, rows[i].clean);
        assert_true(tc_is_clean(buffer, strlen(buffer)));
        assert_true(tc_is_clean(rows[i].text, length) == (strcmp(rows[i].text, rows[i].clean) == 0));
        /* In place, and in the least room promised. */
        memcpy(buffer, rows[i].text, length + 1);
        tc_clean_bytes(buffer, length + 1, buffer, length);
        assert_string_equal(buffer, rows[i].clean);
    }
}

static void a_nul_within_counts_as_a_control_character(void **state)
{
    (void)state;
    char buffer[8];
    assert_int_equal(tc_clean_bytes(buffer, sizeof buffer, "a\0b", 3), 3);
    assert_string_equal(buffer, "a?b");
    assert_false(tc_is_clean("a\0b", 3));
}

static void no_character_is_cut_in_two(void **state)
{
    (void)state;
    static const char text[] = "a\xC3\xB6\xE6\xB0\xB4\xF0\x9F\x90\x9Fz"; /* 1 2 3 4 1 bytes */
    static const size_t borders[] = {0, 1, 3, 6, 10, 11};
    const size_t length = sizeof text - 1;

    for (size_t limit = 0; limit <= length + 2; limit++) {
        size_t whole = 0;
        for (size_t i = 0; i < sizeof borders / sizeof borders[0]; i++)
            if (borders[i] <= limit)
                whole = borders[i];
        assert_int_equal(tc_utf8_cut(text, length, limit), whole);
        char buffer[16];
        memset(buffer, 'x', sizeof buffer);
        assert_int_equal(tc_clean(buffer, limit + 1, text), whole);
        assert_memory_equal(buffer, text, whole);
        assert_int_equal(buffer[whole], '\0');
        assert_int_equal(buffer[limit + 1], 'x'); /* nothing written beyond the size */
    }
    /* Bytes that are no characters can be cut anywhere. */
    for (size_t limit = 0; limit <= 6; limit++)
        assert_int_equal(tc_utf8_cut("\x80\x80\x80\x80\x80\x80", 6, limit), limit);
    assert_int_equal(tc_utf8_cut("\xFF\xFF", 2, 1), 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(decoding_agrees_with_iconv),
        cmocka_unit_test(invalid_bytes_are_refused_as_iconv_does),
        cmocka_unit_test(the_text_is_cleaned),
        cmocka_unit_test(a_nul_within_counts_as_a_control_character),
        cmocka_unit_test(no_character_is_cut_in_two),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
