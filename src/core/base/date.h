/* SPDX-License-Identifier: MIT */
/*
 * date.h - days of the civil calendar, and the date some months on, taken back to
 * the last day of a short month.
 *
 * The proleptic Gregorian calendar of ISO 8601, from 1900-01-01 to 2200-12-31.
 * A date is a plain value; a day number counts days from 1970-01-01, which is
 * 0. There is no clock here: what day it is, the caller has to say.
 *
 * Functions that take a date expect a valid one, as tc_date_read and the
 * arithmetic below give; where a date comes from elsewhere, ask tc_date_valid.
 */
#ifndef TC_CORE_BASE_DATE_H
#define TC_CORE_BASE_DATE_H

#include <stdbool.h>

#include "core/base/status.h"

#define TC_YEAR_FIRST 1900
#define TC_YEAR_LAST  2200

/* Room for a date as text, with its end. */
#define TC_DATE_SIZE 11

struct tc_date {
    int year;
    int month; /* 1 to 12 */
    int day;   /* 1 to 31 */
};

/* Every fourth year, but no full century unless 400 divides it. */
bool tc_is_leap_year(int year);

/* 28 to 31, for a month 1 to 12. */
int tc_days_in_month(int year, int month);

/* Whether the calendar has this day and it lies in the range above. */
bool tc_date_valid(struct tc_date date);

/*
 * Reads YYYY-MM-DD (ISO 8601 extended form, all digits written) at the start
 * of text; *end is set behind it. TC_SYNTAX where the form is another (*end =
 * text), TC_RANGE where there is no such day or it is out of range.
 */
enum tc_status tc_date_read(const char *text, const char **end, struct tc_date *date);

/* Writes YYYY-MM-DD into buffer (at least TC_DATE_SIZE) and returns buffer. */
char *tc_date_write(char *buffer, struct tc_date date);

/* Days from 1970-01-01 to the date, and back; TC_RANGE where the number is out of range. */
int tc_date_number(struct tc_date date);
enum tc_status tc_date_from_number(int number, struct tc_date *date);

/* Days from `from` to `to`; below 0 where `to` is the earlier one, 0 where they are the same. */
int tc_days_between(struct tc_date from, struct tc_date to);

/*
 * The date n days or months on (back, for n below 0). TC_RANGE where it
 * would leave the range; *result is then left alone.
 *
 * Months keep the day of the month where the target month has it and
 * take its last day where not (the rule RFC 7529 calls SKIP=BACKWARD): a month
 * after January 31 is February 28 or 29, twelve after February 29 February
 * 28. So steps do not add up: count months from the first date, not from the
 * one before.
 */
enum tc_status tc_date_add_days(struct tc_date date, int n, struct tc_date *result);
enum tc_status tc_date_add_months(struct tc_date date, int n, struct tc_date *result);

#endif
