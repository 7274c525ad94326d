/* SPDX-License-Identifier: MIT */
/* Numbers and amounts as text, against what the C library reads and writes. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <ctype.h>
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/number.h"
#include "core/money/money.h"
#include "support/draw.h"

#define LENGTH(array) (sizeof(array) / sizeof(array)[0])

/* glibc's strtod rounds correctly (IEEE 754), in the "C" locale that tests run in. */
static void numbers_are_read_as_the_c_library_does(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "0",
        "-0",
        "+7",
        "12",
        "0.1",
        ".5",
        "5.",
        "007.50",
        "1e3",
        "1E-3",
        "-2.5e2",
        "1e22",
        "1e-22",
        "0.3",
        "4.35",
        "2.675",
        "1.005",
        "999999999999999",
        "0.0000000123456789",
        "123456789.012345",
        "8.98846567431158e7",
        "0e5000",
        "12 in",
        "3e",
        "3e+",
    };
    for (size_t i = 0; i < LENGTH(texts); i++) {
        const char *end = NULL;
        char *their_end = NULL;
        double value = NAN;
        assert_int_equal(tc_number_read(texts[i], &end, &value), TC_OK);
        double theirs = strtod(texts[i], &their_end);
        assert_ptr_equal(end, their_end);
        assert_memory_equal(&value, &theirs, sizeof value);
    }
}

/* Up to 18 digits, a point somewhere or nowhere, perhaps a sign and an exponent. */
static void draw_number(struct tc_random *random, char *text)
{
    char *p = text;
    int digits = 1 + draw_below(random, 18), point = draw_below(random, 20);
    if (draw_below(random, 3) == 0)
        *p++ = draw_below(random, 2) ? '-' : '+';
    for (int i = 0; i < digits; i++) {
        if (i == point)
            *p++ = '.';
        *p++ = (char)('0' + draw_below(random, 10));
    }
    *p = '\0';
    if (draw_below(random, 2))
        sprintf(p, "%c%s%d", draw_below(random, 2) ? 'e' : 'E', draw_below(random, 2) ? "-" : "",
                draw_below(random, 30));
}

/* Whether at most 15 significant digits are in the text and its last is a power of ten within +-22. */
static bool within_promise(const char *text)
{
    int significant = 0, exponent = 0;
    bool seen_point = false;
    const char *p = text;
    for (; *p && *p != 'e' && *p != 'E'; p++) {
        if (*p == '.')
            seen_point = true;
        if (!isdigit((unsigned char)*p))
            continue;
        if (*p != '0' || significant > 0)
            significant++;
        exponent -= seen_point;
    }
    if (*p)
        exponent += (int)strtol(p + 1, NULL, 10);
    return significant == 0 || (significant <= 15 && abs(exponent) <= 22);
}

static void any_number_is_read_as_the_c_library_does(void **state)
{
    (void)state;
    struct tc_random random = draw_from(20);
    int taken = 0;
    for (int i = 0; i < 60000; i++) {
        char text[64];
        draw_number(&random, text);
        const char *end = NULL;
        char *their_end = NULL;
        double value = NAN, theirs = strtod(text, &their_end);
        enum tc_status status = tc_number_read(text, &end, &value);
        assert_int_equal(status, within_promise(text) ? TC_OK : TC_RANGE);
        assert_ptr_equal(end, their_end);
        if (status == TC_OK)
            assert_memory_equal(&value, &theirs, sizeof value);
        taken += status == TC_OK;
    }
    assert_in_range(taken, 15000, 57000);
}

/* Any characters of which numbers are made, in any order: the same ones are used, or none. */
static void any_text_is_read_as_far_as_the_c_library_does(void **state)
{
    (void)state;
    struct tc_random random = draw_from(21);
    for (int i = 0; i < 60000; i++) {
        char text[12] = "";
        for (int k = draw_below(&random, 11); k > 0; k--)
            text[k - 1] = "0123.+-eE,"[draw_below(&random, 10)];
        const char *end = NULL;
        char *their_end = NULL;
        double value = NAN, theirs = strtod(text, &their_end);
        enum tc_status status = tc_number_read(text, &end, &value);
        assert_ptr_equal(end, their_end);
        assert_int_equal(status == TC_SYNTAX, their_end == text);
        if (status == TC_OK)
            assert_true(value == theirs);
    }
}

