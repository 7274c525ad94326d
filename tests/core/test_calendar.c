/* SPDX-License-Identifier: MIT */
/* Repeating periods: rules one by one, and against a walk through every single day. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <limits.h>

#include "core/base/calendar.h"
#include "support/draw.h"

static struct tc_date date_of(const char *text)
{
    struct tc_date date;
    const char *end;
    if (tc_date_read(text, &end, &date) != TC_OK)
        fail_msg("no date: %s", text);
    return date;
}

static void assert_period(const struct tc_period *period, const char *first, const char *last, int occurrence)
{
    char text[TC_DATE_SIZE];
    assert_string_equal(tc_date_write(text, period->first), first);
    assert_string_equal(tc_date_write(text, period->last), last);
    assert_int_equal(period->occurrence, occurrence);
}

/* Over for good: no period runs on the day or starts later. */
static bool lapsed(const struct tc_repeat *repeat, struct tc_date day)
{
    struct tc_period period;
    return tc_repeat_running(repeat, day, &period) != TC_OK && tc_repeat_next(repeat, day, &period) != TC_OK;
}

static struct tc_repeat repeat_of(const char *first, const char *last, enum tc_repeat_unit unit, int every)
{
    struct tc_repeat repeat = {.first = date_of(first), .last = date_of(last), .unit = unit, .every = every};
    assert_int_equal(tc_repeat_check(&repeat), TC_OK);
    return repeat;
}

static void once_and_never_again(void **state)
{
    (void)state;
    struct tc_repeat sale = repeat_of("2024-05-10", "2024-05-20", TC_REPEAT_NEVER, 0);
    struct tc_period period;
    assert_int_equal(tc_repeat_running(&sale, date_of("2024-05-09"), &period), TC_NO_RESULT);
    assert_int_equal(tc_repeat_next(&sale, date_of("2024-05-09"), &period), TC_OK);
    assert_period(&period, "2024-05-10", "2024-05-20", 0);
    assert_int_equal(tc_repeat_next(&sale, date_of("2024-05-10"), &period), TC_OK);
    assert_int_equal(tc_repeat_running(&sale, date_of("2024-05-10"), &period), TC_OK);
    assert_int_equal(tc_repeat_running(&sale, date_of("2024-05-20"), &period), TC_OK);
    assert_period(&period, "2024-05-10", "2024-05-20", 0);
    assert_int_equal(tc_repeat_next(&sale, date_of("2024-05-11"), &period), TC_NO_RESULT);
    assert_int_equal(tc_repeat_running(&sale, date_of("2024-05-21"), &period), TC_NO_RESULT);
    assert_false(lapsed(&sale, date_of("2020-01-01")));
    assert_false(lapsed(&sale, date_of("2024-05-20")));
    assert_true(lapsed(&sale, date_of("2024-05-21")));
}

static void weeks_go_on_across_years(void **state)
{
    (void)state;
    struct tc_repeat sale = repeat_of("2023-12-22", "2023-12-24", TC_REPEAT_WEEKS, 2);
    struct tc_period period;
    assert_int_equal(tc_repeat_next(&sale, date_of("2023-12-23"), &period), TC_OK);
    assert_period(&period, "2024-01-05", "2024-01-07", 1);
    assert_int_equal(tc_repeat_running(&sale, date_of("2024-03-01"), &period), TC_OK);
    assert_period(&period, "2024-03-01", "2024-03-03", 5); /* over a February of 29 days */
    assert_int_equal(tc_repeat_running(&sale, date_of("2024-03-04"), &period), TC_NO_RESULT);
    assert_false(lapsed(&sale, date_of("2199-01-01")));
}

