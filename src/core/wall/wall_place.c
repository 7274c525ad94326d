/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_place.h"

#include <math.h>
#include <stdlib.h>

/* Where the next bay of a stretch starts, in whole units. */
struct placing {
    const struct tc_wall *wall;
    const struct tc_wall_model *models;
    const struct tc_wall_bays *bays;
    const struct tc_wall_frame *frame;
    struct tc_wall_mix *mix;
    int64_t at;
    int tanks; /* placed */
};

static double mass_of(const struct placing *p, int bay)
{
    const struct tc_wall_pattern *pattern = &p->bays->patterns.pattern[bay];
    double mass = 0;
    for (int k = 0; k < pattern->tanks; k++)
        mass += p->frame[pattern->frame].piece[p->bays->patterns.spot[pattern->first + k].piece].mass;
    return mass;
}

/* The order along the wall: stretches, circuits, the heaviest bays first. */
static bool stands_before(const struct placing *p, int a, int b)
{
    const struct tc_wall_pattern *x = &p->bays->patterns.pattern[a];
    const struct tc_wall_pattern *y = &p->bays->patterns.pattern[b];
    if (x->frame != y->frame)
        return x->frame < y->frame;
    if (p->bays->circuit[a] != p->bays->circuit[b])
        return p->bays->circuit[a] < p->bays->circuit[b];
    double more = mass_of(p, a) - mass_of(p, b);
    if (fabs(more) > 1e-9)
        return more > 0;
    return x->length != y->length ? x->length > y->length : x->tanks > y->tanks;
}

/* The tanks of one tier, from its first spot on, at height y; returns how many. */
static int place_tier(struct placing *p, const struct tc_wall_pattern *pattern, int first, double y)
{
    const struct tc_wall_frame *frame = &p->frame[pattern->frame];
    const struct tc_wall_spot *spot = &p->bays->patterns.spot[pattern->first];
    const struct tc_wall *wall = p->wall;
    struct tc_wall_bay *bay = &p->mix->bay[p->mix->bays];
    int64_t gap = tc_wall_units_up(wall->gap);
    int64_t x = p->at + (wall->post > 0 ? gap : 0);
    double mass = 0, pressure = 0;
    int k = first;
    for (; k < pattern->tanks && spot[k].tier == spot[first].tier; k++) {
        const struct tc_wall_piece *piece = &frame->piece[spot[k].piece];
        const struct tc_wall_model *m = &p->models[piece->model];
        p->mix->tank[p->tanks++] = (struct tc_wall_tank){
            .model = piece->model,
            .bay = p->mix->bays,
            .tier = spot[k].tier,
            .end_on = piece->end_on,
            .x = tc_wall_metres(x),
            .width = piece->end_on ? m->width : m->length,
            .y = y,
            .depth = piece->end_on ? m->length : m->width,
        };
        x += piece->width;
        mass += piece->mass;
        pressure = fmax(pressure, piece->pressure);
        bay->power += m->power;
        bay->height = fmax(bay->height, y + m->height + wall->access);
    }
    bay->mass += mass;
    bay->tier_mass = fmax(bay->tier_mass, mass);
    bay->pressure += pressure;
    return k - first;
}