static void what_is_no_number_is_refused(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        enum tc_status status;
        int read; /* characters */
    } rows[] = {
        {"", TC_SYNTAX, 0},
        {"in", TC_SYNTAX, 0},
        {"-", TC_SYNTAX, 0},
        {".", TC_SYNTAX, 0},
        {"nan", TC_SYNTAX, 0},
        {"inf", TC_SYNTAX, 0},
        {"e3", TC_SYNTAX, 0},
        {" 1", TC_SYNTAX, 0},
        {"1e23", TC_RANGE, 4},
        {"1e-23", TC_RANGE, 5},
        {"1e99999999999", TC_RANGE, 13},
        {"1234567890123456", TC_RANGE, 16},
        {"0.1234567890123456", TC_RANGE, 18},
        {"0x10", TC_OK, 1},
        {"1,5", TC_OK, 1},
        {"1.5.2", TC_OK, 3},
        {"--1", TC_SYNTAX, 0},
    };
    for (size_t i = 0; i < LENGTH(rows); i++) {
        const char *end = NULL;
        double value = 0;
        assert_int_equal(tc_number_read(rows[i].text, &end, &value), rows[i].status);
        assert_int_equal(end - rows[i].text, rows[i].read);
    }
}

static void counts_are_whole_and_short(void **state)
{
    (void)state;
    const char *end = NULL;
    int value = -1;

    assert_int_equal(tc_number_read_count("123456789 tanks", &end, &value), TC_OK);
    assert_int_equal(value, 123456789);
    assert_string_equal(end, " tanks");
    assert_int_equal(tc_number_read_count("1234567890", &end, &value), TC_RANGE);
    assert_int_equal(tc_number_read_count("-1", &end, &value), TC_SYNTAX);
    assert_int_equal(tc_number_read_count("", &end, &value), TC_SYNTAX);
}

static void amounts_are_read_exactly(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        int exponent; /* ISO 4217: 2 for most, 0 for yen, 3 for dinars, 4 for UF */
        enum tc_status status;
        tc_money amount;
    } rows[] = {
        {"45", 2, TC_OK, 4500},
        {"45.5", 2, TC_OK, 4550},
        {"-0.07", 2, TC_OK, -7},
        {"19.990", 2, TC_OK, 1999},
        {"19.995", 2, TC_SYNTAX, 0},
        {"45.5", 0, TC_SYNTAX, 0},
        {"45.00", 0, TC_OK, 45},
        {"1.234", 3, TC_OK, 1234},
        {"0.1", 2, TC_OK, 10},
        {".", 2, TC_SYNTAX, 0},
        {"", 2, TC_SYNTAX, 0},
        {"90000000000000.00", 2, TC_OK, TC_MONEY_MAX},
        {"-90000000000000.00", 2, TC_OK, -TC_MONEY_MAX},
        {"90000000000000.01", 2, TC_OVERFLOW, 0},
        {"9000000000000000", 0, TC_OK, TC_MONEY_MAX},
        {"9000000000000001", 0, TC_OVERFLOW, 0},
        {"9999999999999999", 2, TC_OVERFLOW, 0},
        {"123456789012345678901234567890", 2, TC_OVERFLOW, 0},
    };
    for (size_t i = 0; i < LENGTH(rows); i++) {
        const char *end = NULL;
        tc_money amount = 0;
        assert_int_equal(tc_number_read_fixed(rows[i].text, &end, rows[i].exponent, TC_MONEY_MAX, &amount),
                         rows[i].status);
        if (rows[i].status == TC_OK)
            assert_int_equal(amount, rows[i].amount);
    }
}

/* Amounts of 16 digits were written but refused when read again. */
static void amounts_written_are_read_again(void **state)
{
    (void)state;
    char buffer[TC_NUMBER_SIZE];

    for (int exponent = 0; exponent <= 4; exponent++)
        for (tc_money size = 1; size <= TC_MONEY_MAX;
             size = size < TC_MONEY_MAX / 3 ? size * 3 + 1 : TC_MONEY_MAX + 1)
            for (int sign = -1; sign <= 1; sign += 2) {
                const char *end = NULL;
                tc_money back = 0;
                tc_number_write_fixed(buffer, sign * size, exponent, false);
                assert_int_equal(tc_number_read_fixed(buffer, &end, exponent, TC_MONEY_MAX, &back), TC_OK);
                assert_int_equal(back, sign * size);
                assert_int_equal(*end, '\0');
            }
    assert_string_equal(tc_number_write_fixed(buffer, TC_MONEY_MAX, 2, true), "90 000 000 000 000.00");
    assert_string_equal(tc_number_write_fixed(buffer, -5, 2, true), "-0.05");
    assert_string_equal(tc_number_write_fixed(buffer, 0, 0, true), "0");
}

