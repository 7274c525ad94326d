/* SPDX-License-Identifier: MIT */
/* Dates: text, day numbers, month ends, leap days and centuries. Random dates against GNU date:
 * test_date_gnu. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <limits.h>
#include <string.h>

#include "core/base/date.h"

static struct tc_date date_of(const char *text)
{
    struct tc_date date;
    const char *end;
    if (tc_date_read(text, &end, &date) != TC_OK)
        fail_msg("no date: %s", text);
    return date;
}

static void assert_date(struct tc_date date, const char *wanted)
{
    char text[TC_DATE_SIZE];
    assert_string_equal(tc_date_write(text, date), wanted);
}

static void text_is_read_strictly(void **state)
{
    (void)state;
    struct tc_date date;
    const char *end;
    const char *text = "2024-02-29 to";
    assert_int_equal(tc_date_read(text, &end, &date), TC_OK);
    assert_ptr_equal(end, text + 10);
    assert_date(date, "2024-02-29");

    static const char *const no_form[] = {
        "",           "2024",      "2024-",       "2024-02",     "2024-02-",    "2024-2-29",   "24-02-29",
        "2024/02/29", "2024-02-2", "2024-02-029", "02024-02-29", " 2024-02-29", "-2024-02-29", "2024-02-2x",
        "2024--2-29"};
    for (size_t i = 0; i < sizeof no_form / sizeof no_form[0]; i++) {
        assert_int_equal(tc_date_read(no_form[i], &end, &date), TC_SYNTAX);
        assert_ptr_equal(end, no_form[i]);
    }
    static const char *const no_day[] = {"2023-02-29", "1900-02-29", "2100-02-29", "2024-00-10",
                                         "2024-13-01", "2024-04-31", "2024-01-00", "2024-01-32",
                                         "1899-12-31", "2201-01-01", "0000-01-01"};
    for (size_t i = 0; i < sizeof no_day / sizeof no_day[0]; i++) {
        assert_int_equal(tc_date_read(no_day[i], &end, &date), TC_RANGE);
        assert_ptr_equal(end, no_day[i] + 10);
    }
    assert_date(date, "2024-02-29"); /* left alone by every refusal */
}

/* The century rule: 1900 and 2100 are common years, 2000 is not (ISO 8601-1, 4.2.1). */
static void centuries_are_leap_only_by_400(void **state)
{
    (void)state;
    assert_true(tc_is_leap_year(2000));
    assert_true(tc_is_leap_year(2024));
    assert_true(tc_is_leap_year(1904));
    assert_false(tc_is_leap_year(1900));
    assert_false(tc_is_leap_year(2100));
    assert_false(tc_is_leap_year(2200));
    assert_false(tc_is_leap_year(2023));
    assert_int_equal(tc_days_in_month(2000, 2), 29);
    assert_int_equal(tc_days_in_month(2100, 2), 28);
    assert_int_equal(tc_days_between(date_of("2000-01-01"), date_of("2001-01-01")), 366);
    assert_int_equal(tc_days_between(date_of("2100-01-01"), date_of("2101-01-01")), 365);
    /* 300 years with 73 leap days: every fourth from 1904 to 2196, less 2100. */
    assert_int_equal(tc_days_between(date_of("1900-03-01"), date_of("2200-03-01")), 300 * 365 + 73);
}

/* As ISO 8601 numbers it, 1 Monday to 7 Sunday: day 0 was a Thursday. */
static int weekday(struct tc_date date)
{
    return ((tc_date_number(date) + 3) % 7 + 7) % 7 + 1;
}

static void known_days(void **state)
{
    (void)state;
    /* POSIX: the epoch; 2000-01-01 is 946684800 s after it. Weekdays: ISO 8601 calls 2000-01-01 a Saturday.
     */
    assert_int_equal(tc_date_number(date_of("1970-01-01")), 0);
    assert_int_equal(weekday(date_of("1970-01-01")), 4);
    assert_int_equal(tc_date_number(date_of("2000-01-01")), 946684800 / 86400);
    assert_int_equal(weekday(date_of("2000-01-01")), 6);
    /* Modified Julian day 0 is 1858-11-17; 1970-01-01 is 40587, so 1900-01-01 is 15020 (Astronomical Almanac,
     * from memory). */
    assert_int_equal(tc_date_number(date_of("1900-01-01")), 15020 - 40587);
    assert_int_equal(weekday(date_of("1900-01-01")), 1);
}

