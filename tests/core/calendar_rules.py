# SPDX-License-Identifier: MIT
"""Periods that come again, by python-dateutil: for test_calendar_dateutil.c.

Days, weeks, months and years by rrule (RFC 5545). Months and years from a day that
some months lack by relativedelta, which takes such a month's last day (SKIP=BACKWARD
of RFC 7529, which rrule does not know). Exit status 77 where there is no dateutil.

A line: first and last day of the first period, unit (1 days to 4 years), every, whether
it ends, until, a day to ask about; then the first days of periods 0 to 11 and their last
days, or 0 0 0 where a period is not held; then the first period on that day or later.
"""

import datetime
import itertools
import random
import sys

try:
    from dateutil import relativedelta, rrule
except ImportError:
    sys.exit(77)

CASES, PERIODS = 3000, 12
NONE = "0 0 0"


def moved(day, unit, count):
    return day + relativedelta.relativedelta(**{("days", "weeks", "months", "years")[unit - 1]: count})


def starts(first, unit, every, until):
    """The first days that are held: at least PERIODS, and those of 2000 days."""
    far = first + datetime.timedelta(days=2001)
    if unit <= 2 or first.day <= 28:
        frequency = (rrule.DAILY, rrule.WEEKLY, rrule.MONTHLY, rrule.YEARLY)[unit - 1]
        at = datetime.datetime(first.year, first.month, first.day)
        end = None if until is None else datetime.datetime(until.year, until.month, until.day)
        days = (d.date() for d in rrule.rrule(frequency, dtstart=at, interval=every, until=end))
    else:
        days = (moved(first, unit, n * every) for n in itertools.count())
        days = itertools.takewhile(lambda d: until is None or d <= until, days)
    held = []
    for day in days:
        held.append(day)
        if len(held) >= PERIODS and day > far:
            break
    return held


def words(day):
    return f"{day.year} {day.month} {day.day}"


def main():
    draw = random.Random(29)
    for _ in range(CASES):
        first = datetime.date(draw.randint(1990, 2060), draw.randint(1, 12), 1)
        first += datetime.timedelta(days=draw.choice((draw.randint(0, 30), 28, 29, 30)))
        unit = draw.randint(1, 4)
        every = draw.randint(1, (60, 30, 18, 5)[unit - 1])
        # shorter than from one first day to the next
        least = every * (1, 7, 28, 365)[unit - 1]
        last = first + datetime.timedelta(days=draw.randint(0, min(least, 60) - 1))
        until = first + datetime.timedelta(days=draw.randint(0, 3000)) if draw.random() < 0.5 else None
        asked = first + datetime.timedelta(days=draw.randint(-400, 2000))
        held = starts(first, unit, every, until)
        row = [words(first), words(last), f"{unit} {every} {1 if until else 0}", words(until or first), words(asked)]
        for n in range(PERIODS):
            row.append(f"{words(held[n])} {words(moved(last, unit, n * every))}" if n < len(held) else f"{NONE} {NONE}")
        row.append(next((words(d) for d in held if d >= asked), NONE))
        print(" ".join(row))


if __name__ == "__main__":
    main()
