/* SPDX-License-Identifier: MIT */
/*
 * Widths against Python's unicodedata (the Unicode Character Database: general
 * category and East_Asian_Width of UAX #11), and the cutting, padding and
 * wrapping that rest on them.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <locale.h>
#include <stdio.h>
#include <string.h>

#include "core/base/clean.h"
#include "core/base/text.h"
#include "print/width.h"
#include "support/need.h"

static void test_known_widths(void **state)
{
    (void)state;
    assert_int_equal(tc_width(""), 0);
    assert_int_equal(tc_width("29-high"), 7);
    assert_int_equal(tc_width("m² × – µ °C …"), 13);
    assert_int_equal(tc_width("Größe"), 5);
    assert_int_equal(tc_width("Gro\xCC\x88"
                              "\xC3\x9F"
                              "e"),
                     5); /* o and a combining diaeresis */
    assert_int_equal(tc_width("水槽"), 4);
    assert_int_equal(tc_width("ＡＢ"), 4);
    assert_int_equal(tc_width("🐟"), 2);
    assert_int_equal(tc_width("│─█░◄▼▲≈━"), 9); /* what the tables are drawn with */
    assert_int_equal(tc_width("a\xFFz"), 3);    /* a byte of no character */
    assert_int_equal(tc_width_bytes("水槽", 3), 2);
}

/*
 * Asks Python for the characters of Unicode 3.2 (whose widths no later version
 * changed, but for the symbols left out below), so that any Python 3 gives the
 * same answer; for each up to U+33FF, and each seventh of the many beyond.
 */
static const char ask_python[] =
    "python3 -c \"\n"
    "import unicodedata as u\n"
    "for c in [*range(0x20, 0x7f), *range(0xa0, 0x3400), *range(0x3400, 0xd800, 7), *range(0xe000, 0x30000, "
    "7)]:\n"
    "    ch = chr(c)\n"
    "    if u.ucd_3_2_0.category(ch) in ('Cn', 'Co', 'Cs'): continue\n"
    "    if 0x2630 <= c <= 0x2637 or 0x268a <= c <= 0x268f: continue\n"
    "    w = 0 if u.category(ch) in ('Mn', 'Me') else 2 if u.east_asian_width(ch) in 'WF' else 1\n"
    "    if u.category(ch) == 'Cf' or 0x1160 <= c <= 0x11ff: continue\n"
    "    print(c, w)\n"
    "\"";

static int compare_with_python(void)
{
    skip_without(program_present("python3"), "python3");
    FILE *python = popen(ask_python, "r");
    unsigned code;
    int wanted, compared = 0, wrong = 0;
    assert_non_null(python);
    while (fscanf(python, "%u %d", &code, &wanted) == 2) {
        compared++;
        if (tc_width_code(code) != wanted && wrong++ < 10)
            print_error("U+%04X: %d columns, unicodedata says %d\n", code, tc_width_code(code), wanted);
    }
    assert_int_equal(pclose(python), 0);
    assert_in_range(compared, 15000, 30000);
    return wrong;
}

static void test_widths_of_unicode(void **state)
{
    (void)state;
    /* The library's own version of Unicode may differ in single characters. */
    assert_in_range(compare_with_python(), 0, 100);
}

/* Where the locale knows ASCII alone, so do the sheets; what is else there counts one column each. */
static void test_widths_without_utf8(void **state)
{
    (void)state;
    setlocale(LC_CTYPE, "C");
    assert_int_equal(tc_width("29-high"), 7);
    assert_int_equal(tc_width("Größe …"), 7);
    assert_int_equal(tc_width("a\xFFz"), 3);
    assert_string_equal(setlocale(LC_CTYPE, "C.UTF-8"), "C.UTF-8");
}

static void test_cut(void **state)
{
    (void)state;
    assert_int_equal(tc_width_cut("tank", 3), 3);
    assert_int_equal(tc_width_cut("tank", 9), 4);
    assert_int_equal(tc_width_cut("tank", 0), 0);
    assert_int_equal(tc_width_cut("水槽", 3), 3);       /* a half character is none */
    assert_int_equal(tc_width_cut("e\xCC\x81x", 1), 3); /* the accent stays with its letter */
}

