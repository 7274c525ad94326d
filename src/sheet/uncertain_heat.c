/* SPDX-License-Identifier: MIT */
#include "sheet/uncertain_heat.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/parallel.h"
#include "core/cost/cost.h"
#include "core/cost/lattice.h"

/* What a cost takes of a year: by month the heater, what evaporates and what the room gets; the heater by
 * hour. */
enum { BY_MONTH = 3 * TC_MONTHS, YEAR = BY_MONTH + TC_MONTHS * TC_HOURS };

/* Draws that are worked out both ways. */
enum { PROBES = 64, PROBE_SEED = 1 };

/* How many places each figure has, by the number of figures. */
static const int places_of[TC_NET_FIGURES + 1] = {0, 65, 25, 13, 7};

/* One alternative whose net is being made. */
struct making {
    struct tc_uncertain *uncertain;
    int index;
    int draws;
    double *values; /* of all figures, the middle but for those of the net */
    enum tc_status status;
};

static size_t node_count(const struct tc_heat_net *net)
{
    size_t count = 1;
    for (int k = 0; k < net->figures; k++)
        count *= (size_t)net->places;
    return count;
}

/* ------------------------------------------------------------------------------ reading */

/* The corners of the cell that a draw lies in, and their weights: 2 for each figure. */
struct cell {
    size_t corner[1 << TC_NET_FIGURES];
    double weight[1 << TC_NET_FIGURES];
    int corners;
};

static void find_cell(const struct tc_heat_net *net, const double values[], struct cell *cell)
{
    size_t stride = 1;
    cell->corners = 1;
    cell->corner[0] = 0;
    cell->weight[0] = 1;
    for (int k = 0; k < net->figures; k++) {
        double along = (values[net->figure[k]] - net->low[k]) / net->step[k];
        int place = along > 0 ? (int)along : 0;
        if (place > net->places - 2)
            place = net->places - 2;
        double share = along - place;
        for (int i = 0; i < cell->corners; i++) {
            cell->corner[i] += (size_t)place * stride;
            cell->corner[i + cell->corners] = cell->corner[i] + stride;
            cell->weight[i + cell->corners] = cell->weight[i] * share;
            cell->weight[i] *= 1 - share;
        }
        cell->corners *= 2;
        stride *= (size_t)net->places;
    }
}

bool tc_heat_net_read(const struct tc_heat_net *net, const struct tc_varied *varied, const double values[],
                      struct tc_known_heat *heat)
{
    struct cell cell;
    double year[YEAR];
    bool hours = tc_tariff_by_hour(varied->prices.electricity);
    if (net->figures == 0 || (hours && net->width < YEAR))
        return false;
    const int parts = hours ? YEAR : BY_MONTH;
    find_cell(net, values, &cell);
    memset(year, 0, (size_t)parts * sizeof *year);
    for (int i = 0; i < cell.corners; i++) {
        const double *from = &net->years[cell.corner[i] * net->width];
        double weight = cell.weight[i];
        for (int part = 0; part < parts; part++)
            year[part] += weight * from[part];
    }
    heat->c = tc_equipment_heat(&varied->c, &varied->equipment);
    memcpy(heat->year.heater_month, year, sizeof heat->year.heater_month);
    memcpy(heat->year.evaporated, year + TC_MONTHS, sizeof heat->year.evaporated);
    memcpy(heat->year.dry_month, year + 2 * TC_MONTHS, sizeof heat->year.dry_month);
    if (hours)
        memcpy(heat->year.heater, year + BY_MONTH, sizeof heat->year.heater);
    return true;
}

/* ------------------------------------------------------------------------------- making */

/* The alternative at the values, and its heat case. */
static enum tc_status vary(const struct making *making, struct tc_varied *varied,
                           struct tc_uncertain_shared *shared, struct tc_heat_case *heat)
{
    tc_uncertain_share(making->uncertain, making->values, shared);
    enum tc_status status =
        tc_uncertain_vary(making->uncertain, making->index, making->values, shared, varied);
    if (status == TC_OK)
        *heat = tc_equipment_heat(&varied->c, &varied->equipment);
    return status;
}

/* Whether the heat case with a figure at a value is another than that of the study. */
static bool moves(const struct making *making, int figure, double value)
{
    const struct tc_heat_case *middle = &making->uncertain->heats[making->index].c;
    struct tc_uncertain_shared shared;
    struct tc_varied varied;
    struct tc_heat_case heat;
    double was = making->values[figure];
    making->values[figure] = value;
    enum tc_status status = vary(making, &varied, &shared, &heat);
    making->values[figure] = was;
    return status != TC_OK || !tc_equipment_same_heat(&heat, middle);
}

/* Finds the figures of the net; false where it has too many, or none. */
static bool find_figures(const struct making *making, struct tc_heat_net *net)
{
    const struct tc_spread *spreads = making->uncertain->spreads;
    for (int f = 0; f < making->uncertain->count; f++) {
        if (!moves(making, f, spreads[f].low) && !moves(making, f, spreads[f].high))
            continue;
        if (net->figures == TC_NET_FIGURES)
            return false;
        net->figure[net->figures] = f;
        net->low[net->figures++] = spreads[f].low;
    }
    net->places = places_of[net->figures];
    for (int k = 0; k < net->figures; k++)
        net->step[k] = (spreads[net->figure[k]].high - net->low[k]) / (net->places - 1);
    return net->figures > 0;
}

