/* SPDX-License-Identifier: MIT */
/* Names: form, likeness, mending, and the nearest of the known ones. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <string.h>

#include "core/base/name.h"

static void a_valid_name_has_the_form_the_header_says(void **state)
{
    (void)state;
    char longest[TC_NAME_SIZE + 1];
    static const char *const good[] = {"a", "7", "29-high", "sponge-2.5", "x.y-z", "9.", "a-"};
    static const char *const bad[] = {"",    "-a",  ".a",          "A",   "29-High", "a b", "a_b",
                                      "a:b", "a\n", "caf\xC3\xA9", "a/b", "a=b",     "a\t"};

    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++)
        assert_true(tc_name_valid(good[i]));
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        assert_false(tc_name_valid(bad[i]));
    memset(longest, 'x', TC_NAME_SIZE);
    longest[TC_NAME_SIZE] = '\0';
    assert_false(tc_name_valid(longest));
    longest[TC_NAME_SIZE - 1] = '\0';
    assert_true(tc_name_valid(longest));
}

static void only_the_case_of_ascii_letters_is_ignored(void **state)
{
    (void)state;
    assert_true(tc_name_equal("29-High", "29-hIGH"));
    assert_true(tc_name_equal("", ""));
    assert_false(tc_name_equal("a", "ab"));
    assert_false(tc_name_equal("ab", "a"));
    assert_false(tc_name_equal("caf\xC3\x89", "caf\xC3\xA9"));
    assert_false(tc_name_equal("[", "{")); /* 0x20 apart, as letters are */
    assert_int_equal(tc_name_lower('I'), 'i');
    assert_int_equal(tc_name_lower('@'), '@');
    assert_int_equal(tc_name_lower('\xC9'), '\xC9');
}

static void a_name_is_mended_into_a_valid_one(void **state)
{
    (void)state;
    static const struct {
        const char *text, *name;
    } rows[] = {
        {"My Tank", "my-tank"},
        {"sale_price", "sale-price"},
        {"caf\xC3\xA9", "caf"},
        {"  x  ", "x"},
        {"--a--", "a"},
        {"a:b", "ab"},
        {"***", ""},
        {"", ""},
        {"Tank\t29 (high)", "tank-29-high"},
    };
    char name[TC_NAME_SIZE], text[2 * TC_NAME_SIZE];

    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_int_equal(tc_name_mend(name, rows[i].text), rows[i].name[0] != '\0');
        assert_string_equal(name, rows[i].name);
        assert_true(name[0] == '\0' || tc_name_valid(name));
    }
    memset(text, 'x', sizeof text);
    text[TC_NAME_SIZE] = '\0';
    assert_false(tc_name_mend(name, text));
    assert_string_equal(name, "");
    text[TC_NAME_SIZE - 1] = '\0';
    assert_true(tc_name_mend(name, text));
}

/*
 * Distances from the literature: kitten/sitting 3 and flaw/lawn 2 (the usual
 * examples of Levenshtein's distance), CA/ABC 3 in the restricted form used
 * here (2 in the unrestricted one): from memory. Shown through the limit of a
 * third of the length.
 */
static void distances_are_the_published_ones(void **state)
{
    (void)state;
    static const struct {
        const char *wrong, *known;
        bool near;
    } rows[] = {
        {"kittenxxx", "sittingxxx", true}, /* 3 of 9 / 3 */
        {"kittenxx", "sittingxx", false},  /* 3 of 8 / 3 */
        {"flawxx", "lawnxx", true},        /* 2 of 6 / 3 */
        {"flawx", "lawnx", false},         /* 2 of 5 / 3 */
        {"caxxxxxxx", "abcxxxxxxx", true}, /* 3 */
        {"caxxxxxx", "abcxxxxxx", false},  /* 3 where the unrestricted form has 2 */
        {"lenght", "length", true},        /* a swap costs 1 */
        {"legnht", "length", true},        /* two of them 2, as much as is allowed */
        {"widht", "width", true},          /* a swap within the 1 allowed */
        {"heigth", "height", true},
        {"lengthh", "length", true},
        {"pricee-per", "price", false},
        {"Length", "length", true},
        {"a", "b", false}, /* nothing in common */
        {"a", "ab", true},
        {"ab", "a", true},
        {"ab", "cd", false},
        {"ab", "ad", true},
    };

    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *found = tc_name_nearest_of(rows[i].wrong, &rows[i].known, 1);
        if ((found != NULL) != rows[i].near)
            print_error("%s, %s\n", rows[i].wrong, rows[i].known);
        assert_true((found != NULL) == rows[i].near);
    }
}