static void month_ends_are_counted_from_the_first(void **state)
{
    (void)state;
    struct tc_period period;
    /* The whole month, every month: always to its last day. */
    struct tc_repeat sale = repeat_of("2023-01-01", "2023-01-31", TC_REPEAT_MONTHS, 1);
    assert_int_equal(tc_repeat_period(&sale, 1, &period), TC_OK);
    assert_period(&period, "2023-02-01", "2023-02-28", 1);
    assert_int_equal(tc_repeat_period(&sale, 13, &period), TC_OK);
    assert_period(&period, "2024-02-01", "2024-02-29", 13);
    assert_int_equal(tc_repeat_period(&sale, 14, &period), TC_OK);
    assert_period(&period, "2024-03-01", "2024-03-31", 14);
    /* The last day of the month does not drift to the 28th. */
    sale = repeat_of("2023-01-31", "2023-01-31", TC_REPEAT_MONTHS, 1);
    assert_int_equal(tc_repeat_next(&sale, date_of("2023-02-01"), &period), TC_OK);
    assert_period(&period, "2023-02-28", "2023-02-28", 1);
    assert_int_equal(tc_repeat_next(&sale, date_of("2023-03-01"), &period), TC_OK);
    assert_period(&period, "2023-03-31", "2023-03-31", 2);
    assert_int_equal(tc_repeat_running(&sale, date_of("2023-04-30"), &period), TC_OK);
    assert_int_equal(tc_repeat_running(&sale, date_of("2023-04-29"), &period), TC_NO_RESULT);
    /* Across the turn of the year. */
    sale = repeat_of("2023-11-30", "2023-12-02", TC_REPEAT_MONTHS, 3);
    assert_int_equal(tc_repeat_running(&sale, date_of("2024-03-01"), &period), TC_OK);
    assert_period(&period, "2024-02-29", "2024-03-02", 1);
}

static void leap_day_is_held_on_the_28th_in_common_years(void **state)
{
    (void)state;
    struct tc_repeat sale = repeat_of("2096-02-29", "2096-03-02", TC_REPEAT_YEARS, 1);
    struct tc_period period;
    assert_int_equal(tc_repeat_next(&sale, date_of("2096-03-01"), &period), TC_OK);
    assert_period(&period, "2097-02-28", "2097-03-02", 1);
    assert_int_equal(tc_repeat_period(&sale, 4, &period), TC_OK);
    assert_period(&period, "2100-02-28", "2100-03-02", 4); /* 2100 is a common year */
    assert_int_equal(tc_repeat_running(&sale, date_of("2104-02-28"), &period), TC_NO_RESULT);
    assert_int_equal(tc_repeat_running(&sale, date_of("2104-02-29"), &period), TC_OK);
    assert_period(&period, "2104-02-29", "2104-03-02", 8);
}

static void until_bounds_the_first_days(void **state)
{
    (void)state;
    struct tc_repeat sale = repeat_of("2024-01-29", "2024-02-04", TC_REPEAT_WEEKS, 4);
    sale.ends = true;
    sale.until = date_of("2024-02-26");
    assert_int_equal(tc_repeat_check(&sale), TC_OK);
    struct tc_period period;
    assert_int_equal(tc_repeat_running(&sale, date_of("2024-03-03"), &period), TC_OK);
    assert_period(&period, "2024-02-26", "2024-03-03", 1); /* begun in time, held in full */
    assert_int_equal(tc_repeat_next(&sale, date_of("2024-02-27"), &period), TC_NO_RESULT);
    assert_false(lapsed(&sale, date_of("2024-03-03")));
    assert_true(lapsed(&sale, date_of("2024-03-04")));
    sale.until = date_of("2024-02-25");
    assert_int_equal(tc_repeat_next(&sale, date_of("2024-01-30"), &period), TC_NO_RESULT);
    assert_true(lapsed(&sale, date_of("2024-02-05")));
}

/* In common years this one ends on the day the next begins; in 2024 it does not. */
static void a_shared_day_belongs_to_the_later(void **state)
{
    (void)state;
    struct tc_repeat sale = repeat_of("2024-01-31", "2024-02-28", TC_REPEAT_MONTHS, 1);
    struct tc_period period;
    assert_int_equal(tc_repeat_running(&sale, date_of("2025-02-28"), &period), TC_OK);
    assert_period(&period, "2025-02-28", "2025-03-28", 13);
    sale.ends = true;
    sale.until = date_of("2025-02-27"); /* so that the later one is not held */
    assert_int_equal(tc_repeat_running(&sale, date_of("2025-02-28"), &period), TC_OK);
    assert_period(&period, "2025-01-31", "2025-02-28", 12);
    assert_true(lapsed(&sale, date_of("2025-03-01")));
}

