/* SPDX-License-Identifier: MIT */
#include "core/base/date.h"

#include "core/base/number.h"

enum {
    EPOCH = 719162,      /* days from 0001-01-01 to 1970-01-01 */
    CYCLE_YEARS = 400,   /* the calendar repeats after these many years ... */
    CYCLE_DAYS = 146097, /* ... and days */
    MONTHS = 12,
    MOST_MONTHS = (TC_YEAR_LAST - TC_YEAR_FIRST + 1) * MONTHS
};

bool tc_is_leap_year(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

int tc_days_in_month(int year, int month)
{
    static const int days[MONTHS] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return days[month - 1] + (month == 2 && tc_is_leap_year(year));
}

bool tc_date_valid(struct tc_date date)
{
    return date.year >= TC_YEAR_FIRST && date.year <= TC_YEAR_LAST && date.month >= 1 &&
           date.month <= MONTHS && date.day >= 1 && date.day <= tc_days_in_month(date.year, date.month);
}

/* Reads exactly `digits` digits; false where there are fewer or more. */
static bool read_field(const char **p, int digits, int *value)
{
    const char *end;
    bool read = tc_number_read_count(*p, &end, value) == TC_OK && end - *p == digits;
    *p = end;
    return read;
}

static bool read_dash(const char **p)
{
    return *(*p)++ == '-';
}

enum tc_status tc_date_read(const char *text, const char **end, struct tc_date *date)
{
    const char *p = text;
    struct tc_date read = {0, 0, 0};
    *end = text;
    if (!read_field(&p, 4, &read.year) || !read_dash(&p) || !read_field(&p, 2, &read.month) ||
        !read_dash(&p) || !read_field(&p, 2, &read.day))
        return TC_SYNTAX;
    *end = p;
    if (!tc_date_valid(read))
        return TC_RANGE;
    *date = read;
    return TC_OK;
}

/* Writes the last `digits` digits of value, with leading zeros; returns what follows them. */
static char *write_field(char *out, int digits, int value)
{
    for (int i = digits - 1; i >= 0; i--) {
        out[i] = (char)('0' + value % 10);
        value /= 10;
    }
    return out + digits;
}

char *tc_date_write(char *buffer, struct tc_date date)
{
    char *out = write_field(buffer, 4, date.year);
    *out++ = '-';
    out = write_field(out, 2, date.month);
    *out++ = '-';
    out = write_field(out, 2, date.day);
    *out = '\0';
    return buffer;
}

/* Days from 0001-01-01 to January 1 of the year. */
static int days_before_year(int year)
{
    int y = year - 1;
    return 365 * y + y / 4 - y / 100 + y / 400;
}

int tc_date_number(struct tc_date date)
{
    int days = days_before_year(date.year) + date.day - 1 - EPOCH;
    for (int month = 1; month < date.month; month++)
        days += tc_days_in_month(date.year, month);
    return days;
}

enum tc_status tc_date_from_number(int number, struct tc_date *date)
{
    if (number < days_before_year(TC_YEAR_FIRST) - EPOCH ||
        number >= days_before_year(TC_YEAR_LAST + 1) - EPOCH)
        return TC_RANGE;
    int days = number + EPOCH;
    /* The mean year gives the year or a neighbour of it. */
    int year = (int)((long long)days * CYCLE_YEARS / CYCLE_DAYS) + 1;
    while (days_before_year(year) > days)
        year--;
    while (days_before_year(year + 1) <= days)
        year++;
    days -= days_before_year(year);
    int month = 1;
    for (; days >= tc_days_in_month(year, month); month++)
        days -= tc_days_in_month(year, month);
    *date = (struct tc_date){year, month, days + 1};
    return TC_OK;
}

int tc_days_between(struct tc_date from, struct tc_date to)
{
    return tc_date_number(to) - tc_date_number(from);
}

enum tc_status tc_date_add_days(struct tc_date date, int n, struct tc_date *result)
{
    const int most_days = MOST_MONTHS * 31;
    if (n < -most_days || n > most_days)
        return TC_RANGE;
    return tc_date_from_number(tc_date_number(date) + n, result);
}

enum tc_status tc_date_add_months(struct tc_date date, int n, struct tc_date *result)
{
    if (n < -MOST_MONTHS || n > MOST_MONTHS)
        return TC_RANGE;
    int months = date.year * MONTHS + date.month - 1 + n;
    struct tc_date target = {months / MONTHS, months % MONTHS + 1, date.day};
    if (target.year < TC_YEAR_FIRST || target.year > TC_YEAR_LAST)
        return TC_RANGE;
    int last = tc_days_in_month(target.year, target.month);
    if (target.day > last)
        target.day = last;
    *result = target;
    return TC_OK;
}
