/* SPDX-License-Identifier: MIT */
#include "core/money/money.h"

#include <math.h>
#include <stdbool.h>

static tc_money checked(bool in_range, tc_money amount, enum tc_status *status)
{
    if (in_range && amount >= -TC_MONEY_MAX && amount <= TC_MONEY_MAX)
        return amount;
    *status = TC_OVERFLOW;
    return 0;
}

static bool operands_ok(tc_money a, tc_money b)
{
    return a >= -TC_MONEY_MAX && a <= TC_MONEY_MAX && b >= -TC_MONEY_MAX && b <= TC_MONEY_MAX;
}

tc_money tc_money_add(tc_money a, tc_money b, enum tc_status *status)
{
    /* Two amounts in range cannot wrap: 2 * TC_MONEY_MAX is far below INT64_MAX. */
    bool ok = operands_ok(a, b);
    return checked(ok, ok ? a + b : 0, status);
}

tc_money tc_money_subtract(tc_money a, tc_money b, enum tc_status *status)
{
    bool ok = operands_ok(a, b);
    return checked(ok, ok ? a - b : 0, status);
}

tc_money tc_money_times(tc_money a, int64_t n, enum tc_status *status)
{
    if (!operands_ok(a, 0))
        return checked(false, 0, status);
    if (a == 0 || n == 0)
        return 0;
    int64_t size = a < 0 ? -a : a;
    bool ok = n <= TC_MONEY_MAX / size && n >= -(TC_MONEY_MAX / size);
    return checked(ok, ok ? a * n : 0, status);
}

tc_money tc_money_sum(const tc_money *amounts, int count, enum tc_status *status)
{
    tc_money sum = 0;
    for (int i = 0; i < count; i++)
        sum = tc_money_add(sum, amounts[i], status);
    return sum;
}

tc_money tc_money_round(double minor_units, enum tc_status *status)
{
    if (isnan(minor_units)) {
        *status = TC_RANGE;
        return 0;
    }
    double size = fabs(minor_units);
    if (size > (double)TC_MONEY_MAX)
        return checked(false, 0, status);
    double whole = floor(size);
    if (size - whole >= 0.5 - 1e-6)
        whole += 1.0;
    return checked(true, (tc_money)(minor_units < 0 ? -whole : whole), status);
}

tc_money tc_money_share(tc_money amount, double share, enum tc_status *status)
{
    if (!operands_ok(amount, 0))
        return checked(false, 0, status);
    return tc_money_round((double)amount * share, status);
}