static enum tc_status fill_node(const struct making *making, const struct tc_heat_net *net, size_t node)
{
    struct tc_uncertain_shared shared;
    struct tc_varied varied;
    struct tc_heat_case heat;
    struct tc_heat_year year;
    size_t rest = node;
    for (int k = 0; k < net->figures; k++) {
        making->values[net->figure[k]] = net->low[k] + net->step[k] * (double)(rest % (size_t)net->places);
        rest /= (size_t)net->places;
    }
    enum tc_status status = vary(making, &varied, &shared, &heat);
    if (status == TC_OK)
        status = tc_heat_year(&heat, &year);
    if (status != TC_OK)
        return status;
    double *to = &net->years[node * net->width];
    memcpy(to, year.heater_month, sizeof year.heater_month);
    memcpy(to + TC_MONTHS, year.evaporated, sizeof year.evaporated);
    memcpy(to + 2 * TC_MONTHS, year.dry_month, sizeof year.dry_month);
    if (net->width == YEAR)
        memcpy(to + BY_MONTH, year.heater, sizeof year.heater);
    return TC_OK;
}

/* A draw worked out both ways; false where it cannot be. */
static bool probe(const struct making *making, const struct tc_heat_net *net, double *exact, double *read)
{
    struct tc_uncertain_shared shared;
    struct tc_varied varied;
    struct tc_heat_case heat;
    struct tc_known_heat known;
    if (vary(making, &varied, &shared, &heat) != TC_OK ||
        tc_cost_value(&varied.c, &varied.equipment, &varied.prices, exact) != TC_OK ||
        !tc_heat_net_read(net, &varied, making->values, &known))
        return false;
    varied.c.known = &known;
    return tc_cost_value(&varied.c, &varied.equipment, &varied.prices, read) == TC_OK;
}

/* Whether the costs of some draws are near enough the same with the net and without it. */
static bool holds(const struct making *making, const struct tc_heat_net *net)
{
    const struct tc_uncertain *uncertain = making->uncertain;
    double least = INFINITY, greatest = -INFINITY, missed = 0, worst = 0;
    struct tc_lattice lattice;
    tc_lattice_start(&lattice, uncertain->spreads, uncertain->count, PROBE_SEED, 0);
    for (int n = 0; n < PROBES; n++) {
        double exact, read;
        for (int f = 0, k = 0; f < uncertain->count; f++)
            if (uncertain->spreads[f].shape != TC_SPREAD_FIXED)
                making->values[f] = tc_lattice_draw(&lattice, k++, &uncertain->spreads[f]);
        if (!probe(making, net, &exact, &read))
            return false;
        least = fmin(least, exact);
        greatest = fmax(greatest, exact);
        missed += (read - exact) / PROBES;
        worst = fmax(worst, fabs(read - exact));
    }
    double range = greatest - least;
    return worst <= TC_NET_ERROR * range && fabs(missed) <= TC_NET_BIAS * range;
}

static void drop(struct tc_heat_net *net)
{
    free(net->years);
    *net = (struct tc_heat_net){.figures = 0};
}

static enum tc_status make_net(struct making *making, struct tc_heat_net *net)
{
    const struct tc_uncertain *uncertain = making->uncertain;
    if (!find_figures(making, net) || 2 * node_count(net) > (size_t)making->draws) {
        drop(net);
        return TC_OK;
    }
    net->width =
        uncertain->tariffs_vary || tc_tariff_by_hour(&uncertain->study->electricity) ? YEAR : BY_MONTH;
    net->years = malloc(node_count(net) * net->width * sizeof *net->years);
    if (!net->years)
        return TC_NO_MEMORY;
    enum tc_status status = TC_OK;
    for (size_t node = 0; node < node_count(net) && status == TC_OK; node++)
        status = fill_node(making, net, node);
    if (status != TC_OK || !holds(making, net))
        drop(net);
    return TC_OK;
}

static void make_one(void *context, int index, struct tc_parallel *parallel)
{
    struct making *making = (struct making *)context + index;
    struct tc_uncertain *uncertain = making->uncertain;
    making->values = calloc((size_t)uncertain->count + 1, sizeof *making->values);
    making->status = TC_NO_MEMORY;
    (void)parallel;
    if (!making->values)
        return;
    for (int f = 0; f < uncertain->count; f++)
        making->values[f] = tc_spread_middle(&uncertain->spreads[f]);
    making->status = make_net(making, &uncertain->nets[index]);
    free(making->values);
}

enum tc_status tc_heat_nets_make(struct tc_uncertain *uncertain, int draws, int threads)
{
    struct making making[TC_CANDIDATES_MAX];
    enum tc_status status = TC_OK;
    int count = uncertain->study->alternative_count;
    struct tc_heat_net *nets = calloc((size_t)count + 1, sizeof *nets);
    if (!nets)
        return TC_NO_MEMORY;
    uncertain->nets = nets;
    for (int i = 0; i < count; i++)
        making[i] = (struct making){uncertain, i, draws, NULL, TC_OK};
    tc_parallel_run(threads, count, make_one, making, NULL, NULL);
    for (int i = 0; i < count && status == TC_OK; i++)
        status = making[i].status;
    return status;
}

void tc_heat_nets_free(struct tc_uncertain *uncertain)
{
    for (int i = 0; uncertain->nets && i < uncertain->study->alternative_count; i++)
        drop(&uncertain->nets[i]);
    free(uncertain->nets);
    uncertain->nets = NULL;
}
