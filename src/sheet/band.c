/* SPDX-License-Identifier: MIT */
#include "sheet/band.h"

#include <math.h>
#include <stdlib.h>

#include "core/base/order.h"
#include "core/base/summary.h"
#include "core/cost/uncertainty.h"
#include "sheet/uncertain.h"

/* Places on the way through each figure's range where the costs are looked at, its middle left out. */
enum { PLACES = 4, MIDDLE = PLACES / 2 };

/* Figures of which each two are looked at together, and the share of the way to their ends where. */
enum { TOGETHER = 6, PAIRS = TOGETHER * (TOGETHER - 1) / 2 };
#define FAR 0.75

/* Two figures, and by how much more they move the costs together than each alone: below and above the middle.
 */
struct pair {
    int first, second;
    double more[2][2][TC_CANDIDATES_MAX];
};

/* What the present values do along each figure alone, and along two. */
struct curves {
    const struct tc_uncertain *uncertain;
    struct pair pair[PAIRS];
    int pairs;
    double *at;                       /* [figure][PLACES + 1]: values, the middle among them */
    double *moved;                    /* [figure][PLACES + 1][alternative]: by how much the cost is moved */
    double middle[TC_CANDIDATES_MAX]; /* cost with every figure at its middle */
};

static double *moved_at(const struct curves *curves, int figure, int place)
{
    return &curves->moved[((size_t)figure * (PLACES + 1) + (size_t)place) * TC_CANDIDATES_MAX];
}

static void follow_figure(struct curves *curves, int figure, double values[])
{
    struct tc_uncertain *uncertain = (struct tc_uncertain *)curves->uncertain; /* read only, see there */
    const struct tc_spread *spread = &uncertain->spreads[figure];
    double middle = values[figure], *at = &curves->at[(size_t)figure * (PLACES + 1)];
    for (int place = 0; place <= PLACES; place++) {
        double *moved = moved_at(curves, figure, place), costs[TC_CANDIDATES_MAX];
        double end = place < MIDDLE ? spread->low : spread->high;
        at[place] = middle + (end - middle) * abs(place - MIDDLE) / MIDDLE;
        values[figure] = at[place];
        if (place == MIDDLE)
            continue;
        tc_uncertain_costs(uncertain, values, costs);
        for (int i = 0; i < uncertain->study->alternative_count; i++)
            moved[i] = costs[i] - curves->middle[i];
    }
    values[figure] = middle;
}

/* Between two places by a straight line. */
static void add_moved(const struct curves *curves, int figure, double value, double costs[])
{
    const double *at = &curves->at[(size_t)figure * (PLACES + 1)];
    int place = 0;
    while (place < PLACES - 1 && value > at[place + 1])
        place++;
    double step = at[place + 1] - at[place];
    double share = step > 0 ? (value - at[place]) / step : 0;
    const double *from = moved_at(curves, figure, place), *to = moved_at(curves, figure, place + 1);
    for (int i = 0; i < curves->uncertain->study->alternative_count; i++)
        costs[i] += from[i] + share * (to[i] - from[i]);
}

/* Where a figure is for its side of the middle: 0 there, 1 at the share FAR of the way to the end. */
static double way_of(const struct curves *curves, int figure, double value, int *side)
{
    const double *at = &curves->at[(size_t)figure * (PLACES + 1)];
    *side = value > at[MIDDLE];
    double end = FAR * (at[*side ? PLACES : 0] - at[MIDDLE]);
    return end != 0 ? (value - at[MIDDLE]) / end : 0;
}

/* Looks at one pair at its four corners. */
static void look_at_pair(const struct curves *curves, double values[], struct pair *pair)
{
    struct tc_uncertain *uncertain = (struct tc_uncertain *)curves->uncertain;
    int figure[2] = {pair->first, pair->second};
    double middle[2] = {values[figure[0]], values[figure[1]]};
    for (int corner = 0; corner < 4; corner++) {
        double costs[TC_CANDIDATES_MAX], alone[TC_CANDIDATES_MAX] = {0};
        for (int k = 0; k < 2; k++) {
            const double *at = &curves->at[(size_t)figure[k] * (PLACES + 1)];
            double end = at[(corner >> k) % 2 ? PLACES : 0];
            values[figure[k]] = middle[k] + FAR * (end - middle[k]);
            add_moved(curves, figure[k], values[figure[k]], alone);
        }
        tc_uncertain_costs(uncertain, values, costs);
        for (int i = 0; i < uncertain->study->alternative_count; i++)
            pair->more[corner % 2][corner / 2][i] = costs[i] - curves->middle[i] - alone[i];
    }
    values[figure[0]] = middle[0];
    values[figure[1]] = middle[1];
}

/* How far a figure moves the costs from end to end, all alternatives together. */
static double reach_of(const struct curves *curves, int figure)
{
    double sum = 0;
    for (int i = 0; i < curves->uncertain->study->alternative_count; i++)
        sum += fabs(moved_at(curves, figure, 0)[i]) + fabs(moved_at(curves, figure, PLACES)[i]);
    return isfinite(sum) ? sum : 0;
}

/* Pairs the figures that move the costs most. */
static void look_at_pairs(struct curves *curves, double values[])
{
    int most[TOGETHER], count = 0;
    double reach[TOGETHER];
    for (int f = 0; f < curves->uncertain->count; f++) {
        double own = reach_of(curves, f);
        int place = count < TOGETHER ? count++ : TOGETHER - 1;
        if (place == TOGETHER - 1 && count == TOGETHER && f >= TOGETHER && own <= reach[place])
            continue;
        for (; place > 0 && reach[place - 1] < own; place--) {
            reach[place] = reach[place - 1];
            most[place] = most[place - 1];
        }
        reach[place] = own;
        most[place] = f;
    }
    curves->pairs = 0;
    for (int i = 0; i < count; i++)
        for (int k = 0; k < i; k++) {
            struct pair *pair = &curves->pair[curves->pairs++];
            pair->first = most[i];
            pair->second = most[k];
            look_at_pair(curves, values, pair);
        }
}

