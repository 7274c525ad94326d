/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_place.h"

#include <stdlib.h>

/* What is placed so far: the next bay starts at `at`, in whole units. */
struct placing {
    const struct tc_wall *wall;
    const struct tc_wall_model *models;
    struct tc_wall_mix *mix;
    int64_t at;
};

static void place_bay(struct placing *p, int model, const struct tc_wall_bay_kind *kind)
{
    const struct tc_wall *wall = p->wall;
    const struct tc_wall_model *m = &p->models[model];
    struct tc_wall_stand stand;
    tc_wall_stand(wall, m, kind->end_on, &stand);
    int64_t gap = tc_wall_units_up(wall->gap);
    int64_t post = tc_wall_units_up(wall->post);
    int64_t width = tc_wall_units_up(stand.width);
    int64_t clear = kind->length - (wall->post > 0 ? post : gap);
    struct tc_wall_bay *bay = &p->mix->bay[p->mix->bays];
    *bay = (struct tc_wall_bay){
        .model = model,
        .end_on = kind->end_on,
        .first = p->mix->columns,
        .columns = kind->columns,
        .tiers = kind->tiers,
        .tanks = kind->tanks,
        .x = tc_wall_metres(p->at),
        .width = tc_wall_metres(clear),
        .mass = kind->tanks * m->mass,
        .tier_mass = kind->columns * m->mass,
    };
    int64_t x = p->at + (wall->post > 0 ? gap : 0);
    int left = kind->tanks;
    for (int c = 0; c < kind->columns; c++) {
        int tiers = left < kind->tiers ? left : kind->tiers;
        double pressure = tc_wall_pressure(wall, &stand, m->mass, tiers);
        p->mix->column[p->mix->columns++] = (struct tc_wall_column){
            .model = model,
            .bay = p->mix->bays,
            .end_on = kind->end_on,
            .tiers = tiers,
            .x = tc_wall_metres(x),
            .width = stand.width,
            .depth = stand.depth,
            .pressure = pressure,
        };
        if (pressure > p->mix->pressure)
            p->mix->pressure = pressure;
        left -= tiers;
        x += width + gap;
    }
    p->mix->bays++;
    p->at += kind->length;
}

/* Fullest bays first; then those along the wall; then the wider ones. */
static bool stands_before(const struct tc_wall_bay_kind *a, const struct tc_wall_bay_kind *b)
{
    if (a->tanks != b->tanks)
        return a->tanks > b->tanks;
    if (a->end_on != b->end_on)
        return !a->end_on;
    return a->columns > b->columns;
}

/* Writes the kinds of the bays of a way, in the order they are placed; returns how many. */
static int list_bays(const struct tc_wall_ways *ways, int way, const struct tc_wall_bay_kind **list)
{
    int count = 0;
    for (; ways->ways[way].before >= 0; way = ways->ways[way].before) {
        const struct tc_wall_bay_kind *kind = &ways->kinds[ways->ways[way].kind];
        int k = count++;
        for (; k > 0 && stands_before(kind, list[k - 1]); k--)
            list[k] = list[k - 1];
        list[k] = kind;
    }
    return count;
}

static void count_bays(const struct tc_wall_knapsack *choices, const int *picked, size_t *bays,
                       size_t *columns)
{
    *bays = *columns = 0;
    for (int i = 0; i < choices->models; i++) {
        const struct tc_wall_ways *ways = &choices->ways[i];
        int way = choices->choice[picked[i]].way;
        for (; ways->ways[way].before >= 0; way = ways->ways[way].before) {
            *bays += 1;
            *columns += (size_t)ways->kinds[ways->ways[way].kind].columns;
        }
    }
}

static enum tc_status sum_up(struct placing *p, const struct tc_wall_knapsack *choices, const int *picked)
{
    struct tc_wall_mix *mix = p->mix;
    enum tc_status status = TC_OK;
    for (int i = 0; i < choices->models; i++) {
        const struct tc_wall_model *m = &p->models[i];
        int n = (int)choices->choice[picked[i]].figure[TC_WALL_TANKS];
        mix->count[i] = n;
        mix->on_sale[i] = n < m->sale_most ? n : m->sale_most;
        mix->tanks += n;
        mix->area += n * m->area;
        mix->volume += n * m->volume;
        mix->mass += n * m->mass;
        mix->power += n * m->power;
        mix->rack =
            tc_money_add(mix->rack, choices->ways[i].ways[choices->choice[picked[i]].way].price, &status);
    }
    for (int k = 0; k < 2; k++)
        mix->cost[k] = tc_wall_knapsack_sum(choices, picked, (enum tc_wall_quantity)(TC_WALL_COST + k));
    return status;
}

enum tc_status tc_wall_place(const struct tc_wall *wall, const struct tc_wall_model *models,
                             const struct tc_wall_knapsack *choices, const int *picked,
                             struct tc_wall_mix *mix)
{
    size_t bays;
    size_t columns;
    count_bays(choices, picked, &bays, &columns);
    mix->models = choices->models;
    mix->count = calloc((size_t)choices->models + 1, sizeof *mix->count);
    mix->on_sale = calloc((size_t)choices->models + 1, sizeof *mix->on_sale);
    mix->column = calloc(columns + 1, sizeof *mix->column);
    mix->bay = calloc(bays + 1, sizeof *mix->bay);
    const struct tc_wall_bay_kind **list = calloc(bays + 1, sizeof *list);
    if (!mix->count || !mix->on_sale || !mix->column || !mix->bay || !list) {
        free(list);
        return TC_NO_MEMORY;
    }
    struct placing p = {wall, models, mix, wall->post > 0 ? tc_wall_units_up(wall->post) : 0};
    for (int i = 0; i < choices->models; i++) {
        int count = list_bays(&choices->ways[i], choices->choice[picked[i]].way, list);
        for (int k = 0; k < count; k++)
            place_bay(&p, i, list[k]);
    }
    free(list);
    /* Without uprights the last tank is followed by a gap that is not needed. */
    if (mix->bays > 0)
        mix->length = tc_wall_metres(wall->post > 0 ? p.at : p.at - tc_wall_units_up(wall->gap));
    return sum_up(&p, choices, picked);
}
