/* SPDX-License-Identifier: MIT */
#include "core/physics/plant_lines.h"

#include <math.h>

#include "core/base/order.h"

/* Lines are true of water at least so far from the set point, K. */
#define NARROW 0.1

/* Water so near the set point, K, settles about where its losses there would have it. */
#define NEAR 1.0

/* The growth of what is true at theta alone is taken over so much to either side of it, K. */
#define REACH 0.5

/*
 * How the sides grow at theta, W/K: as much by a degree of the water as by one that the room has less, but
 * for what radiation grows with both.
 */
static double growth_there(const struct tc_plant *p, const struct tc_plant_room *m, double theta,
                           const struct tc_plant_sides *there)
{
    double swing = p->c->room_swing;
    if (swing <= NARROW)
        return (tc_plant_sides_at(p, theta + REACH, m->room).mean -
                tc_plant_sides_at(p, theta - REACH, m->room).mean) /
               (2 * REACH);
    double water = p->c->set_temperature + theta, mean = (water + m->room) / 2;
    double whole = p->pane_area * (water - m->room), face = whole - p->pane.resistance * there->mean;
    double radiation = 3 * tc_pane_radiation(p->pane.emissivity, mean) / mean;
    return there->wave / swing + (whole != 0 ? radiation * face * face / whole : 0);
}

struct tc_plant_lines tc_plant_lines_to(const struct tc_plant *p, const struct tc_plant_room *m, double to,
                                        bool touches)
{
    if (fabs(to) < NARROW)
        to = to < 0 ? -NARROW : NARROW;
    struct tc_plant_sides there = tc_plant_sides_at(p, to, m->room);
    struct tc_plant_lines lines = {
        .to = to,
        .touch = touches,
        .growth = {(there.mean - m->sides.mean) / to, (there.wave - m->sides.wave) / to, 0},
        .vapour = (tc_plant_pressure(p, to) - p->pressure) / to,
    };
    if (!touches) {
        lines.growth.mean = growth_there(p, m, to, &there);
        lines.base = there.mean - m->sides.mean - lines.growth.mean * to;
        lines.vapour = (tc_plant_pressure(p, to + REACH) - tc_plant_pressure(p, to - REACH)) / (2 * REACH);
        lines.base_vapour = tc_plant_pressure(p, to) - p->pressure - lines.vapour * to;
    }
    return lines;
}

double tc_plant_growth(const struct tc_plant *p, double sides, double vapour)
{
    return p->plain + p->fresh + sides + p->evaporation * vapour;
}

/* W that the water gains on the set point beyond what it loses there with all the heater can do about it. */
static double surplus(const struct tc_plant *p, const struct tc_plant_room *m)
{
    double net = p->mean_gain - m->loss;
    return net < 0 ? tc_least(net + p->c->heater_power, 0) : net;
}

double tc_plant_settles_about(const struct tc_plant *p, const struct tc_plant_room *m)
{
    double swing = p->c->room_swing;
    double sides = swing > NARROW ? m->sides.wave / swing : tc_plant_lines_to(p, m, 0, true).growth.mean;
    double left = surplus(p, m), growth = tc_plant_growth(p, sides, 0.06 * p->pressure);
    double theta = left / growth;
    if (fabs(theta) < NEAR)
        return theta;
    /* What the water loses there in truth, and from there by the same growth. */
    double sides_there = tc_plant_pane_loss(p, theta, m->room) - (m->sides.mean + m->sides.square / 2);
    double lost = (p->plain + p->fresh) * theta + sides_there +
                  p->evaporation * (tc_plant_pressure(p, theta) - p->pressure);
    return theta * left / lost;
}

double tc_plant_settle(const struct tc_plant *p, const struct tc_plant_room *m)
{
    double theta = tc_plant_settles_about(p, m);
    for (int i = 0; i < 2; i++) {
        struct tc_plant_lines lines = tc_plant_lines_to(p, m, theta, true);
        theta = surplus(p, m) / tc_plant_growth(p, lines.growth.mean, lines.vapour);
    }
    return theta;
}