static void decimals_are_rounded_away_from_zero(void **state)
{
    (void)state;
    static const struct {
        double value;
        int decimals;
        const char *text;
        bool group;
    } rows[] = {
        {0, 0, "0", false},
        {-0.0, 2, "0.00", false},
        {0.125, 2, "0.13", false},
        {-0.125, 2, "-0.13", false},
        {2.675, 2, "2.68", false},
        {1.005, 2, "1.01", false},
        {-0.004, 2, "0.00", false},
        {999.9996, 3, "1000.000", false},
        {1234567.5, 0, "1 234 568", true},
        {999, 1, "999.0", true},
        {0.5, -3, "1", false},
        {1.0 / 3, 12, "0.333333333", false},
        {2e15, 0, "2e+15", false},
        {NAN, 2, "nan", false},
        {INFINITY, 2, "inf", false},
        {-INFINITY, 2, "-inf", false},
    };
    char buffer[TC_NUMBER_SIZE];
    for (size_t i = 0; i < LENGTH(rows); i++)
        assert_string_equal(tc_number_write(buffer, rows[i].value, rows[i].decimals, rows[i].group),
                            rows[i].text);
}

/* Exact halves, of which binary fractions make plenty: away from zero. */
static void halves_go_away_from_zero(void **state)
{
    (void)state;
    struct tc_random random = draw_from(22);
    for (int i = 0; i < 20000; i++) {
        char ours[TC_NUMBER_SIZE], theirs[64];
        long whole = draw_below(&random, 1000000000);
        long eighths = 2 * draw_below(&random, 4) + 1;
        double value = (double)whole + (double)eighths / 8;
        /* 1/8 to 7/8 are .125 to .875: a half of the second decimal. */
        long hundredths = (eighths * 125 + 5) / 10;
        sprintf(theirs, "-%ld.%02ld", whole + hundredths / 100, hundredths % 100);
        assert_string_equal(tc_number_write(ours, value, 2, false), theirs + 1);
        assert_string_equal(tc_number_write(ours, -value, 2, false), theirs);
    }
}

/* glibc's printf rounds the exact value; they may differ next to a half only. */
static void numbers_are_written_as_the_c_library_does(void **state)
{
    (void)state;
    struct tc_random random = draw_from(23);
    int compared = 0;
    for (int i = 0; i < 60000; i++) {
        char ours[TC_NUMBER_SIZE], theirs[64];
        int decimals = draw_below(&random, 10);
        double value = draw_between(&random, -1, 1) * pow(10, draw_between(&random, -9, 14.9));
        double scaled = fabs(value) * pow(10, decimals);
        if (fabs(scaled - floor(scaled) - 0.5) < 2e-6 || scaled > 1e15)
            continue;
        snprintf(theirs, sizeof theirs, "%.*f", decimals, value);
        bool nothing = strspn(theirs, "-0.") == strlen(theirs); /* we write no minus before nothing */
        assert_string_equal(tc_number_write(ours, value, decimals, false), theirs + (nothing && value < 0));
        compared++;
    }
    assert_in_range(compared, 45000, 60000);
}

/* Taking the spaces out again gives the text without them; there is one before each three digits. */
static void thousands_stand_apart(void **state)
{
    (void)state;
    struct tc_random random = draw_from(24);
    for (int i = 0; i < 10000; i++) {
        char plain[TC_NUMBER_SIZE], grouped[TC_NUMBER_SIZE], joined[TC_NUMBER_SIZE];
        double value = draw_between(&random, -1, 1) * pow(10, draw_between(&random, 0, 14.9));
        tc_number_write(plain, value, 2, false);
        tc_number_write(grouped, value, 2, true);
        size_t length = 0;
        for (const char *p = grouped; *p; p++)
            if (*p != ' ')
                joined[length++] = *p;
        joined[length] = '\0';
        assert_string_equal(joined, plain);
        const char *point = strchr(grouped, '.');
        for (const char *p = point; p > grouped; p--)
            assert_int_equal(*p == ' ', (point - p) % 4 == 0 && p != point);
    }
}

static void exact_text_reads_as_the_same_number(void **state)
{
    (void)state;
    static const double values[] = {
        0.1, 1.0 / 3, 2.5, -1e-9, 12345678.9, 5e-324, 1e300, 0.1 + 0.2, 1e15, 123456789012345680.0, 3.0};
    char buffer[TC_NUMBER_SIZE];
    for (size_t i = 0; i < LENGTH(values); i++)
        assert_true(strtod(tc_number_write_exact(buffer, values[i]), NULL) == values[i]);
    assert_string_equal(tc_number_write_exact(buffer, 0.1), "0.1");
    assert_string_equal(tc_number_write_exact(buffer, 0.1 + 0.2), "0.30000000000000004");
    assert_string_equal(tc_number_write_exact(buffer, NAN), "nan");
    assert_string_equal(tc_number_write_data(buffer, 0.1 + 0.2), "0.3");
    assert_string_equal(tc_number_write_data(buffer, 610.6800000000001), "610.68");
    assert_string_equal(tc_number_write_data(buffer, -2.0 / 3), "-0.666666666667");
    assert_string_equal(tc_number_write_data(buffer, NAN), "nan");
}

