/* SPDX-License-Identifier: MIT */
#include "core/physics/plant.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "core/physics/thermostat.h"
#include "core/physics/vapour.h"

#define HOUR 3600.0
#define DAY  86400.0

/* A day repeats the one before if it ends this close to where it began, K. */
#define SAME_TEMPERATURE 1e-9

/* Lines are true at nodes at least so far apart, and are drawn anew where a node moved so far, K. */
#define NARROW 0.1
#define MOVED  0.5

/* Times that a day is followed to find its lines, and a month's days to find the one that repeats. */
enum { ADJUSTMENTS = 4 };

/*
 * Losses by the sides and by evaporation, which grow with theta (the water's temperature less the set
 * point) along curves, as straight lines that are true at two nodes.
 */
struct lines {
    double from, to;             /* theta of the nodes */
    double sides, sides_slope;   /* W at theta 0, W/K */
    double wave;                 /* of the sides, W */
    double vapour, vapour_slope; /* Pa above the room's air at theta 0, Pa/K */
};

/* One day as followed. */
struct day {
    double begin;
    struct tc_thermostat_run run;
    double heat[TC_DAY_PARTS_MAX]; /* J given by the heater in each part */
};

/* As fmin and fmax, but without a call; no figure here is not a number. */
static double least(double a, double b)
{
    return a < b ? a : b;
}

static double most(double a, double b)
{
    return a > b ? a : b;
}

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

/* W through the panes into a room of that temperature. */
static double pane_loss(const struct tc_plant *p, double theta, double room)
{
    return p->pane_area * tc_pane_flux(&p->pane, p->c->set_temperature + theta, room);
}

/* How far from its mean the room is where a mean over two such values is that over its day. */
static double room_spread(const struct tc_plant *p)
{
    return p->c->room_swing * 0.70710678118654752;
}

/* The same while the room swings, from the two temperatures of room_spread; without the square. */
static struct tc_plant_sides mean_sides(const struct tc_plant *p, double theta, double room)
{
    double spread = room_spread(p);
    if (spread == 0)
        return (struct tc_plant_sides){pane_loss(p, theta, room), 0, 0};
    double cold = pane_loss(p, theta, room - spread), warm = pane_loss(p, theta, room + spread);
    return (struct tc_plant_sides){(cold + warm) / 2, (cold - warm) / (2 * spread) * p->c->room_swing, 0};
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
        .room = room, .air = humidity * tc_saturation_pressure(room), .sides = mean_sides(p, 0, room)};
    if (p->c->room_swing > 0)
        m.sides.square = -2 * (m.sides.mean - pane_loss(p, 0, room));
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

double tc_plant_coldest_loss(const struct tc_plant *p, const struct tc_plant_room *m)
{
    double swing = p->c->room_swing;
    return m->loss + p->plain * swing + pane_loss(p, 0, m->room - swing) - m->sides.mean;
}

/* What water that stands still gains in each part of the day with such sides, W, but for its loss. */
static void find_gains(const struct tc_plant *p, double wave, double square, double gain[TC_DAY_PARTS_MAX])
{
    wave += p->plain * p->c->room_swing;
    for (int i = 0; i < p->parts.count; i++)
        gain[i] = p->part_gain[i] + wave * p->parts.wave[i] + square * p->parts.square[i];
}

/* The pressure that the water's vapour has at theta, where it is one of water. */
static double pressure_at(const struct tc_plant *p, double theta)
{
    return tc_saturation_pressure(least(most(p->c->set_temperature + theta, 233.15), 373.15));
}

/* The lines that are true at two nodes; the second is moved where it is too near. */
static struct lines lines_between(const struct tc_plant *p, const struct tc_plant_room *m, double from,
                                  double to)
{
    struct lines lines = {.from = from, .to = to};
    if (fabs(to - from) < NARROW)
        to = to < from ? from - NARROW : from + NARROW;
    struct tc_plant_sides here = from == 0 ? m->sides : mean_sides(p, from, m->room);
    struct tc_plant_sides there = mean_sides(p, to, m->room);
    double vapour = from == 0 ? p->pressure : pressure_at(p, from);
    lines.sides_slope = (there.mean - here.mean) / (to - from);
    lines.vapour_slope = (pressure_at(p, to) - vapour) / (to - from);
    lines.sides = here.mean - lines.sides_slope * from;
    lines.vapour = vapour - m->air - lines.vapour_slope * from;
    /* On days that touch the set point it is there that the heater works. */
    lines.wave = from == 0 ? here.wave : (here.wave + there.wave) / 2;
    return lines;
}