static void place_bay(struct placing *p, int which)
{
    const struct tc_wall_pattern *pattern = &p->bays->patterns.pattern[which];
    const struct tc_wall_frame *frame = &p->frame[pattern->frame];
    const struct tc_wall *wall = p->wall;
    struct tc_wall_mix *mix = p->mix;
    struct tc_wall_bay *bay = &mix->bay[mix->bays];
    bool posts = wall->post > 0;
    int64_t behind = posts ? tc_wall_units_up(wall->post) : tc_wall_units_up(wall->gap);
    *bay = (struct tc_wall_bay){
        .stretch = pattern->frame,
        .circuit = p->bays->circuit[which],
        .first = p->tanks,
        .tanks = pattern->tanks,
        .tiers = pattern->tiers,
        .x = tc_wall_metres(p->at),
        .width = tc_wall_metres(pattern->length - behind),
    };
    double y = wall->lowest;
    for (int k = 0; k < pattern->tanks;) {
        int64_t highest = 0;
        const struct tc_wall_spot *spot = &p->bays->patterns.spot[pattern->first];
        for (int i = k; i < pattern->tanks && spot[i].tier == spot[k].tier; i++)
            if (frame->piece[spot[i].piece].height > highest)
                highest = frame->piece[spot[i].piece].height;
        k += place_tier(p, pattern, k, y);
        y += tc_wall_metres(highest);
    }
    mix->tiers = pattern->tiers > mix->tiers ? pattern->tiers : mix->tiers;
    mix->pressure = fmax(mix->pressure, bay->pressure);
    mix->power_on[bay->circuit] += bay->power;
    mix->bays++;
    p->at += pattern->length;
    mix->length[bay->stretch] = tc_wall_metres(posts ? p->at : p->at - behind);
}

static enum tc_status sum_up(const struct placing *p, int count)
{
    struct tc_wall_mix *mix = p->mix;
    enum tc_status status = TC_OK;
    int64_t figure[TC_WALL_QUANTITIES];
    tc_wall_bays_figures(p->wall, p->models, count, p->bays, figure, mix->count);
    for (int i = 0; i < count; i++) {
        const struct tc_wall_model *m = &p->models[i];
        int n = mix->count[i];
        mix->on_sale[i] = n < m->sale_most ? n : m->sale_most;
        mix->tanks += n;
        mix->area += n * m->area;
        mix->volume += n * m->volume;
        mix->mass += n * m->mass;
        mix->power += n * m->power;
    }
    for (int b = 0; b < mix->bays; b++) {
        tc_money shelves = tc_money_times(p->wall->tier_price, mix->bay[b].tiers, &status);
        mix->rack = tc_money_add(mix->rack, tc_money_add(p->wall->bay_price, shelves, &status), &status);
    }
    for (int k = 0; k < 2; k++)
        mix->cost[k] = figure[TC_WALL_COST + k];
    return status;
}

static void place_all(struct placing *p, int *order)
{
    int count = p->bays->patterns.count;
    for (int b = 0; b < count; b++) {
        int k = b;
        for (; k > 0 && stands_before(p, b, order[k - 1]); k--)
            order[k] = order[k - 1];
        order[k] = b;
    }
    for (int k = 0; k < count; k++) {
        if (k == 0 ||
            p->bays->patterns.pattern[order[k]].frame != p->bays->patterns.pattern[order[k - 1]].frame)
            p->at = p->wall->post > 0 ? tc_wall_units_up(p->wall->post) : 0;
        place_bay(p, order[k]);
    }
}

enum tc_status tc_wall_place(const struct tc_wall *wall, const struct tc_wall_model *models, int count,
                             const struct tc_wall_bays *bays, struct tc_wall_mix *mix)
{
    size_t n = (size_t)bays->patterns.count + 1;
    int stretches = 1 + wall->more_stretches;
    struct tc_wall_frame *frame = calloc((size_t)stretches, sizeof *frame);
    int *order = calloc(n, sizeof *order);
    mix->models = count;
    mix->count = calloc((size_t)count + 1, sizeof *mix->count);
    mix->on_sale = calloc((size_t)count + 1, sizeof *mix->on_sale);
    mix->tank = calloc((size_t)bays->patterns.spots + 1, sizeof *mix->tank);
    mix->bay = calloc(n, sizeof *mix->bay);
    struct placing p = {wall, models, bays, frame, mix, 0, 0};
    enum tc_status status = TC_NO_MEMORY;
    if (frame && order && mix->count && mix->on_sale && mix->tank && mix->bay) {
        for (int s = 0; s < stretches; s++)
            tc_wall_frame_make(wall, s, models, count, &frame[s]);
        place_all(&p, order);
        status = sum_up(&p, count);
    }
    free(frame);
    free(order);
    return status;
}