static void short_text_has_nine_digits_at_most(void **state)
{
    (void)state;
    static const struct {
        double value;
        const char *text;
    } rows[] = {
        {0, "0"},
        {0.5, "0.5"},
        {12, "12"},
        {0.1234, "0.1234"},
        {-2.50, "-2.5"},
        {1.0 / 3, "0.333333333"},
        {1234567.891234, "1234567.89"},
        {4e8, "400000000"},
        {100, "100"},
        {0.1 + 0.2, "0.3"},
        {1e-10, "0"},
        {-1e-10, "0"},
        {123456789.4, "123456789"},
        {1.2e20, "1.2e+20"}, /* lost its last zero once */
        {5e300, "5e+300"},
        {NAN, "nan"},
        {-INFINITY, "-inf"},
    };
    char buffer[TC_NUMBER_SIZE];
    for (size_t i = 0; i < LENGTH(rows); i++)
        assert_string_equal(tc_number_write_short(buffer, rows[i].value), rows[i].text);
}

/* The same under the locale that is set. */
static void check_points(void)
{
    char buffer[TC_NUMBER_SIZE];
    const char *end = NULL;
    double value = 0;
    tc_money amount = 0;

    assert_int_equal(tc_number_read("1234.5 in", &end, &value), TC_OK);
    assert_true(value == 1234.5);
    assert_string_equal(end, " in");
    assert_int_equal(tc_number_read("1,5", &end, &value), TC_OK);
    assert_string_equal(end, ",5");
    assert_int_equal(tc_number_read_fixed("0.25", &end, 2, TC_MONEY_MAX, &amount), TC_OK);
    assert_int_equal(amount, 25);
    assert_string_equal(tc_number_write(buffer, 1234.5, 2, true), "1 234.50");
    assert_string_equal(tc_number_write_fixed(buffer, 123450, 2, true), "1 234.50");
    assert_string_equal(tc_number_write_short(buffer, 1234.5), "1234.5");
    assert_string_equal(tc_number_write_exact(buffer, 1234.5), "1234.5");
    assert_string_equal(tc_number_write_exact(buffer, -0.1 - 0.2), "-0.30000000000000004");
    assert_string_equal(tc_number_write_exact(buffer, 1.5e300), "1.5e+300");
    assert_string_equal(tc_number_write_exact(buffer, 2e300), "2e+300");
    assert_string_equal(tc_number_write_exact(buffer, 3), "3");
}

/* Germany's point is a comma; that of Pashto is two bytes long. */
static void no_locale_changes_the_point(void **state)
{
    (void)state;
    static const char *const names[] = {"de_DE", "ps_AF"};
    const char *build = getenv("BUILD");
    char folder[256], command[600];
    snprintf(folder, sizeof folder, "%s/test-locales", build ? build : "build");
    snprintf(command, sizeof command, "mkdir -p '%s'", folder);
    assert_int_equal(system(command), 0);
    assert_int_equal(setenv("LOCPATH", folder, 1), 0);
    int tried = 0;
    for (size_t i = 0; i < LENGTH(names); i++) {
        snprintf(command, sizeof command, "localedef -i %s -f UTF-8 '%s/%s.UTF-8' >/dev/null 2>&1", names[i],
                 folder, names[i]);
        char locale[32];
        snprintf(locale, sizeof locale, "%s.UTF-8", names[i]);
        if (system(command) != 0 || !setlocale(LC_ALL, locale))
            continue; /* the system does not have the sources of its locales */
        char theirs[16];
        snprintf(theirs, sizeof theirs, "%.1f", 0.5);
        if (strcmp(theirs, "0.5") == 0)
            continue; /* a C library that takes any name for a locale */
        check_points();
        tried++;
    }
    assert_non_null(setlocale(LC_ALL, "C"));
    check_points();
    if (tried == 0)
        skip();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_are_read_as_the_c_library_does),
        cmocka_unit_test(any_number_is_read_as_the_c_library_does),
        cmocka_unit_test(any_text_is_read_as_far_as_the_c_library_does),
        cmocka_unit_test(what_is_no_number_is_refused),
        cmocka_unit_test(counts_are_whole_and_short),
        cmocka_unit_test(amounts_are_read_exactly),
        cmocka_unit_test(amounts_written_are_read_again),
        cmocka_unit_test(decimals_are_rounded_away_from_zero),
        cmocka_unit_test(halves_go_away_from_zero),
        cmocka_unit_test(numbers_are_written_as_the_c_library_does),
        cmocka_unit_test(thousands_stand_apart),
        cmocka_unit_test(exact_text_reads_as_the_same_number),
        cmocka_unit_test(short_text_has_nine_digits_at_most),
        cmocka_unit_test(no_locale_changes_the_point),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