/* How the loss grows with theta, W/K. */
static double growth(const struct tc_plant *p, const struct lines *lines)
{
    return p->plain + p->fresh + lines->sides_slope + p->evaporation * lines->vapour_slope;
}

/* The loss at theta 0 as the lines have it, W. */
static double loss_of(const struct tc_plant *p, const struct tc_plant_room *m, const struct lines *lines)
{
    const struct tc_heat_case *c = p->c;
    return p->plain * (c->set_temperature - m->room) +
           p->fresh * (c->set_temperature - c->fresh_temperature) + lines->sides +
           p->evaporation * lines->vapour;
}

double tc_plant_settle(const struct tc_plant *p, const struct tc_plant_room *m)
{
    double net = p->mean_gain - m->loss, theta = 0;
    if (net < 0)
        net = least(net + p->c->heater_power, 0);
    struct lines lines = lines_between(p, m, 0, 0);
    for (int i = 0; i < 2 && net != 0; i++) {
        theta = net / growth(p, &lines);
        lines = lines_between(p, m, 0, theta);
    }
    return theta;
}

double tc_plant_least_gain(const struct tc_plant *p, const struct tc_plant_room *m)
{
    double gain[TC_DAY_PARTS_MAX], least_gain = INFINITY;
    find_gains(p, m->sides.wave, m->sides.square, gain);
    for (int i = 0; i < p->parts.count; i++)
        least_gain = least(least_gain, gain[i]);
    return least_gain;
}

/* A month of days on the set point, if the heater can hold it there all day. */
static bool hold_month(const struct tc_plant *p, const struct tc_plant_room *m, int days,
                       struct tc_plant_tally *tally)
{
    double gain[TC_DAY_PARTS_MAX], least_gain = INFINITY, most_gain = -INFINITY;
    find_gains(p, m->sides.wave, m->sides.square, gain);
    for (int i = 0; i < p->parts.count; i++) {
        least_gain = least(least_gain, gain[i]);
        most_gain = most(most_gain, gain[i]);
    }
    if (m->loss < most_gain || m->loss - least_gain > p->c->heater_power)
        return false;
    memset(tally->heat, 0, 24 * sizeof tally->heat[0]);
    for (int i = 0; i < p->parts.count; i++)
        tally->heat[p->parts.hour[i]] += (m->loss - gain[i]) * (p->parts.seconds[i] * days);
    tally->integral = tally->lowest = tally->highest = 0;
    tally->sides = m->sides.mean * (DAY * days);
    tally->vapour = (p->pressure - m->air) * (DAY * days);
    return true;
}

/* A thermostat with its lines, and the parts of the day made for it. */
struct clock {
    struct lines lines;
    double loss; /* W at theta 0 */
    struct tc_thermostat thermostat;
    struct tc_stretch stretch[TC_DAY_PARTS_MAX];
    double gain[TC_DAY_PARTS_MAX]; /* W in each part, but for the loss */
    double day_kept;               /* what is left of a deviation after a day the set point is not met in */
};

static void wind_clock(const struct tc_plant *p, const struct tc_plant_room *m, struct lines lines,
                       struct clock *clock)
{
    clock->lines = lines;
    clock->loss = loss_of(p, m, &lines);
    clock->thermostat = (struct tc_thermostat){
        .capacity = p->capacity,
        .conductance = growth(p, &lines),
        .power = p->c->heater_power,
    };
    struct tc_stretch hour = tc_stretch_make(&clock->thermostat, HOUR);
    for (int i = 0; i < p->parts.count; i++) {
        double seconds = p->parts.seconds[i];
        clock->stretch[i] = seconds == HOUR ? hour : tc_stretch_make(&clock->thermostat, seconds);
    }
    find_gains(p, lines.wave, m->sides.square, clock->gain);
    clock->day_kept = exp(-DAY * clock->thermostat.conductance / p->capacity);
}

/*
 * Whether the clock's lines had to be drawn anew to be true of a day. On days that touch the set point
 * the water runs between there and an extreme: the nodes are the set point, which is exact, and seven
 * tenths of the way, where for anything like an arch the mean of theta weighted by theta lies. On others
 * they are the two thetas over which a mean is that over a sine.
 */
static bool adjust_clock(const struct tc_plant *p, const struct tc_plant_room *m,
                         const struct tc_thermostat_run *run, struct clock *clock)
{
    double middle = (run->highest + run->lowest) / 2, reach = 0.7071 * (run->highest - run->lowest) / 2;
    double from = middle - reach, to = middle + reach;
    if (run->held) {
        from = 0;
        to = 0.7 * (run->highest > -run->lowest ? run->highest : run->lowest);
    }
    bool anchored = !run->held || clock->lines.from == 0;
    if (anchored && fabs(from - clock->lines.from) < MOVED && fabs(to - clock->lines.to) < MOVED)
        return false;
    wind_clock(p, m, lines_between(p, m, from, to), clock);
    return true;
}

