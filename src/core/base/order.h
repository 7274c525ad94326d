/* SPDX-License-Identifier: MIT */
/*
 * order.h - the larger and the smaller of two, and figures in ascending order.
 */
#ifndef TC_CORE_BASE_ORDER_H
#define TC_CORE_BASE_ORDER_H

static inline int tc_larger(int a, int b)
{
    return a > b ? a : b;
}

static inline int tc_smaller(int a, int b)
{
    return a < b ? a : b;
}

/* As fmin and fmax, but without a call; none of the two may be NaN. */
static inline double tc_least(double a, double b)
{
    return a < b ? a : b;
}

static inline double tc_most(double a, double b)
{
    return a > b ? a : b;
}

/* Below 0, 0 or above 0 as a is less than, equal to or more than b. */
static inline int tc_compare(double a, double b)
{
    return (a > b) - (a < b);
}

/* For qsort of doubles: the least first. */
int tc_ascending(const void *a, const void *b);

#endif