/* The value of a figure at a point of the lattice. */
static double value_at(const struct tc_uncertain *uncertain, int figure, int point)
{
    int cell = (int)((long)tc_lattice_step(figure) * point % TC_UNCERTAINTY_CHUNK);
    return tc_spread_quantile(&uncertain->spreads[figure], (cell + 0.5) / TC_UNCERTAINTY_CHUNK);
}

/* Adds what two figures do together. */
static void spread_pair(const struct curves *curves, const struct pair *pair, double *cost)
{
    const struct tc_uncertain *uncertain = curves->uncertain;
    for (int point = 0; point < TC_UNCERTAINTY_CHUNK; point++) {
        int side[2];
        double share = way_of(curves, pair->first, value_at(uncertain, pair->first, point), &side[0]) *
                       way_of(curves, pair->second, value_at(uncertain, pair->second, point), &side[1]);
        for (int i = 0; i < uncertain->study->alternative_count; i++)
            cost[i * TC_UNCERTAINTY_CHUNK + point] += share * pair->more[side[0]][side[1]][i];
    }
}

/* Costs of all alternatives at all points of the lattice: cost[alternative * TC_UNCERTAINTY_CHUNK + point].
 */
static void spread_points(const struct curves *curves, double *cost)
{
    const struct tc_uncertain *uncertain = curves->uncertain;
    for (int i = 0; i < uncertain->study->alternative_count; i++)
        for (int point = 0; point < TC_UNCERTAINTY_CHUNK; point++)
            cost[i * TC_UNCERTAINTY_CHUNK + point] = curves->middle[i];
    for (int f = 0; f < uncertain->count; f++)
        for (int point = 0; point < TC_UNCERTAINTY_CHUNK; point++) {
            double costs[TC_CANDIDATES_MAX] = {0};
            add_moved(curves, f, value_at(uncertain, f, point), costs);
            for (int i = 0; i < uncertain->study->alternative_count; i++)
                cost[i * TC_UNCERTAINTY_CHUNK + point] += costs[i];
        }
    for (int i = 0; i < curves->pairs; i++)
        spread_pair(curves, &curves->pair[i], cost);
}

static bool all_finite(const double *cost)
{
    for (int point = 0; point < TC_UNCERTAINTY_CHUNK; point++)
        if (!isfinite(cost[point]))
            return false;
    return true;
}

/* How often each alternative is the cheaper of two; a draw that makes them equal counts half for each. */
static void read_chances(const double *cost, int count, struct tc_bands *bands)
{
    for (int i = 0; i < count; i++)
        for (int j = 0; j < count; j++) {
            const double *a = &cost[i * TC_UNCERTAINTY_CHUNK], *b = &cost[j * TC_UNCERTAINTY_CHUNK];
            double cheaper = 0;
            if (i == j || !all_finite(a) || !all_finite(b))
                continue;
            for (int point = 0; point < TC_UNCERTAINTY_CHUNK; point++)
                cheaper += a[point] < b[point] ? 1 : a[point] == b[point] ? 0.5 : 0;
            bands->chance[i][j] = cheaper / TC_UNCERTAINTY_CHUNK;
        }
}

static enum tc_status read_bands(double *cost, int count, struct tc_bands *bands)
{
    enum tc_status status = TC_OK;
    read_chances(cost, count, bands);
    for (int i = 0; i < count; i++) {
        double *own = &cost[i * TC_UNCERTAINTY_CHUNK];
        struct tc_band *band = &bands->band[i];
        if (!all_finite(own))
            continue;
        qsort(own, TC_UNCERTAINTY_CHUNK, sizeof *own, tc_ascending);
        band->low = tc_money_round(tc_percentile(own, TC_UNCERTAINTY_CHUNK, 0.1), &status);
        band->high = tc_money_round(tc_percentile(own, TC_UNCERTAINTY_CHUNK, 0.9), &status);
        band->known = band->low < band->high;
    }
    return status;
}

static enum tc_status find_bands(struct tc_uncertain *uncertain, struct tc_bands *bands)
{
    size_t figures = (size_t)uncertain->count, count = (size_t)uncertain->study->alternative_count;
    struct curves curves = {.uncertain = uncertain};
    curves.at = calloc(figures * (PLACES + 1), sizeof *curves.at);
    curves.moved = calloc(figures * (PLACES + 1) * TC_CANDIDATES_MAX, sizeof *curves.moved);
    double *values = calloc(figures, sizeof *values);
    double *cost = calloc((count + 1) * TC_UNCERTAINTY_CHUNK, sizeof *cost);
    enum tc_status status = TC_NO_MEMORY;
    if (curves.at && curves.moved && values && cost) {
        for (int f = 0; f < uncertain->count; f++)
            values[f] = tc_spread_middle(&uncertain->spreads[f]);
        tc_uncertain_costs(uncertain, values, curves.middle);
        for (int f = 0; f < uncertain->count; f++)
            follow_figure(&curves, f, values);
        look_at_pairs(&curves, values);
        spread_points(&curves, cost);
        status = read_bands(cost, uncertain->study->alternative_count, bands);
    }
    free(curves.at);
    free(curves.moved);
    free(values);
    free(cost);
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
    if (status == TC_OK && uncertain.count > 0)
        status = tc_uncertain_remember(&uncertain);
    if (status == TC_OK && uncertain.count > 0)
        status = find_bands(&uncertain, bands);
    tc_uncertain_free(&uncertain);
    return status;
}
