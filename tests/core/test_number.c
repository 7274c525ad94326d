/* SPDX-License-Identifier: MIT */
/* Numbers and amounts as text, against what the C library reads and writes. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/number.h"

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
        assert_int_equal(tc_number_read_money(rows[i].text, &end, rows[i].exponent, &amount), rows[i].status);
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
                tc_number_write_money(buffer, sign * size, exponent, false);
                assert_int_equal(tc_number_read_money(buffer, &end, exponent, &back), TC_OK);
                assert_int_equal(back, sign * size);
                assert_int_equal(*end, '\0');
            }
    assert_string_equal(tc_number_write_money(buffer, TC_MONEY_MAX, 2, true), "90 000 000 000 000.00");
    assert_string_equal(tc_number_write_money(buffer, -5, 2, true), "-0.05");
    assert_string_equal(tc_number_write_money(buffer, 0, 0, true), "0");
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
    };
    char buffer[TC_NUMBER_SIZE];
    for (size_t i = 0; i < LENGTH(rows); i++)
        assert_string_equal(tc_number_write_short(buffer, rows[i].value), rows[i].text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_are_read_as_the_c_library_does),
        cmocka_unit_test(what_is_no_number_is_refused),
        cmocka_unit_test(counts_are_whole_and_short),
        cmocka_unit_test(amounts_are_read_exactly),
        cmocka_unit_test(amounts_written_are_read_again),
        cmocka_unit_test(decimals_are_rounded_away_from_zero),
        cmocka_unit_test(exact_text_reads_as_the_same_number),
        cmocka_unit_test(short_text_has_nine_digits_at_most),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
