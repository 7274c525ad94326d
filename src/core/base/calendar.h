/* SPDX-License-Identifier: MIT */
/*
 * calendar.h - periods that come again: a shop's sale from one date to another,
 * once, every n days or weeks, every n months, every n years.
 *
 * Both ends of a period move by the same step, counted from the first period
 * and not from the one before, and by the rules of date.h. So a sale from the
 * 1st to the 31st of January repeated monthly always ends on the last day of
 * its month, one of January 31 is held on February 28 and then on March 31
 * again, and one of February 29 repeated yearly is held on February 28 in
 * common years. (RFC 5545 would leave such dates out; a shop does not.)
 *
 * An end to the repeats bounds the first days, as UNTIL does in RFC 5545
 * section 3.3.10: a period that starts on or before it runs its full length.
 * Nothing reaches beyond the range of date.h: a period that would is not held.
 */
#ifndef TC_CORE_BASE_CALENDAR_H
#define TC_CORE_BASE_CALENDAR_H

#include <stdbool.h>

#include "core/base/date.h"
#include "core/base/status.h"

enum tc_repeat_unit { TC_REPEAT_NEVER, TC_REPEAT_DAYS, TC_REPEAT_WEEKS, TC_REPEAT_MONTHS, TC_REPEAT_YEARS };

struct tc_repeat {
    struct tc_date first; /* first day of the first period */
    struct tc_date last;  /* last day of the first period, still part of it */
    enum tc_repeat_unit unit;
    int every;            /* units from one first day to the next, 1 or more; unused for TC_REPEAT_NEVER */
    bool ends;            /* whether `until` counts */
    struct tc_date until; /* no period starts after this day */
};

struct tc_period {
    struct tc_date first;
    struct tc_date last;
    int occurrence; /* 0 for the first period, 1 for the next, ... */
};

/*
 * TC_RANGE where a date is not valid, the period ends before it begins or the
 * repeats end before the first begins, `every` is not 1 to 9999, or the second
 * period would begin before the first has ended; else TC_OK. The functions
 * below expect a repeat that passes.
 */
enum tc_status tc_repeat_check(const struct tc_repeat *repeat);

/* Period number n, counted from 0. TC_NO_RESULT where it is not held. */
enum tc_status tc_repeat_period(const struct tc_repeat *repeat, int n, struct tc_period *period);

/*
 * The period that runs on the day. TC_NO_RESULT where none does. Where month
 * ends let one end on the day the next begins, that day belongs to the later.
 */
enum tc_status tc_repeat_running(const struct tc_repeat *repeat, struct tc_date day,
                                 struct tc_period *period);

/* The first period that starts on the day or later. TC_NO_RESULT where none does. */
enum tc_status tc_repeat_next(const struct tc_repeat *repeat, struct tc_date day, struct tc_period *period);

#endif