static void the_end_of_the_calendar_is_an_end(void **state)
{
    (void)state;
    struct tc_repeat sale = repeat_of("2024-12-20", "2025-01-05", TC_REPEAT_YEARS, 1);
    struct tc_period period;
    assert_int_equal(tc_repeat_next(&sale, date_of("2199-01-06"), &period), TC_OK);
    assert_period(&period, "2199-12-20", "2200-01-05", 175);
    assert_int_equal(tc_repeat_next(&sale, date_of("2200-01-06"), &period), TC_NO_RESULT);
    assert_int_equal(tc_repeat_running(&sale, date_of("2200-12-25"), &period), TC_NO_RESULT);
    assert_true(lapsed(&sale, date_of("2200-01-06")));
    static const int far[] = {INT_MAX, 176, -1, INT_MIN};
    for (size_t i = 0; i < sizeof far / sizeof far[0]; i++)
        assert_int_equal(tc_repeat_period(&sale, far[i], &period), TC_NO_RESULT);
    sale = repeat_of("1900-01-01", "1900-01-01", TC_REPEAT_DAYS, 1);
    assert_int_equal(tc_repeat_running(&sale, date_of("2200-12-31"), &period), TC_OK);
    assert_int_equal(period.occurrence, 301 * 365 + 72);
    assert_int_equal(tc_repeat_period(&sale, INT_MAX, &period), TC_NO_RESULT);
    sale = repeat_of("1900-01-01", "1900-12-31", TC_REPEAT_YEARS, 9999);
    assert_int_equal(tc_repeat_next(&sale, date_of("1900-01-02"), &period), TC_NO_RESULT);
}

static void senseless_repeats_are_refused(void **state)
{
    (void)state;
    const struct tc_repeat good = repeat_of("2024-01-01", "2024-01-07", TC_REPEAT_DAYS, 7);
    struct tc_repeat bad[] = {good, good, good, good, good, good, good, good, good};
    bad[0].first.day = 0;
    bad[1].last = (struct tc_date){2024, 2, 30};
    bad[2].last = date_of("2023-12-31");
    bad[3].every = 0;
    bad[4].every = -1;
    bad[5].every = 10000;
    bad[6].every = 6; /* the next begins on the last day */
    bad[7].ends = true;
    bad[7].until = date_of("2023-12-31");
    bad[8].ends = true; /* and no date */
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        assert_int_equal(tc_repeat_check(&bad[i]), TC_RANGE);
    struct tc_repeat monthly = {
        date_of("2024-01-15"), date_of("2024-02-15"), TC_REPEAT_MONTHS, 1, false, {0, 0, 0}};
    assert_int_equal(tc_repeat_check(&monthly), TC_RANGE);
    monthly.last = date_of("2024-02-14");
    assert_int_equal(tc_repeat_check(&monthly), TC_OK);
}

static struct tc_repeat draw_repeat(struct tc_random *random)
{
    struct tc_repeat repeat;
    do {
        struct tc_date year_end = {2023, 12, 31};
        repeat = (struct tc_repeat){.unit = (enum tc_repeat_unit)draw_below(random, 5),
                                    .every = 1 + draw_below(random, 5)};
        if (repeat.unit == TC_REPEAT_DAYS)
            repeat.every += draw_below(random, 60);
        tc_date_add_days(year_end, draw_below(random, 1500), &repeat.first);
        if (draw_below(random, 3) == 0) /* month ends are where the traps are */
            repeat.first.day = tc_days_in_month(repeat.first.year, repeat.first.month);
        tc_date_add_days(repeat.first, draw_below(random, 40), &repeat.last);
        if (draw_below(random, 3) == 0)
            repeat.last.day = tc_days_in_month(repeat.last.year, repeat.last.month);
        repeat.ends = draw_below(random, 2) == 0;
        tc_date_add_days(repeat.first, draw_below(random, 1500), &repeat.until);
    } while (tc_repeat_check(&repeat) != TC_OK);
    return repeat;
}