/* Every day of the range, in order: number, text and weekday step by one, and back. */
static void every_day_of_the_range(void **state)
{
    (void)state;
    int number = tc_date_number(date_of("1900-01-01"));
    int on = 1, days = 0;
    for (int year = TC_YEAR_FIRST; year <= TC_YEAR_LAST; year++) {
        for (int month = 1; month <= 12; month++) {
            for (int day = 1; day <= tc_days_in_month(year, month); day++, number++, days++) {
                struct tc_date date = {year, month, day}, back;
                assert_true(tc_date_valid(date));
                assert_int_equal(tc_date_number(date), number);
                assert_int_equal(tc_date_from_number(number, &back), TC_OK);
                assert_memory_equal(&back, &date, sizeof date);
                assert_int_equal(weekday(date), on);
                on = on % 7 + 1;
                char text[TC_DATE_SIZE];
                back = date_of(tc_date_write(text, date));
                assert_memory_equal(&back, &date, sizeof date);
            }
        }
    }
    assert_int_equal(days, 301 * 365 + 73); /* 73 leap years from 1904 to 2196 */
    struct tc_date none = {0, 0, 0};
    assert_int_equal(tc_date_from_number(number, &none), TC_RANGE);
    assert_int_equal(tc_date_from_number(number - days - 1, &none), TC_RANGE);
    assert_int_equal(tc_date_from_number(INT_MAX, &none), TC_RANGE);
    assert_int_equal(tc_date_from_number(INT_MIN, &none), TC_RANGE);
    assert_int_equal(none.year, 0);
}

static void months_keep_the_day_or_take_the_last(void **state)
{
    (void)state;
    static const struct {
        const char *from;
        int months;
        const char *to;
    } rows[] = {
        {"2023-01-31", 1, "2023-02-28"},    {"2024-01-31", 1, "2024-02-29"},
        {"2024-01-31", 2, "2024-03-31"},    {"2024-01-31", 3, "2024-04-30"},
        {"2024-03-31", -1, "2024-02-29"},   {"2024-01-15", -1, "2023-12-15"},
        {"2024-01-31", -2, "2023-11-30"},   {"2024-02-29", 12, "2025-02-28"},
        {"2024-02-29", 48, "2028-02-29"},   {"2096-02-29", 48, "2100-02-28"},
        {"2000-02-29", 0, "2000-02-29"},    {"2024-12-31", 1, "2025-01-31"},
        {"1900-01-01", 3611, "2200-12-01"}, {"2200-12-31", -3611, "1900-01-31"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct tc_date to;
        assert_int_equal(tc_date_add_months(date_of(rows[i].from), rows[i].months, &to), TC_OK);
        assert_date(to, rows[i].to);
    }
}

static void steps_out_of_the_range_are_refused(void **state)
{
    (void)state;
    struct tc_date date = {1999, 9, 9};
    static const int far[] = {INT_MAX, INT_MIN, 4000, -4000};
    for (size_t i = 0; i < sizeof far / sizeof far[0]; i++) {
        assert_int_equal(tc_date_add_months(date_of("2024-05-05"), far[i], &date), TC_RANGE);
        assert_int_equal(tc_date_add_days(date_of("2024-05-05"), far[i] * (i < 2 ? 1 : 50), &date), TC_RANGE);
    }
    assert_int_equal(tc_date_add_days(date_of("2200-12-31"), 1, &date), TC_RANGE);
    assert_int_equal(tc_date_add_days(date_of("1900-01-01"), -1, &date), TC_RANGE);
    assert_int_equal(tc_date_add_months(date_of("2200-12-01"), 1, &date), TC_RANGE);
    assert_int_equal(tc_date_add_months(date_of("1900-01-31"), -1, &date), TC_RANGE);
    assert_date(date, "1999-09-09");
    assert_int_equal(tc_date_add_days(date_of("1900-01-01"), 301 * 365 + 72, &date), TC_OK);
    assert_date(date, "2200-12-31");
}

static void odd_values_are_no_dates(void **state)
{
    (void)state;
    static const struct tc_date bad[] = {{2024, 0, 1},       {2024, 13, 1},      {2024, 1, 0},
                                         {2024, 2, 30},      {INT_MIN, 1, 1},    {INT_MAX, 1, 1},
                                         {2024, -1, 1},      {2024, INT_MAX, 1}, {2024, 1, INT_MAX},
                                         {2024, 1, INT_MIN}, {1899, 12, 31}};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        assert_false(tc_date_valid(bad[i]));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(text_is_read_strictly),
        cmocka_unit_test(centuries_are_leap_only_by_400),
        cmocka_unit_test(known_days),
        cmocka_unit_test(every_day_of_the_range),
        cmocka_unit_test(months_keep_the_day_or_take_the_last),
        cmocka_unit_test(steps_out_of_the_range_are_refused),
        cmocka_unit_test(odd_values_are_no_dates),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
