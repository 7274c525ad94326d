/* SPDX-License-Identifier: MIT */
#include "core/base/summary.h"

#include <math.h>

struct tc_summary tc_summary_empty(void)
{
    return (struct tc_summary){.least = HUGE_VAL, .most = -HUGE_VAL};
}

void tc_summary_add(struct tc_summary *summary, double value)
{
    summary->count += 1;
    double off = value - summary->mean;
    summary->mean += off / summary->count;
    summary->squares += off * (value - summary->mean);
    if (value < summary->least)
        summary->least = value;
    if (value > summary->most)
        summary->most = value;
}

void tc_summary_merge(struct tc_summary *summary, const struct tc_summary *other)
{
    if (other->count == 0)
        return;
    double count = summary->count + other->count;
    double off = other->mean - summary->mean;
    summary->mean += off * (other->count / count);
    summary->squares += other->squares + off * off * (summary->count * other->count / count);
    summary->count = count;
    if (other->least < summary->least)
        summary->least = other->least;
    if (other->most > summary->most)
        summary->most = other->most;
}

double tc_summary_variance(const struct tc_summary *summary)
{
    return summary->count < 2 ? 0 : summary->squares / (summary->count - 1);
}

double tc_summary_deviation(const struct tc_summary *summary)
{
    return sqrt(tc_summary_variance(summary));
}

double tc_summary_standard_error(const struct tc_summary *summary)
{
    return summary->count < 2 ? 0 : sqrt(tc_summary_variance(summary) / summary->count);
}

double tc_percentile(const double sorted[], size_t count, double share)
{
    double place = share * ((double)count + 1); /* counted from 1 */
    if (!(place > 1))
        return sorted[0];
    if (place >= (double)count)
        return sorted[count - 1];
    double below = floor(place);
    size_t i = (size_t)below - 1;
    return sorted[i] + (place - below) * (sorted[i + 1] - sorted[i]);
}