/* Whether `day` is `origin` moved by whole steps, told from the day alone. */
static bool is_image(const struct tc_repeat *repeat, struct tc_date origin, struct tc_date day)
{
    int days = tc_days_between(origin, day);
    int months = (day.year - origin.year) * 12 + day.month - origin.month;
    int last = tc_days_in_month(day.year, day.month);
    bool same_day = day.day == (origin.day < last ? origin.day : last);
    switch (repeat->unit) {
    case TC_REPEAT_NEVER: return days == 0;
    case TC_REPEAT_DAYS: return days >= 0 && days % repeat->every == 0;
    case TC_REPEAT_WEEKS: return days >= 0 && days % (7 * repeat->every) == 0;
    case TC_REPEAT_MONTHS: return months >= 0 && months % repeat->every == 0 && same_day;
    case TC_REPEAT_YEARS: return months >= 0 && months % (12 * repeat->every) == 0 && same_day;
    }
    return false;
}

/*
 * Walks from a month before the first period day by day for 12 years, opening
 * and closing periods as their days come up, and compares what the closed form
 * says on each day.
 */
static void closed_form_equals_a_walk_through_every_day(void **state)
{
    (void)state;
    struct tc_random random = draw_from(7);
    for (int round = 0; round < 300; round++) {
        struct tc_repeat repeat = draw_repeat(&random);
        int begun = 0, ended = 0, waiting_since = 0;
        int start = tc_date_number(repeat.first) - 30, stop = start + 12 * 365;
        for (int number = start; number < stop; number++) {
            struct tc_date day;
            assert_int_equal(tc_date_from_number(number, &day), TC_OK);
            bool starts = is_image(&repeat, repeat.first, day) &&
                          (!repeat.ends || tc_days_between(day, repeat.until) >= 0);
            if (starts) {
                /* All days since the last first day must have named this one as the next. */
                for (int back = waiting_since > start ? waiting_since : start; back <= number; back++) {
                    struct tc_date asked;
                    struct tc_period next;
                    tc_date_from_number(back, &asked);
                    assert_int_equal(tc_repeat_next(&repeat, asked, &next), TC_OK);
                    assert_int_equal(tc_date_number(next.first), number);
                    assert_int_equal(next.occurrence, begun);
                    assert_false(lapsed(&repeat, asked));
                }
                begun++;
                waiting_since = number + 1;
            }
            struct tc_period period;
            enum tc_status running = tc_repeat_running(&repeat, day, &period);
            assert_int_equal(running, begun > ended ? TC_OK : TC_NO_RESULT);
            if (begun > ended)
                assert_int_equal(period.occurrence, begun - 1);
            if (begun > ended && is_image(&repeat, repeat.last, day))
                ended++;
        }
        if (repeat.unit == TC_REPEAT_NEVER)
            assert_int_equal(begun, 1);
    }
}

/* The n-th period is n single steps from the first, where no month end bends them. */
static void nth_period_is_n_steps(void **state)
{
    (void)state;
    struct tc_random random = draw_from(8);
    for (int round = 0; round < 200; round++) {
        struct tc_repeat repeat = draw_repeat(&random);
        if (repeat.unit == TC_REPEAT_NEVER || repeat.first.day > 28 || repeat.last.day > 28)
            continue;
        repeat.ends = false;
        struct tc_repeat stepped = repeat;
        for (int n = 0; n < 30; n++) { /* 30 times 5 years stay in range */
            struct tc_period direct, one;
            assert_int_equal(tc_repeat_period(&repeat, n, &direct), TC_OK);
            assert_int_equal(tc_days_between(direct.first, stepped.first), 0);
            assert_int_equal(tc_days_between(direct.last, stepped.last), 0);
            assert_int_equal(tc_repeat_period(&stepped, 1, &one), TC_OK);
            stepped.first = one.first;
            stepped.last = one.last;
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(once_and_never_again),
        cmocka_unit_test(weeks_go_on_across_years),
        cmocka_unit_test(month_ends_are_counted_from_the_first),
        cmocka_unit_test(leap_day_is_held_on_the_28th_in_common_years),
        cmocka_unit_test(until_bounds_the_first_days),
        cmocka_unit_test(a_shared_day_belongs_to_the_later),
        cmocka_unit_test(the_end_of_the_calendar_is_an_end),
        cmocka_unit_test(senseless_repeats_are_refused),
        cmocka_unit_test(closed_form_equals_a_walk_through_every_day),
        cmocka_unit_test(nth_period_is_n_steps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
