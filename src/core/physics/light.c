/* SPDX-License-Identifier: MIT */
#include "core/physics/light.h"

#include <math.h>

#define MOST_ROWS 1000

static bool is_share(double value)
{
    return value >= 0 && value <= 1;
}

/* Neither negative nor so large that products leave the range of a double. */
static bool is_amount(double value)
{
    return value >= 0 && value <= 1e12;
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
    if (transmission(path, &share) != TC_OK || !is_amount(ppf))
        return TC_RANGE;
    *ppfd = ppf * share / path->area;
    return TC_OK;
}

enum tc_status tc_light_needed_ppf(const struct tc_light_path *path, double ppfd, double *ppf)
{
    double share;
    if (transmission(path, &share) != TC_OK || !is_amount(ppfd))
        return TC_RANGE;
    *ppf = ppfd == 0 ? 0 : ppfd * path->area / share;
    return isfinite(*ppf) ? TC_OK : TC_NO_RESULT;
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
    /* A width that is a hair over a whole number of strips is that number. */
    double exact = ceil(width / tc_light_row_width(height, uniformity) - 1e-9);
    if (!(exact <= MOST_ROWS))
        return TC_RANGE;
    *rows = exact < 1 ? 1 : (int)exact;
    return TC_OK;
}

bool tc_light_is_on(double begin, double hours, double time)
{
    double end = begin + hours;
    return (time >= begin && time < end) || time + 24 < end;
}
