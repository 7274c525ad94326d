/* SPDX-License-Identifier: MIT */
/* Dates against GNU date (coreutils), thousands at a time; left out where `date` is another. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "core/base/date.h"
#include "support/draw.h"
#include "support/need.h"

enum { ROUNDS = 5000 };

static bool have_gnu_date(void)
{
    char line[64] = "";
    FILE *pipe = popen("date --version 2>/dev/null", "r");
    assert_non_null(pipe);
    bool gnu = fgets(line, sizeof line, pipe) && strstr(line, "GNU");
    while (fgets(line, sizeof line, pipe))
        ;
    pclose(pipe);
    return gnu;
}

/* A file of questions for `date -f`, one a line, and the pipe its answers come from. */
struct questions {
    char path[32];
    FILE *file;
};

static struct questions ask(void)
{
    struct questions q = {.path = "/tmp/tankcost-date.XXXXXX"};
    int fd = mkstemp(q.path);
    assert_true(fd >= 0);
    q.file = fdopen(fd, "w");
    assert_non_null(q.file);
    return q;
}

static FILE *answers(struct questions *q, const char *format)
{
    char command[128];
    assert_int_equal(fclose(q->file), 0);
    snprintf(command, sizeof command, "LC_ALL=C date -u -f %s '%s' 2>/dev/null", q->path, format);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    return pipe;
}

static void finish(struct questions *q, FILE *pipe)
{
    char line[64];
    assert_null(fgets(line, sizeof line, pipe)); /* every answer has been used */
    pclose(pipe);
    unlink(q->path);
}

static void assert_next_answer(FILE *pipe, const char *wanted)
{
    char line[64];
    assert_non_null(fgets(line, sizeof line, pipe));
    line[strcspn(line, "\n")] = '\0';
    assert_string_equal(line, wanted);
}

static struct tc_date draw_date(struct tc_random *random)
{
    struct tc_date date;
    assert_int_equal(tc_date_from_number(draw_below(random, 301 * 365 + 73) - 25567, &date), TC_OK);
    return date;
}

static void print_date(FILE *file, struct tc_date date)
{
    char text[TC_DATE_SIZE];
    fputs(tc_date_write(text, date), file);
}

/* As ISO 8601 numbers it, 1 Monday to 7 Sunday: day 0 was a Thursday. */
static int weekday(struct tc_date date)
{
    return ((tc_date_number(date) + 3) % 7 + 7) % 7 + 1;
}

static void numbers_and_weekdays(void **state)
{
    (void)state;
    skip_without(have_gnu_date(), "GNU date");
    struct questions q = ask();
    struct tc_random random = draw_from(1);
    for (int i = 0; i < ROUNDS; i++) {
        print_date(q.file, draw_date(&random));
        fputc('\n', q.file);
    }
    FILE *pipe = answers(&q, "+%s %u %F");
    random = draw_from(1);
    for (int i = 0; i < ROUNDS; i++) {
        struct tc_date date = draw_date(&random);
        char wanted[64], text[TC_DATE_SIZE];
        snprintf(wanted, sizeof wanted, "%" PRId64 " %d %s", (int64_t)tc_date_number(date) * 86400,
                 weekday(date), tc_date_write(text, date));
        assert_next_answer(pipe, wanted);
    }
    finish(&q, pipe);
}

static void days_added(void **state)
{
    (void)state;
    skip_without(have_gnu_date(), "GNU date");
    struct questions q = ask();
    struct tc_date results[ROUNDS];
    struct tc_random random = draw_from(2);
    for (int i = 0; i < ROUNDS; i++) {
        struct tc_date from;
        int n;
        do {
            from = draw_date(&random);
            n = draw_below(&random, 20000) - 10000;
        } while (tc_date_add_days(from, n, &results[i]) != TC_OK);
        print_date(q.file, from);
        fprintf(q.file, " %d days\n", n);
    }
    FILE *pipe = answers(&q, "+%F");
    for (int i = 0; i < ROUNDS; i++) {
        char text[TC_DATE_SIZE];
        assert_next_answer(pipe, tc_date_write(text, results[i]));
    }
    finish(&q, pipe);
}

/*
 * GNU date carries January 31 + 1 month into March, so it is asked for the two
 * ends of the target month instead: the day is kept, or is the month's last.
 */
static void months_added(void **state)
{
    (void)state;
    skip_without(have_gnu_date(), "GNU date");
    struct questions q = ask();
    struct tc_date results[ROUNDS];
    int days[ROUNDS];
    struct tc_random random = draw_from(3);
    for (int i = 0; i < ROUNDS; i++) {
        struct tc_date from;
        int n;
        do {
            from = draw_date(&random);
            if (i % 2 == 0) /* every other one at the end of its month */
                from.day = tc_days_in_month(from.year, from.month);
            n = draw_below(&random, 2400) - 1200;
        } while (tc_date_add_months(from, n, &results[i]) != TC_OK);
        days[i] = from.day;
        from.day = 1;
        print_date(q.file, from);
        fprintf(q.file, " %d months\n", n);
        print_date(q.file, from);
        fprintf(q.file, " %d months 1 day ago\n", n + 1);
    }
    FILE *pipe = answers(&q, "+%F");
    for (int i = 0; i < ROUNDS; i++) {
        char line[64], wanted[64], text[TC_DATE_SIZE];
        struct tc_date first = results[i];
        first.day = 1;
        assert_next_answer(pipe, tc_date_write(text, first));
        assert_non_null(fgets(line, sizeof line, pipe));
        int last = (line[8] - '0') * 10 + line[9] - '0';
        snprintf(wanted, sizeof wanted, "%.8s%02d", line, days[i] < last ? days[i] : last);
        assert_string_equal(tc_date_write(text, results[i]), wanted);
    }
    finish(&q, pipe);
}

/* date -f passes over what is not a date, so its answers are the valid ones alone, in order. */
static void only_real_days_are_valid(void **state)
{
    (void)state;
    skip_without(have_gnu_date(), "GNU date");
    static const int years[] = {1900, 1904, 1999, 2000, 2023, 2024, 2100, 2199, 2200};
    struct questions q = ask();
    for (size_t i = 0; i < sizeof years / sizeof years[0]; i++)
        for (int month = 0; month <= 13; month++)
            for (int day = 0; day <= 33; day++)
                fprintf(q.file, "%04d-%02d-%02d\n", years[i], month, day);
    FILE *pipe = answers(&q, "+%F");
    for (size_t i = 0; i < sizeof years / sizeof years[0]; i++) {
        for (int month = 0; month <= 13; month++) {
            for (int day = 0; day <= 33; day++) {
                struct tc_date date = {years[i], month, day};
                char text[TC_DATE_SIZE];
                if (tc_date_valid(date))
                    assert_next_answer(pipe, tc_date_write(text, date));
            }
        }
    }
    finish(&q, pipe);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_and_weekdays),
        cmocka_unit_test(days_added),
        cmocka_unit_test(months_added),
        cmocka_unit_test(only_real_days_are_valid),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
