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

double tc_spread_mean(const struct tc_spread *spread)
{
    if (spread->shape != TC_SPREAD_TRIANGULAR)
        return spread->likely;
    return spread->low + ((spread->likely - spread->low) + (spread->high - spread->low)) / 3;
}

double tc_spread_variance(const struct tc_spread *spread)
{
    double width = spread->high - spread->low;
    double rise = spread->likely - spread->low;
    switch (spread->shape) {
    case TC_SPREAD_UNIFORM: return width * width / 12;
    case TC_SPREAD_TRIANGULAR: return (width * width - width * rise + rise * rise) / 18;
    case TC_SPREAD_FIXED: break;
    }
    return 0;
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

double tc_spread_share_below(const struct tc_spread *spread, double value)
{
    if (value <= spread->low)
        return 0;
    if (value >= spread->high)
        return 1;
    double width = spread->high - spread->low; /* not 0: value lies inside */
    if (spread->shape != TC_SPREAD_TRIANGULAR)
        return (value - spread->low) / width;
    if (value < spread->likely)
        return (value - spread->low) * (value - spread->low) / (width * (spread->likely - spread->low));
    return 1 - (spread->high - value) * (spread->high - value) / (width * (spread->high - spread->likely));
}