/* Wraps text and compares the lines, joined by "|". */
static void check_wrap(const char *text, int width, const char *wanted)
{
    struct tc_text out = TC_TEXT_EMPTY;
    struct tc_wrap wrap = {text, width};
    const char *line;
    size_t length;
    while (tc_wrap_next(&wrap, &line, &length)) {
        if (out.length > 0)
            tc_text_add(&out, "|");
        tc_text_add_bytes(&out, line, length);
    }
    assert_string_equal(tc_text_string(&out), wanted);
    tc_text_free(&out);
}

static void test_wrap(void **state)
{
    (void)state;
    check_wrap("", 10, "");
    check_wrap("   ", 10, "");
    check_wrap("one two three", 0, "one two three");
    check_wrap("one two three", 7, "one two|three");
    check_wrap("one two three", 8, "one two|three");
    check_wrap("one  two ", 3, "one|two");
    check_wrap("  one", 3, "one");
    check_wrap("sale lowmere-spring", 13, "sale lowmere-|spring");
    check_wrap("sale lowmere-spring", 14, "sale|lowmere-spring");
    check_wrap("sale lowmere-spring", 9, "sale|lowmere-|spring");
    check_wrap("abcdefgh", 3, "abc|def|gh");
    check_wrap("x abcdefgh", 4, "x|abcd|efgh");
    check_wrap("水槽水槽", 3, "水|槽|水|槽");
    check_wrap("水", 1, "水");
    check_wrap("19\xC2\xA0°C now", 6, "19\xC2\xA0°C|now"); /* U+00A0 holds together */
    check_wrap("12\xC2\xA0V", 3, "12\xC2\xA0|V");          /* unless nothing else is left */
    check_wrap("take 2 × lid-24", 10, "take|2 × lid-24");
    check_wrap("take 2 x lid-24", 10, "take|2 x lid-24");
    check_wrap("30.0 × 12.5 × 18.8 in", 12, "30.0 × 12.5|× 18.8 in");
    check_wrap("40.6 × 20.3 × 25.4 cm", 15, "40.6 × 20.3|× 25.4 cm");
    check_wrap("2 × lid-24, 3 × lid-30", 13, "2 × lid-24,|3 × lid-30");
    check_wrap("gives 25 % more", 9, "gives|25 % more");
    check_wrap("reach 9¾ in or so", 8, "reach|9¾ in or|so");
    check_wrap("costs 806.74 USD.", 13, "costs|806.74 USD.");
}

static void test_wrap_with_changing_width(void **state)
{
    (void)state;
    struct tc_wrap wrap = {"one two three four", 7};
    const char *line;
    size_t length;
    assert_true(tc_wrap_next(&wrap, &line, &length));
    assert_int_equal(length, 7);
    wrap.width = 100;
    assert_true(tc_wrap_next(&wrap, &line, &length));
    assert_memory_equal(line, "three four", 10);
}

static void test_wrap_least(void **state)
{
    (void)state;
    assert_int_equal(tc_wrap_least(""), 0);
    assert_int_equal(tc_wrap_least("one three two"), 5);
    assert_int_equal(tc_wrap_least("lowmere-spring"), 8);
    assert_int_equal(tc_wrap_least("2 × lid"), 7);
    assert_int_equal(tc_wrap_least("水槽 a"), 4);
}

/* Whatever the width, wrapping loses nothing but blanks, and lines hold to it. */
static void test_wrap_keeps_all(void **state)
{
    (void)state;
    const char *text = "glass-30x12 (too short: 30.0 × 12.5 in); 水槽 of Größe-2/3 … and-so-on";
    for (int width = 2; width < 80; width++) {
        struct tc_wrap wrap = {text, width};
        const char *line, *rest = text;
        size_t length;
        while (tc_wrap_next(&wrap, &line, &length)) {
            assert_in_range(tc_width_bytes(line, length), 1, width);
            rest += strspn(rest, " ");
            assert_memory_equal(line, rest, length);
            rest += length;
        }
        assert_string_equal(rest, "");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_known_widths),
        cmocka_unit_test(test_widths_of_unicode),
        cmocka_unit_test(test_widths_without_utf8),
        cmocka_unit_test(test_cut),
        cmocka_unit_test(test_wrap),
        cmocka_unit_test(test_wrap_with_changing_width),
        cmocka_unit_test(test_wrap_least),
        cmocka_unit_test(test_wrap_keeps_all),
    };
    setlocale(LC_CTYPE, "C.UTF-8");
    return cmocka_run_group_tests(tests, NULL, NULL);
}
