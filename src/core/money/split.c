/* SPDX-License-Identifier: MIT */
#include "core/money/split.h"

#include <math.h>

/* The share of part i before rounding. */
static double quota(tc_money amount, const double weights[], int count, double whole, int i)
{
    return whole == 0 ? (double)amount / count : (double)amount * (weights[i] / whole);
}

/*
 * Moves one minor unit: up to the part whose quota lies furthest above what it
 * has (step 1), or down from the one furthest below (step -1).
 */
static void hand_out(tc_money amount, const double weights[], int count, double whole, tc_money parts[],
                     int step)
{
    int best = 0;
    double most = -HUGE_VAL;
    for (int i = 0; i < count; i++) {
        double lacks = (quota(amount, weights, count, whole, i) - (double)parts[i]) * step;
        if (lacks > most) {
            most = lacks;
            best = i;
        }
    }
    parts[best] += step;
}

enum tc_status tc_money_split(tc_money amount, const double weights[], int count, tc_money parts[])
{
    if (count < 1)
        return TC_RANGE;
    double whole = 0;
    for (int i = 0; i < count; i++)
        whole += weights[i];
    if (!isfinite(whole))
        return TC_RANGE;
    enum tc_status status = TC_OK;
    tc_money given = 0;
    for (int i = 0; i < count; i++) {
        double share = floor(quota(amount, weights, count, whole, i));
        if (!(fabs(share) < (double)TC_MONEY_MAX))
            return TC_OVERFLOW;
        parts[i] = (tc_money)share;
        given = tc_money_add(given, parts[i], &status);
    }
    tc_money left = tc_money_subtract(amount, given, &status);
    if (status != TC_OK)
        return status;
    /* Less than one minor unit is left for each part, but for amounts so large
     * that their shares are no longer exact in a double: then a little more. */
    for (; left > 0; left--)
        hand_out(amount, weights, count, whole, parts, 1);
    for (; left < 0; left++)
        hand_out(amount, weights, count, whole, parts, -1);
    return TC_OK;
}
