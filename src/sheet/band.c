/* SPDX-License-Identifier: MIT */
#include "sheet/band.h"

#include <math.h>
#include <stdlib.h>

#include "core/base/summary.h"
#include "sheet/uncertain.h"

enum { POINTS = 199 };

/* The i-th prime, counted from 0. */
static int prime(int i)
{
    int candidate = 2;
    for (;; candidate++) {
        bool divided = false;
        for (int d = 2; d * d <= candidate && !divided; d++)
            divided = candidate % d == 0;
        if (!divided && i-- == 0)
            return candidate;
    }
}

/* Costs of all alternatives at all points: cost[alternative * POINTS + point]. */
static void spread_points(struct tc_uncertain *uncertain, double *steps, double *values, double *cost)
{
    double costs[TC_CANDIDATES_MAX];
    for (int f = 0; f < uncertain->count; f++)
        steps[f] = sqrt(prime(f));
    for (int point = 0; point < POINTS; point++) {
        for (int f = 0; f < uncertain->count; f++) {
            double turns = (point + 0.5) * steps[f];
            values[f] = tc_spread_quantile(&uncertain->spreads[f], turns - floor(turns));
        }
        tc_uncertain_costs(uncertain, values, costs);
        for (int i = 0; i < uncertain->study->alternative_count; i++)
            cost[i * POINTS + point] = costs[i];
    }
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static bool all_finite(const double *cost)
{
    for (int point = 0; point < POINTS; point++)
        if (!isfinite(cost[point]))
            return false;
    return true;
}

/* How often each alternative is the cheaper of two; a draw that makes them equal counts half for each. */
static void read_chances(const double *cost, int count, struct tc_bands *bands)
{
    for (int i = 0; i < count; i++)
        for (int j = 0; j < count; j++) {
            const double *a = &cost[i * POINTS], *b = &cost[j * POINTS];
            double cheaper = 0;
            if (i == j || !all_finite(a) || !all_finite(b))
                continue;
            for (int point = 0; point < POINTS; point++)
                cheaper += a[point] < b[point] ? 1 : a[point] == b[point] ? 0.5 : 0;
            bands->chance[i][j] = cheaper / POINTS;
        }
}

static enum tc_status read_bands(double *cost, int count, struct tc_bands *bands)
{
    enum tc_status status = TC_OK;
    read_chances(cost, count, bands);
    for (int i = 0; i < count; i++) {
        double *own = &cost[i * POINTS];
        struct tc_band *band = &bands->band[i];
        if (!all_finite(own))
            continue;
        qsort(own, POINTS, sizeof *own, ascending);
        band->low = tc_money_round(tc_percentile(own, POINTS, 0.1), &status);
        band->high = tc_money_round(tc_percentile(own, POINTS, 0.9), &status);
        band->known = band->low < band->high;
    }
    return status;
}

enum tc_status tc_bands_find(struct tc_bands *bands, const struct tc_study *study)
{
    struct tc_uncertain uncertain;
    for (int i = 0; i < TC_CANDIDATES_MAX; i++) {
        bands->band[i] = (struct tc_band){.known = false};
        for (int j = 0; j < TC_CANDIDATES_MAX; j++)
            bands->chance[i][j] = NAN;
    }
    if (study->alternative_count > 0 && study->alternatives[0].index < 0)
        return TC_OK; /* walls, whose tanks are many */
    enum tc_status status = tc_uncertain_find(&uncertain, study);
    if (status == TC_OK && uncertain.count > 0) {
        size_t count = (size_t)uncertain.count, alternatives = (size_t)study->alternative_count;
        double *steps = calloc(count, sizeof *steps), *values = calloc(count, sizeof *values);
        double *cost = calloc(alternatives ? alternatives * POINTS : 1, sizeof *cost);
        if (steps && values && cost) {
            spread_points(&uncertain, steps, values, cost);
            status = read_bands(cost, study->alternative_count, bands);
        } else {
            status = TC_NO_MEMORY;
        }
        free(steps);
        free(values);
        free(cost);
    }
    tc_uncertain_free(&uncertain);
    return status;
}
