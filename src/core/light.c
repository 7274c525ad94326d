/* SPDX-License-Identifier: MIT */
#include "core/light.h"

#include <math.h>
#include <stdbool.h>

#define MOST 1000 /* lamps, rows */

static bool is_share(double value)
{
    return value >= 0 && value <= 1;
}

static bool is_amount(double value)
{
    return value >= 0 && value <= 1e12;
}

enum tc_status tc_lamp_ppf(const struct tc_lamp *lamp, double *ppf)
{
    if (!is_amount(lamp->ppf) || !is_amount(lamp->power) || !is_amount(lamp->efficacy) ||
        !is_amount(lamp->lumens) || !is_amount(lamp->lumens_per_ppf))
        return TC_RANGE;
    double rate = lamp->lumens_per_ppf > 0 ? lamp->lumens_per_ppf : TC_LUMENS_PER_PPF;
    if (lamp->ppf > 0)
        *ppf = lamp->ppf;
    else if (lamp->power > 0 && lamp->efficacy > 0)
        *ppf = lamp->power * lamp->efficacy;
    else if (lamp->lumens > 0)
        *ppf = lamp->lumens / rate;
    else
        return TC_NO_RESULT;
    return TC_OK;
}

/* Share of the lamp's light that reaches the substrate. */
static enum tc_status transmission(const struct tc_light_path *path, double *share)
{
    if (!is_share(path->capture) || !is_share(path->lid_transmittance) ||
        !is_share(path->surface_reflection) || !is_amount(path->attenuation) || !is_amount(path->depth) ||
        !is_amount(path->area) || path->area == 0)
        return TC_RANGE;
    *share = path->capture * path->lid_transmittance * (1 - path->surface_reflection) *
             exp(-path->attenuation * path->depth);
    return TC_OK;
}

enum tc_status tc_light_ppfd(const struct tc_light_path *path, double ppf, double *ppfd)
{
    double share;
    enum tc_status status = transmission(path, &share);
    if (status != TC_OK || !is_amount(ppf))
        return TC_RANGE;
    *ppfd = ppf * share / path->area;
    return TC_OK;
}

enum tc_status tc_light_needed_ppf(const struct tc_light_path *path, double ppfd, double *ppf)
{
    double share;
    enum tc_status status = transmission(path, &share);
    if (status != TC_OK || !is_amount(ppfd))
        return TC_RANGE;
    if (ppfd == 0) {
        *ppf = 0;
        return TC_OK;
    }
    *ppf = ppfd * path->area / share;
    return isfinite(*ppf) ? TC_OK : TC_NO_RESULT;
}

/* The least whole number of pieces that make up the need; a hair too little counts as enough. */
static enum tc_status pieces(double need, double each, int *count)
{
    double exact = ceil(need / each - 1e-9);
    if (!(exact <= MOST))
        return TC_RANGE;
    *count = exact < 1 ? 1 : (int)exact;
    return TC_OK;
}

enum tc_status tc_light_count(double needed_ppf, double ppf_each, int *count)
{
    if (!is_amount(needed_ppf) || !is_amount(ppf_each))
        return TC_RANGE;
    if (ppf_each == 0)
        return TC_NO_RESULT;
    return pieces(needed_ppf, ppf_each, count);
}

double tc_light_row_width(double height, double uniformity)
{
    return 2 * height * sqrt(pow(uniformity, -2.0 / 3) - 1);
}

enum tc_status tc_light_rows(double width, double height, double uniformity, int *rows)
{
    if (!is_amount(width) || width == 0 || !is_amount(height) || height == 0 ||
        !(uniformity > 0 && uniformity < 1))
        return TC_RANGE;
    return pieces(width, tc_light_row_width(height, uniformity), rows);
}

double tc_light_daily(double ppfd, double hours)
{
    return ppfd * hours * 3600 * 1e-6;
}

double tc_light_begin_at_noon(double hours)
{
    return 12 - hours / 2;
}

enum tc_status tc_light_by_hour(double begin, double hours, double share[24])
{
    if (!(begin >= 0 && begin < 24) || !(hours >= 0 && hours <= 24))
        return TC_RANGE;
    double end = begin + hours;
    for (int hour = 0; hour < 24; hour++) {
        /* What of the light falls in this hour of the first day, and of the day after. */
        double today = fmin(end, hour + 1) - fmax(begin, hour);
        double later = fmin(end, hour + 25) - (hour + 24);
        share[hour] = fmax(today, 0) + fmax(later, 0);
    }
    return TC_OK;
}

double tc_light_critical_angle(double index)
{
    return asin(1 / index);
}

double tc_light_grazing_angle(double index)
{
    return asin(sqrt(fmin(index * index - 1, 1)));
}
