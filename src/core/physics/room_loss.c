/* SPDX-License-Identifier: MIT */
#include "core/physics/room_loss.h"

/* A U-value as it may be, W/(m2 K). */
struct span {
    double low, likely, high;
};

static const struct {
    struct span wall, window, roof;
} builds[TC_BUILD_COUNT] = {
    [TC_BUILD_OLD] = {{1.3, 1.7, 2.1}, {2.8, 3.0, 5.0}, {0.7, 1.5, 2.3}},
    [TC_BUILD_MIDDLING] = {{0.45, 0.6, 1.0}, {2.0, 2.8, 3.0}, {0.3, 0.4, 0.7}},
    [TC_BUILD_INSULATED] = {{0.2, 0.25, 0.3}, {1.1, 1.3, 1.6}, {0.13, 0.18, 0.25}},
};

/* Walls, floors and ceilings between rooms, and the share of them that counts. */
#define INSIDE_U 1.3
static const struct span inside_share = {0.25, 0.5, 1};

/* How far the air that is changed may be from what is said of it. */
static const struct span air_share = {0.6, 1, 1.5};

static bool within(double value, double low, double high)
{
    return value >= low && value <= high;
}

double tc_room_volume(const struct tc_room_shape *shape)
{
    return shape->length * shape->width * shape->height;
}

enum tc_status tc_room_loss_estimate(const struct tc_room_shape *shape, struct tc_room_loss *loss)
{
    if (!within(shape->length, 0.5, 100) || !within(shape->width, 0.5, 100) ||
        !within(shape->height, 0.5, 20) || !within(shape->air_change, 0, 1) || (int)shape->build < 0 ||
        shape->build >= TC_BUILD_COUNT)
        return TC_RANGE;
    double around = 2 * (shape->length + shape->width), floor = shape->length * shape->width;
    double outside = shape->outside * shape->height;
    if (!within(shape->outside, 0, around) || !within(shape->windows, 0, outside))
        return TC_RANGE;
    double wall = outside - shape->windows, inside = around * shape->height - outside;
    double roof = shape->roof ? floor : 0;
    inside += shape->roof ? floor : 2 * floor;
    double air = TC_AIR_HEAT_CAPACITY * shape->air_change * tc_room_volume(shape);
    const struct span *w = &builds[shape->build].wall, *g = &builds[shape->build].window,
                      *r = &builds[shape->build].roof;
    *loss = (struct tc_room_loss){
        .walls = wall * w->likely,
        .windows = shape->windows * g->likely,
        .roof = roof * r->likely,
        .air = air * air_share.likely,
        .inside = inside * INSIDE_U * inside_share.likely,
    };
    loss->likely = loss->walls + loss->windows + loss->roof + loss->air + loss->inside;
    loss->low = wall * w->low + shape->windows * g->low + roof * r->low + air * air_share.low +
                inside * INSIDE_U * inside_share.low;
    loss->high = wall * w->high + shape->windows * g->high + roof * r->high + air * air_share.high +
                 inside * INSIDE_U * inside_share.high;
    return TC_OK;
}
