/* SPDX-License-Identifier: MIT */
#include "core/wall/wall_pattern.h"

#include <math.h>
#include <stdlib.h>

#include "core/base/grow.h"

enum { MANY_TANKS = 10000 };

static double or_none(double limit)
{
    return limit > 0 ? limit * (1 + TC_WALL_LOAD_TOLERANCE) : INFINITY;
}

static void add_piece(const struct tc_wall *wall, const struct tc_wall_model *models, int model, bool end_on,
                      struct tc_wall_frame *frame)
{
    struct tc_wall_stand stand;
    const struct tc_wall_model *m = &models[model];
    tc_wall_stand(wall, m, end_on, &stand);
    if (stand.obstacle != TC_WALL_FITS || m->most == 0)
        return;
    frame->piece[frame->count++] = (struct tc_wall_piece){
        .model = model,
        .end_on = end_on,
        .width = tc_wall_units_up(stand.width) + tc_wall_units_up(wall->gap),
        .height =
            tc_wall_units_up(m->height) + tc_wall_units_up(wall->access) + tc_wall_units_up(wall->shelf),
        .mass = m->mass,
        .pressure = tc_wall_pressure(wall, &stand, m->mass, 1),
    };
}

/* Numbers the heights, rising. */
static void find_classes(struct tc_wall_frame *frame)
{
    for (int i = 0; i < frame->count; i++) {
        int64_t height = frame->piece[i].height;
        int k = 0;
        while (k < frame->classes && frame->height_of[k] < height)
            k++;
        if (k < frame->classes && frame->height_of[k] == height)
            continue;
        for (int j = frame->classes++; j > k; j--)
            frame->height_of[j] = frame->height_of[j - 1];
        frame->height_of[k] = height;
    }
    for (int i = 0; i < frame->count; i++)
        while (frame->height_of[frame->piece[i].class] != frame->piece[i].height)
            frame->piece[i].class ++;
}

void tc_wall_frame_make(const struct tc_wall *whole, int stretch, const struct tc_wall_model *models,
                        int count, struct tc_wall_frame *frame)
{
    struct tc_wall alone = tc_wall_of_stretch(whole, stretch);
    const struct tc_wall *wall = &alone;
    int64_t gap = tc_wall_units_up(wall->gap);
    bool posts = wall->post > 0;
    *frame = (struct tc_wall_frame){
        .length = tc_wall_length_units(wall),
        .own = posts ? gap + tc_wall_units_up(wall->post) : 0,
        .row_tanks = wall->bay_length > 0 ? MANY_TANKS : 1,
        .height =
            tc_wall_units_down(wall->height) - tc_wall_units_up(wall->lowest) + tc_wall_units_up(wall->shelf),
        .tiers = wall->tiers > 0 && wall->tiers < TC_WALL_TIERS_MAX ? wall->tiers : TC_WALL_TIERS_MAX,
        .row_mass = or_none(wall->tier_rating),
        .bay_mass = or_none(wall->bay_rating),
        .pressure = or_none(wall->floor_limit),
    };
    frame->row_width = frame->length - frame->own;
    if (wall->bay_length > 0) {
        /* Between uprights there is one gap more than tanks; without them one less. */
        int64_t bay = tc_wall_units_down(wall->bay_length) + (posts ? -gap : gap);
        frame->row_width = bay < frame->row_width ? bay : frame->row_width;
    }
    for (int i = 0; i < count; i++) {
        add_piece(wall, models, i, false, frame);
        if (tc_wall_units_up(models[i].length) != tc_wall_units_up(models[i].width))
            add_piece(wall, models, i, true, frame);
    }
    find_classes(frame);
}

struct tc_wall_pattern *tc_wall_patterns_add(struct tc_wall_patterns *p, int tanks)
{
    struct tc_wall_pattern *patterns = tc_grow(p->pattern, (size_t)p->count, &p->capacity, sizeof *patterns);
    if (!patterns)
        return NULL;
    p->pattern = patterns;
    if (p->spots + tanks > p->spots_capacity) {
        int capacity = 2 * p->spots_capacity + tanks + 256;
        struct tc_wall_spot *grown = realloc(p->spot, (size_t)capacity * sizeof *grown);
        if (!grown)
            return NULL;
        p->spot = grown;
        p->spots_capacity = capacity;
    }
    struct tc_wall_pattern *added = &p->pattern[p->count++];
    *added = (struct tc_wall_pattern){.first = p->spots, .tanks = tanks};
    p->spots += tanks;
    return added;
}

void tc_wall_patterns_free(struct tc_wall_patterns *patterns)
{
    free(patterns->pattern);
    free(patterns->spot);
    *patterns = (struct tc_wall_patterns){0};
}
