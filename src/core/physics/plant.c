/* SPDX-License-Identifier: MIT */
#include "core/physics/plant.h"

#include <math.h>

#include "core/base/order.h"
#include "core/physics/vapour.h"

static struct tc_conductance scaled(struct tc_conductance k, double factor)
{
    return (struct tc_conductance){k.bottom * factor, k.surface * factor, k.lid * factor};
}

static void add_day(struct tc_plant *p)
{
    const struct tc_heat_case *c = p->c;
    if (c->frame)
        p->parts = c->frame->parts;
    else
        tc_day_parts_make(c->light_begin, c->light_hours, &p->parts);
    for (int i = 0; i < p->parts.count; i++)
        p->part_gain[i] = c->gain_steady + p->parts.lit[i] * c->gain_light;
    p->mean_gain = c->gain_steady + c->gain_light * c->light_hours / 24;
}

struct tc_plant tc_plant_make(const struct tc_heat_case *c)
{
    const struct tc_glazing *g = &c->glazing;
    struct tc_plant p = {
        .c = c,
        .surfaces = scaled(tc_glazing_conductance(g, c->set_temperature), c->loss_factor),
        .pane = tc_glazing_pane(g),
        .pane_area = c->loss_factor * tc_side_area(g) * (1 - g->sheltered_share),
        .fresh = c->fresh_flow * TC_WATER_HEAT_CAPACITY,
        .capacity = c->water_volume * TC_WATER_HEAT_CAPACITY + c->extra_heat_capacity,
        .pressure = tc_saturation_pressure(c->set_temperature),
    };
    double open = tc_water_surface(g) * (1 - g->covered_share);
    p.evaporation = c->loss_factor * tc_evaporation_conductance(open, c->activity);
    p.plain = p.surfaces.bottom + p.surfaces.surface + p.surfaces.lid;
    add_day(&p);
    return p;
}

double tc_plant_pane_loss(const struct tc_plant *p, double theta, double room)
{
    return p->pane_area * tc_pane_flux(&p->pane, p->c->set_temperature + theta, room);
}

/* The room is as far from its mean as so many swings where means over such values are those over its day. */
#define TWO_NODES   0.70710678118654752 /* cos(45 degrees) */
#define OUTER_NODES 0.92387953251128674 /* cos(22.5 degrees) */
#define INNER_NODES 0.38268343236508977 /* cos(67.5 degrees) */

/* Within so many swings of the set point, rooms are about as warm as water on it at some hour. */
#define NEAR_SWINGS 1.5

/* Sides in a room that passes the water's temperature, where no parabola through three values is true. */
static struct tc_plant_sides sides_across(const struct tc_plant *p, double theta, double room)
{
    double swing = p->c->room_swing, outer = OUTER_NODES * swing, inner = INNER_NODES * swing;
    double cold = tc_plant_pane_loss(p, theta, room - outer),
           cool = tc_plant_pane_loss(p, theta, room - inner),
           mild = tc_plant_pane_loss(p, theta, room + inner),
           warm = tc_plant_pane_loss(p, theta, room + outer);
    return (struct tc_plant_sides){
        .mean = (cold + cool + mild + warm) / 4,
        .wave = (OUTER_NODES * (cold - warm) + INNER_NODES * (cool - mild)) / 2,
        .square = TWO_NODES * (cool + mild - cold - warm),
    };
}

struct tc_plant_sides tc_plant_sides_at(const struct tc_plant *p, double theta, double room)
{
    double swing = p->c->room_swing, spread = TWO_NODES * swing;
    if (swing == 0)
        return (struct tc_plant_sides){tc_plant_pane_loss(p, theta, room), 0, 0};
    if (fabs(p->c->set_temperature - room) < NEAR_SWINGS * swing)
        return sides_across(p, theta, room);
    double cold = tc_plant_pane_loss(p, theta, room - spread),
           warm = tc_plant_pane_loss(p, theta, room + spread);
    return (struct tc_plant_sides){(cold + warm) / 2, TWO_NODES * (cold - warm), 0};
}

/* What water on the set point loses in all. */
static double loss_in(const struct tc_plant *p, const struct tc_plant_room *m)
{
    const struct tc_heat_case *c = p->c;
    return p->plain * (c->set_temperature - m->room) + m->sides.mean +
           p->evaporation * (p->pressure - m->air) + p->fresh * (c->set_temperature - c->fresh_temperature);
}

struct tc_plant_room tc_plant_room_at(const struct tc_plant *p, double room, double humidity)
{
    struct tc_plant_room m = {
        .room = room, .air = humidity * tc_saturation_pressure(room), .sides = tc_plant_sides_at(p, 0, room)};
    if (p->c->room_swing > 0 && m.sides.square == 0)
        m.sides.square = -2 * (m.sides.mean - tc_plant_pane_loss(p, 0, room));
    m.loss = loss_in(p, &m);
    return m;
}

struct tc_plant_room tc_plant_month(const struct tc_plant *p, int month)
{
    const struct tc_heat_case *c = p->c;
    if (!c->frame)
        return tc_plant_room_at(p, c->room_temperature[month], c->room_humidity[month]);
    struct tc_plant_room m = {
        .room = c->room_temperature[month], .air = c->frame->air[month], .sides = c->frame->sides[month]};
    m.loss = loss_in(p, &m);
    return m;
}

double tc_plant_coldest_loss(const struct tc_plant *p, int month, const struct tc_plant_room *m)
{
    double swing = p->c->room_swing;
    double panes = p->c->frame ? p->c->frame->coldest[month] : tc_plant_pane_loss(p, 0, m->room - swing);
    return m->loss + p->plain * swing + panes - m->sides.mean;
}

void tc_plant_gains(const struct tc_plant *p, double wave, double square, double more,
                    double gain[TC_DAY_PARTS_MAX])
{
    wave += p->plain * p->c->room_swing;
    for (int i = 0; i < p->parts.count; i++)
        gain[i] = p->part_gain[i] + more + wave * p->parts.wave[i] + square * p->parts.square[i];
}

double tc_plant_pressure(const struct tc_plant *p, double theta)
{
    return tc_saturation_pressure(tc_least(tc_most(p->c->set_temperature + theta, 233.15), 373.15));
}

double tc_plant_least_gain(const struct tc_plant *p, const struct tc_plant_room *m)
{
    double gain[TC_DAY_PARTS_MAX], least_gain = INFINITY;
    tc_plant_gains(p, m->sides.wave, m->sides.square, 0, gain);
    for (int i = 0; i < p->parts.count; i++)
        least_gain = tc_least(least_gain, gain[i]);
    return least_gain;
}