static void follow_day(const struct tc_plant *p, const struct clock *clock, double theta, struct day *day)
{
    day->begin = theta;
    day->run = tc_thermostat_follow(&clock->thermostat, theta, p->parts.count, clock->stretch, clock->gain,
                                    clock->loss, day->heat);
}

/* Follows a day by lines that are true of it. */
static void follow_true_day(const struct tc_plant *p, const struct tc_plant_room *m, struct clock *clock,
                            double theta, struct day *day)
{
    follow_day(p, clock, theta, day);
    for (int i = 0; i < ADJUSTMENTS && adjust_clock(p, m, &day->run, clock); i++)
        follow_day(p, clock, theta, day);
}

static void add_time(const struct clock *clock, double time, double integral, struct tc_plant_tally *tally)
{
    const struct lines *lines = &clock->lines;
    tally->integral += integral;
    tally->sides += lines->sides * time + lines->sides_slope * integral;
    tally->vapour += lines->vapour * time + lines->vapour_slope * integral;
}

static void add_days(const struct tc_plant *p, const struct clock *clock, const struct day *day, double days,
                     struct tc_plant_tally *tally)
{
    bool heated = day->run.held || day->run.theta < 0;
    for (int i = 0; heated && i < p->parts.count; i++)
        tally->heat[p->parts.hour[i]] += day->heat[i] * days;
    add_time(clock, DAY * days, day->run.integral * days, tally);
    tally->lowest = day->run.lowest;
    tally->highest = day->run.highest;
}

/*
 * The day that repeats, if the set point is met neither on it nor on the way there: what is left of the
 * deviation from it shrinks by the same factor every day. *day ended where the way begins.
 */
static bool find_repeating_day(const struct tc_plant *p, const struct tc_plant_room *m, struct clock *clock,
                               const struct day *day, struct day *repeating)
{
    double settled = day->begin + (day->run.theta - day->begin) / (1 - clock->day_kept);
    bool held = day->run.held;
    for (int i = 0; !held && i < ADJUSTMENTS; i++) {
        follow_day(p, clock, settled, repeating);
        bool adjusted = adjust_clock(p, m, &repeating->run, clock);
        held = repeating->run.held;
        if (!adjusted && i > 0)
            break;
        if (adjusted)
            follow_day(p, clock, settled, repeating);
        settled = (repeating->run.theta - settled * clock->day_kept) / (1 - clock->day_kept);
    }
    if (held || (settled < 0) != (day->run.theta < 0))
        return false;
    follow_day(p, clock, settled, repeating);
    return !repeating->run.held;
}

/* Tries to add the days that are left, the first of which starts where `day` ended, at one go. */
static bool add_settling_days(const struct tc_plant *p, const struct tc_plant_room *m,
                              const struct clock *clock, const struct day *day, int days, double *theta,
                              struct tc_plant_tally *tally)
{
    struct clock settled = *clock;
    struct day repeating;
    if (!find_repeating_day(p, m, &settled, day, &repeating))
        return false;
    add_days(p, &settled, &repeating, days, tally);
    double left = day->run.theta - repeating.begin;
    double left_last = left * pow(settled.day_kept, days);
    add_time(&settled, 0, (left - left_last) * p->capacity / settled.thermostat.conductance, tally);
    *theta = repeating.begin + left_last;
    return true;
}

void tc_plant_follow(const struct tc_plant *p, const struct tc_plant_room *m, int days, double *theta,
                     struct tc_plant_tally *tally)
{
    if (*theta == 0 && hold_month(p, m, days, tally))
        return;
    memset(tally->heat, 0, 24 * sizeof tally->heat[0]);
    tally->integral = tally->sides = tally->vapour = 0;
    struct clock clock;
    double settled = tc_plant_settle(p, m);
    wind_clock(p, m, lines_between(p, m, settled, settled), &clock);
    for (int left = days; left > 0; left--) {
        struct day day;
        follow_true_day(p, m, &clock, *theta, &day);
        *theta = day.run.theta;
        if (fabs(day.run.theta - day.begin) < SAME_TEMPERATURE) {
            add_days(p, &clock, &day, left, tally);
            return;
        }
        add_days(p, &clock, &day, 1, tally);
        if (left > 1 && add_settling_days(p, m, &clock, &day, left - 1, theta, tally))
            return;
    }
}