/* The textbook recursion, without a table, as a second opinion. */
static size_t slow_distance(const char *a, size_t m, const char *b, size_t n)
{
    if (m == 0 || n == 0)
        return m + n;
    size_t best = slow_distance(a, m - 1, b, n - 1) + (a[m - 1] != b[n - 1]);
    size_t other = slow_distance(a, m - 1, b, n) + 1;
    best = other < best ? other : best;
    other = slow_distance(a, m, b, n - 1) + 1;
    best = other < best ? other : best;
    if (m > 1 && n > 1 && a[m - 1] == b[n - 2] && a[m - 2] == b[n - 1]) {
        other = slow_distance(a, m - 2, b, n - 2) + 1;
        best = other < best ? other : best;
    }
    return best;
}

static void all_short_words_agree_with_the_recursion(void **state)
{
    (void)state;
    /* Every word of 3 to 6 letters of two, against every other. */
    char a[8], b[8];
    for (unsigned m = 3; m <= 6; m++)
        for (unsigned n = 3; n <= 6; n++)
            for (unsigned x = 0; x < 1u << m; x++)
                for (unsigned y = 0; y < 1u << n; y += 3) {
                    const char *known = b;
                    for (unsigned i = 0; i < m; i++)
                        a[i] = (char)('a' + (x >> i & 1));
                    for (unsigned i = 0; i < n; i++)
                        b[i] = (char)('a' + (y >> i & 1));
                    a[m] = b[n] = '\0';
                    size_t d = slow_distance(a, m, b, n);
                    bool near = d <= m / 3 /* less than the longer of both */ || strncmp(b, a, m) == 0;
                    assert_true((tc_name_nearest_of(a, &known, 1) != NULL) == near);
                }
}

static void the_nearest_of_several_is_found(void **state)
{
    (void)state;
    static const char *const keys[] = {"length", "width", NULL, "height", "weight", ""};
    const size_t n = sizeof keys / sizeof keys[0];
    char text[100];

    assert_string_equal(tc_name_nearest_of("hight", keys, n), "height");
    assert_string_equal(tc_name_nearest_of("WIDHT", keys, n), "width");
    assert_string_equal(tc_name_nearest_of("weigth", keys, n), "weight");
    assert_string_equal(tc_name_nearest_of("xeight", keys, n), "height"); /* as near as weight, but first */
    assert_string_equal(tc_name_nearest_of("weight", keys, n), "weight");
    assert_null(tc_name_nearest_of("depth", keys, 1));
    /* A beginning, where nothing is near. */
    assert_string_equal(tc_name_nearest_of("LEN", keys, n), "length");
    assert_string_equal(tc_name_nearest_of("wei", keys, n), "weight");
    assert_null(tc_name_nearest_of("le", keys, n));
    assert_null(tc_name_nearest_of("eng", keys, n));
    /* A number in front says more than the letters behind it. */
    static const char *const tanks[] = {"10-gal", "20-high", "20-long", "29-high", "5.5-gal"};
    assert_string_equal(tc_name_nearest_of("29-gal", tanks, 5), "29-high");
    assert_string_equal(tc_name_nearest_of("20-lng", tanks, 5), "20-long");
    assert_string_equal(tc_name_nearest_of("5.5-gallon", tanks, 5), "5.5-gal");
    assert_string_equal(tc_name_nearest_of("11-gal", tanks, 5), "10-gal");
    assert_null(tc_name_nearest_of("lengthen-it", keys, n));
    assert_null(tc_name_nearest_of("", keys, n));
    assert_null(tc_name_nearest_of("length", keys, 0));
    memset(text, 'x', sizeof text);
    text[sizeof text - 1] = '\0';
    const char *same = text;
    assert_null(tc_name_nearest_of(text, keys, n));
    assert_null(tc_name_nearest_of(text, &same, 1));
    assert_null(tc_name_nearest_of("length", &same, 1));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_valid_name_has_the_form_the_header_says),
        cmocka_unit_test(only_the_case_of_ascii_letters_is_ignored),
        cmocka_unit_test(a_name_is_mended_into_a_valid_one),
        cmocka_unit_test(distances_are_the_published_ones),
        cmocka_unit_test(all_short_words_agree_with_the_recursion),
        cmocka_unit_test(the_nearest_of_several_is_found),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
