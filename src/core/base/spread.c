/* SPDX-License-Identifier: MIT */
#include "core/base/spread.h"

#include <math.h>

struct tc_spread tc_spread_fixed(double value)
{
    return (struct tc_spread){TC_SPREAD_FIXED, value, value, value};
}

struct tc_spread tc_spread_uniform(double low, double high)
{
    return (struct tc_spread){TC_SPREAD_UNIFORM, low, low + (high - low) / 2, high};
}

struct tc_spread tc_spread_triangular(double low, double likely, double high)
{
    return (struct tc_spread){TC_SPREAD_TRIANGULAR, low, likely, high};
}

enum tc_status tc_spread_check(const struct tc_spread *spread)
{
    if (!isfinite(spread->low) || !isfinite(spread->likely) || !isfinite(spread->high))
        return TC_RANGE;
    if (!isfinite(spread->high - spread->low))
        return TC_RANGE;
    return spread->low <= spread->likely && spread->likely <= spread->high ? TC_OK : TC_RANGE;
}

double tc_spread_middle(const struct tc_spread *spread)
{
    return spread->likely;
}

double tc_spread_quantile(const struct tc_spread *spread, double p)
{
    double width = spread->high - spread->low;
    double rise = spread->likely - spread->low;
    if (spread->shape == TC_SPREAD_FIXED || width == 0)
        return spread->likely;
    if (spread->shape == TC_SPREAD_UNIFORM)
        return spread->low + width * p;
    if (p * width < rise)
        return spread->low + sqrt(p * width * rise);
    return spread->high - sqrt((1 - p) * width * (width - rise));
}
