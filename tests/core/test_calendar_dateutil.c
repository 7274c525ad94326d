/* SPDX-License-Identifier: MIT */
/* Periods that come again against python-dateutil (calendar_rules.py), three thousand of them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <sys/wait.h>

#include "core/base/calendar.h"
#include "support/need.h"

enum { CASES = 3000, PERIODS = 12, NO_DATEUTIL = 77 };

struct rule {
    struct tc_repeat repeat;
    struct tc_date asked;
    struct tc_period period[PERIODS]; /* year 0 where it is not held */
    struct tc_date next;
};

static struct rule rules[CASES];

static bool read_date(FILE *from, struct tc_date *date)
{
    return fscanf(from, "%d %d %d", &date->year, &date->month, &date->day) == 3;
}

static bool read_rule(FILE *from, struct rule *rule)
{
    int unit, ends;
    bool ok = read_date(from, &rule->repeat.first) && read_date(from, &rule->repeat.last) &&
              fscanf(from, "%d %d %d", &unit, &rule->repeat.every, &ends) == 3 &&
              read_date(from, &rule->repeat.until) && read_date(from, &rule->asked);
    for (int n = 0; ok && n < PERIODS; n++)
        ok = read_date(from, &rule->period[n].first) && read_date(from, &rule->period[n].last);
    if (!ok || !read_date(from, &rule->next))
        return false;
    rule->repeat.unit = (enum tc_repeat_unit)(TC_REPEAT_DAYS + unit - 1);
    rule->repeat.ends = ends != 0;
    return true;
}

/* The exit status of the script, or -1; NO_DATEUTIL where this python lacks it. */
static int ask_dateutil(const char *command)
{
    FILE *from = popen(command, "r");
    if (!from)
        return -1;
    int read = 0;
    while (read < CASES && read_rule(from, &rules[read]))
        read++;
    int ended = pclose(from);
    if (!WIFEXITED(ended))
        return -1;
    return WEXITSTATUS(ended) == 0 && read < CASES ? -1 : WEXITSTATUS(ended);
}

static void same_date(struct tc_date ours, struct tc_date theirs)
{
    assert_int_equal(ours.year, theirs.year);
    assert_int_equal(ours.month, theirs.month);
    assert_int_equal(ours.day, theirs.day);
}

static void dateutil_finds_the_same(void **state)
{
    (void)state;
    /* Systems may have dateutil with their own python only. */
    int status = ask_dateutil("python3 tests/core/calendar_rules.py");
    if (status != 0)
        status = ask_dateutil("/usr/bin/python3 tests/core/calendar_rules.py");
    skip_without(status != NO_DATEUTIL && status != 127, "python3 with dateutil");
    assert_int_equal(status, 0);
    for (int i = 0; i < CASES; i++) {
        const struct rule *rule = &rules[i];
        assert_int_equal(tc_repeat_check(&rule->repeat), TC_OK);
        for (int n = 0; n < PERIODS; n++) {
            struct tc_period period;
            bool held = rule->period[n].first.year != 0;
            assert_int_equal(tc_repeat_period(&rule->repeat, n, &period), held ? TC_OK : TC_NO_RESULT);
            if (!held)
                continue;
            same_date(period.first, rule->period[n].first);
            same_date(period.last, rule->period[n].last);
        }
        struct tc_period next;
        bool comes = rule->next.year != 0;
        assert_int_equal(tc_repeat_next(&rule->repeat, rule->asked, &next), comes ? TC_OK : TC_NO_RESULT);
        if (comes)
            same_date(next.first, rule->next);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(dateutil_finds_the_same)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
