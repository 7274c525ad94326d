/* SPDX-License-Identifier: MIT */
#include "core/base/calendar.h"

enum {
    MOST_EVERY = 9999,
    RANGE_YEARS = TC_YEAR_LAST - TC_YEAR_FIRST + 1,
    RANGE_MONTHS = RANGE_YEARS * 12,
    RANGE_DAYS = RANGE_YEARS * 366
};

/* What lies between two periods: days or months, never both; neither where there is but one period. */
struct stride {
    int days;
    int months;
};

static struct stride stride_of(const struct tc_repeat *repeat)
{
    switch (repeat->unit) {
    case TC_REPEAT_DAYS: return (struct stride){repeat->every, 0};
    case TC_REPEAT_WEEKS: return (struct stride){repeat->every * 7, 0};
    case TC_REPEAT_MONTHS: return (struct stride){0, repeat->every};
    case TC_REPEAT_YEARS: return (struct stride){0, repeat->every * 12};
    case TC_REPEAT_NEVER: break;
    }
    return (struct stride){0, 0};
}

/* Moves a date n strides on; TC_RANGE where that leaves the calendar or there is no such stride. */
static enum tc_status move(struct tc_date date, struct stride stride, int n, struct tc_date *result)
{
    if (stride.days > 0 && n <= RANGE_DAYS / stride.days)
        return tc_date_add_days(date, n * stride.days, result);
    if (stride.months > 0 && n <= RANGE_MONTHS / stride.months)
        return tc_date_add_months(date, n * stride.months, result);
    *result = date;
    return n == 0 ? TC_OK : TC_RANGE;
}

/* The number of the last period that starts on the day or before; -1 where none does. */
static int last_started(const struct tc_repeat *repeat, struct tc_date day)
{
    int days = tc_days_between(repeat->first, day);
    if (days < 0)
        return -1;
    struct stride stride = stride_of(repeat);
    if (stride.days > 0)
        return days / stride.days;
    if (stride.months == 0)
        return 0;
    int months = (day.year - repeat->first.year) * 12 + day.month - repeat->first.month;
    int n = months / stride.months;
    struct tc_date start;
    /* In the month of the day itself the period may start later than the day. */
    if (move(repeat->first, stride, n, &start) != TC_OK || tc_days_between(start, day) < 0)
        n--;
    return n;
}

enum tc_status tc_repeat_check(const struct tc_repeat *repeat)
{
    if (!tc_date_valid(repeat->first) || !tc_date_valid(repeat->last) ||
        tc_days_between(repeat->first, repeat->last) < 0)
        return TC_RANGE;
    if (repeat->ends && (!tc_date_valid(repeat->until) || tc_days_between(repeat->first, repeat->until) < 0))
        return TC_RANGE;
    if (repeat->unit == TC_REPEAT_NEVER)
        return TC_OK;
    if (repeat->every < 1 || repeat->every > MOST_EVERY)
        return TC_RANGE;
    struct tc_date second;
    if (move(repeat->first, stride_of(repeat), 1, &second) == TC_OK &&
        tc_days_between(repeat->last, second) <= 0)
        return TC_RANGE;
    return TC_OK;
}

enum tc_status tc_repeat_period(const struct tc_repeat *repeat, int n, struct tc_period *period)
{
    struct stride stride = stride_of(repeat);
    struct tc_period found = {.occurrence = n};
    if (n < 0 || move(repeat->first, stride, n, &found.first) != TC_OK ||
        move(repeat->last, stride, n, &found.last) != TC_OK)
        return TC_NO_RESULT;
    if (repeat->ends && tc_days_between(found.first, repeat->until) < 0)
        return TC_NO_RESULT;
    *period = found;
    return TC_OK;
}

enum tc_status tc_repeat_running(const struct tc_repeat *repeat, struct tc_date day, struct tc_period *period)
{
    int n = last_started(repeat, day);
    /* After `until` the last period that was still begun may run on. */
    if (repeat->ends && tc_days_between(day, repeat->until) < 0)
        n = last_started(repeat, repeat->until);
    struct tc_period found;
    if (tc_repeat_period(repeat, n, &found) != TC_OK || tc_days_between(day, found.last) < 0)
        return TC_NO_RESULT;
    *period = found;
    return TC_OK;
}

enum tc_status tc_repeat_next(const struct tc_repeat *repeat, struct tc_date day, struct tc_period *period)
{
    int n = last_started(repeat, day);
    struct tc_date start;
    bool starts_today = n >= 0 && move(repeat->first, stride_of(repeat), n, &start) == TC_OK &&
                        tc_days_between(start, day) == 0;
    return tc_repeat_period(repeat, starts_today ? n : n + 1, period);
}
