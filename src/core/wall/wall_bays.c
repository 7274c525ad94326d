/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_bays.h"

#include <stdlib.h>

#include "core/base/grow.h"

/* Where a bay of this many tanks needs neither fewer columns nor fewer tiers, it is a kind of its own. */
static int least_tanks(int columns, int tiers)
{
    int without_column = (columns - 1) * tiers;
    int without_tier = columns * (tiers - 1);
    return 1 + (without_column > without_tier ? without_column : without_tier);
}

static enum tc_status add_kinds(const struct tc_wall *wall, const struct tc_wall_stand *stand, bool end_on,
                                struct tc_wall_ways *w)
{
    enum tc_status status = TC_OK;
    int64_t room = tc_wall_length_units(wall);
    for (int columns = 1; columns <= stand->columns && columns <= TC_WALL_BAY_COLUMNS_MAX; columns++) {
        int64_t length = tc_wall_bay_units(wall, stand->width, columns);
        if (length > room)
            break;
        for (int tiers = 1; tiers <= stand->tiers; tiers++) {
            tc_money shelves = tc_money_times(wall->tier_price, tiers, &status);
            tc_money price = tc_money_add(wall->bay_price, shelves, &status);
            int most = columns * tiers < stand->tanks ? columns * tiers : stand->tanks;
            for (int tanks = least_tanks(columns, tiers); tanks <= most; tanks++)
                w->kinds[w->kind_count++] =
                    (struct tc_wall_bay_kind){end_on, columns, tiers, tanks, length, price};
        }
    }
    return status;
}

/* Kinds that another of as many tanks beats or equals are dropped; of equals the first stays. */
static void drop_beaten_kinds(struct tc_wall_ways *w)
{
    int kept = 0;
    for (int b = 0; b < w->kind_count; b++) {
        const struct tc_wall_bay_kind *kb = &w->kinds[b];
        bool beaten = false;
        for (int a = 0; !beaten && a < w->kind_count; a++) {
            /* Kinds in front of b that were dropped have been overwritten; who beat them beats b as well. */
            if (a == b || (a >= kept && a < b))
                continue;
            const struct tc_wall_bay_kind *ka = &w->kinds[a];
            bool equal = ka->length == kb->length && ka->price == kb->price;
            beaten = ka->tanks == kb->tanks && ka->length <= kb->length && ka->price <= kb->price &&
                     (!equal || a < b);
        }
        if (!beaten)
            w->kinds[kept++] = *kb;
    }
    w->kind_count = kept;
}

static enum tc_status find_kinds(const struct tc_wall *wall, const struct tc_wall_model *model,
                                 struct tc_wall_ways *w)
{
    struct tc_wall_stand stands[2];
    size_t room = 1;
    bool square = tc_wall_units_up(model->length) == tc_wall_units_up(model->width);
    for (int k = 0; k < 2; k++) {
        tc_wall_stand(wall, model, k == 1, &stands[k]);
        int columns = stands[k].columns;
        if (columns > TC_WALL_BAY_COLUMNS_MAX)
            columns = TC_WALL_BAY_COLUMNS_MAX;
        /* columns x tiers shapes, each with at most as many numbers of tanks as its longer side. */
        int side = columns > stands[k].tiers ? columns : stands[k].tiers;
        room += (size_t)columns * (size_t)stands[k].tiers * (size_t)side;
    }
    w->kinds = calloc(room, sizeof *w->kinds);
    if (!w->kinds)
        return TC_NO_MEMORY;
    enum tc_status status = TC_OK;
    for (int k = 0; status == TC_OK && k < (square ? 1 : 2); k++)
        status = add_kinds(wall, &stands[k], k == 1, w);
    drop_beaten_kinds(w);
    return status;
}

/* Adds a way behind the others unless one of the same number, from `from` on, beats or equals it. */
static enum tc_status add_way(struct tc_wall_ways *w, int from, const struct tc_wall_way *way)
{
    for (int k = from; k < w->way_count; k++)
        if (w->ways[k].length <= way->length && w->ways[k].price <= way->price)
            return TC_OK;
    int kept = from;
    for (int k = from; k < w->way_count; k++)
        if (w->ways[k].length < way->length || w->ways[k].price < way->price)
            w->ways[kept++] = w->ways[k];
    w->way_count = kept;
    struct tc_wall_way *ways = tc_grow(w->ways, (size_t)w->way_count, &w->way_capacity, sizeof *ways);
    if (!ways)
        return TC_NO_MEMORY;
    w->ways = ways;
    w->ways[w->way_count++] = *way;
    return TC_OK;
}

/* All ways to stand `tanks` tanks; first[n] is the first way of n tanks. */
static enum tc_status add_ways(struct tc_wall_ways *w, const int *first, int tanks, int64_t room)
{
    enum tc_status status = TC_OK;
    int from = w->way_count;
    for (int k = 0; status == TC_OK && k < w->kind_count; k++) {
        const struct tc_wall_bay_kind *kind = &w->kinds[k];
        if (kind->tanks > tanks)
            continue;
        int rest = tanks - kind->tanks;
        for (int b = first[rest]; status == TC_OK && b < first[rest + 1]; b++) {
            struct tc_wall_way way = {
                .tanks = tanks,
                .length = w->ways[b].length + kind->length,
                .price = tc_money_add(w->ways[b].price, kind->price, &status),
                .bays = w->ways[b].bays + 1,
                .kind = k,
                .before = b,
            };
            if (status == TC_OK && way.length <= room)
                status = add_way(w, from, &way);
        }
    }
    return status;
}

/* No more tanks than this fit in the length, whichever bays are used: the densest kind all along. */
static int64_t most_by_length(const struct tc_wall_ways *w, int64_t room)
{
    int64_t most = 0;
    for (int k = 0; k < w->kind_count; k++) {
        int64_t length = w->kinds[k].length; /* never 0: a tank is 1 mm wide at least */
        int64_t tanks = length > 0 ? room * w->kinds[k].tanks / length : 0;
        most = tanks > most ? tanks : most;
    }
    return most;
}

/* The ways of one number of tanks after the other, up to the first that does not fit. */
static enum tc_status add_all_ways(struct tc_wall_ways *w, int most, int64_t room)
{
    const struct tc_wall_way none = {.kind = -1, .before = -1};
    int *first = calloc((size_t)most + 2, sizeof *first);
    if (!first)
        return TC_NO_MEMORY;
    enum tc_status status = add_way(w, 0, &none);
    for (int tanks = 1; status == TC_OK && tanks <= most; tanks++) {
        int from = w->way_count;
        first[tanks] = from;
        status = add_ways(w, first, tanks, room);
        if (w->way_count == from)
            break; /* one tank fewer is never longer, so no larger number fits either */
    }
    free(first);
    return status;
}

enum tc_status tc_wall_ways_create(const struct tc_wall *wall, const struct tc_wall_model *model, int most,
                                   struct tc_wall_ways *ways)
{
    *ways = (struct tc_wall_ways){0};
    int64_t room = tc_wall_length_units(wall);
    enum tc_status status = find_kinds(wall, model, ways);
    if (status == TC_OK) {
        int64_t fitting = most_by_length(ways, room);
        most = fitting < most ? (int)fitting : most;
        status = most <= TC_WALL_TANKS_MAX ? add_all_ways(ways, most, room) : TC_RANGE;
    }
    if (status != TC_OK)
        tc_wall_ways_free(ways);
    return status;
}

void tc_wall_ways_free(struct tc_wall_ways *ways)
{
    free(ways->kinds);
    free(ways->ways);
    *ways = (struct tc_wall_ways){0};
}
