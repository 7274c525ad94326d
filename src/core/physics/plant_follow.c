/* SPDX-License-Identifier: MIT */
#include "core/physics/plant_follow.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

#include "core/base/order.h"
#include "core/physics/plant_lines.h"
#include "core/physics/thermostat.h"

#define HOUR 3600.0
#define DAY  86400.0

/* A day repeats the one before if it ends this close to where it began, K. */
#define SAME_TEMPERATURE 1e-9

/* Lines are drawn anew for water that moved so far, K, or twice as far where it touches the set point. */
#define MOVED 0.5

/* A day is taken for the one that repeats, to find how its losses bend, if it ends so near its beginning, K.
 */
#define NEARLY_SAME 0.1

/* What is no further than so many swings from the room's mean is about as warm as the room at some hour. */
#define NEAR_SWINGS 1.0

/* Times that a day is followed to find its lines, and of how many of its parts one is looked at anew. */
enum { ADJUSTMENTS = 4, EACH = 3 };

/* One day as followed. */
struct day {
    double begin;
    struct tc_thermostat_run run;
    double heat[TC_DAY_PARTS_MAX]; /* J given by the heater in each part */
    double ends[TC_DAY_PARTS_MAX]; /* theta where each ends */
};

/* A month of days on the set point, if the heater can hold it there all day. */
static bool hold_month(const struct tc_plant *p, const struct tc_plant_room *m, int days,
                       struct tc_plant_tally *tally)
{
    double gain[TC_DAY_PARTS_MAX], least_gain = INFINITY, most_gain = -INFINITY;
    tc_plant_gains(p, m->sides.wave, m->sides.square, 0, gain);
    for (int i = 0; i < p->parts.count; i++) {
        least_gain = tc_least(least_gain, gain[i]);
        most_gain = tc_most(most_gain, gain[i]);
    }
    if (m->loss < most_gain || m->loss - least_gain > p->c->heater_power)
        return false;
    memset(tally->heat, 0, 24 * sizeof tally->heat[0]);
    for (int i = 0; i < p->parts.count; i++)
        tally->heat[p->parts.hour[i]] += (m->loss - gain[i]) * (p->parts.seconds[i] * days);
    tally->integral = tally->lowest = tally->highest = tally->rises = 0;
    tally->sides = m->sides.mean * (DAY * days);
    tally->vapour = (p->pressure - m->air) * (DAY * days);
    return true;
}

/* A thermostat with its lines, and the parts of the day made for it. */
struct clock {
    struct tc_plant_lines lines;
    struct tc_thermostat thermostat;
    struct tc_stretch stretch[TC_DAY_PARTS_MAX];
    double gain[TC_DAY_PARTS_MAX]; /* W in each part, but for the loss */

    bool bent;         /* the gains make good for what the lines miss: that of a day in all, */
    double sides_off;  /* J */
    double vapour_off; /* Pa s */
};

static void wind_clock(const struct tc_plant *p, const struct tc_plant_room *m, struct tc_plant_lines lines,
                       struct clock *clock)
{
    clock->lines = lines;
    clock->thermostat = (struct tc_thermostat){
        .capacity = p->capacity,
        .conductance = tc_plant_growth(p, lines.growth.mean, lines.vapour),
        .power = p->c->heater_power,
    };
    const struct tc_day_parts *parts = &p->parts;
    double wave = m->sides.wave + p->plain * p->c->room_swing;
    tc_stretches_make(&clock->thermostat, parts->count, parts->seconds, parts->wave, -lines.growth.wave,
                      clock->stretch);
    for (int i = 0; i < parts->count; i++)
        clock->stretch[i].rise = wave * parts->rise[i];
    tc_plant_gains(p, m->sides.wave, m->sides.square, -lines.base - p->evaporation * lines.base_vapour,
                   clock->gain);
    clock->bent = false;
    clock->sides_off = lines.base * DAY;
    clock->vapour_off = lines.base_vapour * DAY;
}

/*
 * Whether the room is about as warm as water at theta at some hour, which the sides feel as no parabola of
 * it.
 */
static bool room_is_near(const struct tc_plant *p, const struct tc_plant_room *m, double theta)
{
    return fabs(p->c->set_temperature + theta - m->room) < NEAR_SWINGS * p->c->room_swing;
}

/* By how much the sides lose more in a part of such a day than the lines have, W. */
static double sides_missed(const struct tc_plant *p, const struct tc_plant_room *m,
                           const struct tc_plant_lines *lines, const struct day *day, int part)
{
    double theta = ((part > 0 ? day->ends[part - 1] : day->begin) + day->ends[part]) / 2;
    double wave = p->parts.wave[part], swing = p->c->room_swing;
    if (theta == 0 && lines->touch && !room_is_near(p, m, 0))
        return 0;
    double line = m->sides.mean - m->sides.wave * wave - m->sides.square * p->parts.square[part] +
                  lines->base + (lines->growth.mean - lines->growth.wave * wave) * theta;
    return tc_plant_pane_loss(p, theta, m->room + swing * wave) - line;
}

/*
 * Makes the clock's gains good for what its lines miss on such a day. The sides lose in each EACH-th part
 * what they do in that part's room, and between them what a straight line has; vapour follows a parabola that
 * is true at half the lines' theta as well.
 */
static void bend_clock(const struct tc_plant *p, const struct tc_plant_room *m, const struct day *day,
                       struct clock *clock)
{
    const struct tc_plant_lines *lines = &clock->lines;
    double to = lines->to, begin = day->begin;
    double bend = lines->touch
                      ? (p->pressure + lines->vapour * to / 2 - tc_plant_pressure(p, to / 2)) / (to * to / 4)
                      : -lines->base_vapour / (to * to);
    double other = lines->touch ? 0 : to, sides = sides_missed(p, m, lines, day, 0);
    for (int i = 0, last = p->parts.count - 1; i <= last; i += EACH) {
        int next = i + EACH < last ? i + EACH : last;
        double there = next > i ? sides_missed(p, m, lines, day, next) : sides;
        double step = next > i ? (there - sides) / (next - i) : 0;
        for (int k = i; k <= last && k < i + EACH; k++) {
            double theta = (begin + day->ends[k]) / 2, vapour = bend * (theta - to) * (theta - other);
            clock->gain[k] -= sides + p->evaporation * vapour;
            clock->sides_off += sides * p->parts.seconds[k];
            clock->vapour_off += vapour * p->parts.seconds[k];
            begin = day->ends[k];
            sides += step;
        }
        sides = there;
    }
    clock->bent = true;
}

/*
 * Whether the clock's lines had to be drawn anew to be true of a day: at its mean, or where it touches the
 * set point, at seven tenths of the way from there to its extreme, where for anything like an arch the mean
 * of theta weighted by theta lies.
 */
static bool adjust_clock(const struct tc_plant *p, const struct tc_plant_room *m,
                         const struct tc_thermostat_run *run, struct clock *clock)
{
    double to = (run->highest + run->lowest) / 2;
    if (run->held)
        to = 0.7 * (run->highest > -run->lowest ? run->highest : run->lowest);
    if (run->held == clock->lines.touch && fabs(to - clock->lines.to) < (run->held ? 2 : 1) * MOVED)
        return false;
    wind_clock(p, m, tc_plant_lines_to(p, m, to, run->held), clock);
    return true;
}

static void follow_day(const struct tc_plant *p, const struct tc_plant_room *m, const struct clock *clock,
                       double theta, struct day *day)
{
    day->begin = theta;
    day->run = tc_thermostat_follow(&clock->thermostat, theta, p->parts.count, clock->stretch, clock->gain,
                                    m->loss, day->heat, day->ends);
}

/* Whether lines are not enough for such a day: it touches the set point, or the room is about as warm. */
static bool bends(const struct tc_plant *p, const struct tc_plant_room *m, const struct day *day)
{
    return day->run.held || room_is_near(p, m, (day->run.highest + day->run.lowest) / 2);
}

/* Makes a clock good for such a day that as good as repeats, and follows it anew. */
static bool bend_day(const struct tc_plant *p, const struct tc_plant_room *m, struct clock *clock,
                     double theta, struct day *day)
{
    if (fabs(day->run.theta - theta) > NEARLY_SAME || !bends(p, m, day))
        return false;
    bend_clock(p, m, day, clock);
    follow_day(p, m, clock, theta, day);
    return true;
}

/* Follows a day by lines that are true of it. */
static void follow_true_day(const struct tc_plant *p, const struct tc_plant_room *m, struct clock *clock,
                            double theta, struct day *day)
{
    follow_day(p, m, clock, theta, day);
    if (clock->bent || bend_day(p, m, clock, theta, day))
        return;
    for (int i = 0; i < ADJUSTMENTS && adjust_clock(p, m, &day->run, clock); i++)
        follow_day(p, m, clock, theta, day);
    bend_day(p, m, clock, theta, day);
}

/*
 * Adds some time that drew so much heat by the growth of losses with theta, J: the sides' part of it is what
 * the others, which grow alike all day, leave.
 */
static void add_growth(const struct clock *clock, double integral, double drawn, struct tc_plant_tally *tally)
{
    double others = clock->thermostat.conductance - clock->lines.growth.mean;
    tally->integral += integral;
    tally->sides += drawn - others * integral;
    tally->vapour += clock->lines.vapour * integral;
}

/* Whether the heater works at all on a day; only then its heat is told part by part. */
static bool is_heated(const struct day *day)
{
    return day->run.held || day->run.theta < 0;
}

/* K that theta rises on a day: along each of its parts once at most, from the set point where the heater
 * worked. */
static double rises_of(const struct tc_plant *p, const struct day *day)
{
    bool heated = is_heated(day);
    double sum = 0, begin = day->begin;
    for (int i = 0; i < p->parts.count; i++) {
        double from = heated && day->heat[i] > 0 ? tc_least(begin, 0) : begin;
        sum += tc_most(day->ends[i] - from, 0);
        begin = day->ends[i];
    }
    return sum;
}

static void add_days(const struct tc_plant *p, const struct tc_plant_room *m, const struct clock *clock,
                     const struct day *day, double days, struct tc_plant_tally *tally)
{
    bool heated = is_heated(day);
    double heat = 0;
    for (int i = 0; heated && i < p->parts.count; i++) {
        heat += day->heat[i];
        tally->heat[p->parts.hour[i]] += day->heat[i] * days;
    }
    double off = clock->sides_off + p->evaporation * clock->vapour_off;
    double stored = p->capacity * (day->run.theta - day->begin);
    double drawn = (p->mean_gain - m->loss) * DAY + heat - off - stored;
    tally->sides += (m->sides.mean * DAY + clock->sides_off) * days;
    tally->vapour += ((p->pressure - m->air) * DAY + clock->vapour_off) * days;
    add_growth(clock, day->run.integral * days, drawn * days, tally);
    tally->rises += rises_of(p, day) * days;
    tally->lowest = day->run.lowest;
    tally->highest = day->run.highest;
}

/* The day that repeats by a clock, if the set point is not met on it, on the side of it on which theta is. */
static bool repeat_day(const struct tc_plant *p, const struct tc_plant_room *m, const struct clock *clock,
                       double theta, struct day *day)
{
    bool off = tc_thermostat_repeat(&clock->thermostat, theta, p->parts.count, clock->stretch, clock->gain,
                                    m->loss, day->heat, day->ends, &day->run);
    day->begin = day->run.theta;
    return off;
}

/* The same by lines that are true of it. */
static bool repeat_true_day(const struct tc_plant *p, const struct tc_plant_room *m, struct clock *clock,
                            double theta, struct day *day)
{
    bool off = repeat_day(p, m, clock, theta, day);
    for (int i = 0; off && i < ADJUSTMENTS && adjust_clock(p, m, &day->run, clock); i++)
        off = repeat_day(p, m, clock, theta, day);
    if (off && !clock->bent && bends(p, m, day)) {
        bend_clock(p, m, day, clock);
        off = repeat_day(p, m, clock, theta, day);
    }
    return off;
}

/*
 * Whether the set point is not met on a day from theta. Then it is on none that follows either: each lies
 * between that day and the one that repeats.
 */
static bool stays_off(const struct clock *clock, const struct day *repeating, int parts, double theta)
{
    double left = theta - repeating->begin;
    for (int i = 0; i < parts; i++) {
        left *= clock->stretch[i].kept;
        if (!((repeating->ends[i] + left) * theta > 0))
            return false;
    }
    return true;
}

/* Adds some days from *theta at one go, if the set point is met on none of them. */
static bool add_settling_days(const struct tc_plant *p, const struct tc_plant_room *m,
                              const struct clock *clock, int days, double *theta,
                              struct tc_plant_tally *tally)
{
    struct clock settled = *clock;
    struct day repeating;
    if (!repeat_true_day(p, m, &settled, *theta, &repeating) ||
        !stays_off(&settled, &repeating, p->parts.count, *theta))
        return false;
    add_days(p, m, &settled, &repeating, days, tally);
    double left = *theta - repeating.begin;
    double left_last = left * pow(tc_stretches_keep(p->parts.count, settled.stretch), days);
    double drawn = (left - left_last) * p->capacity;
    add_growth(&settled, drawn / settled.thermostat.conductance, drawn, tally);
    tally->rises += fabs(left - left_last);
    *theta = repeating.begin + left_last;
    return true;
}

void tc_plant_follow(const struct tc_plant *p, const struct tc_plant_room *m, int days, double *theta,
                     struct tc_plant_tally *tally)
{
    if (*theta == 0 && hold_month(p, m, days, tally))
        return;
    memset(tally->heat, 0, 24 * sizeof tally->heat[0]);
    tally->integral = tally->sides = tally->vapour = tally->rises = 0;
    struct clock clock;
    double settled = tc_plant_settles_about(p, m);
    bool near = fabs(settled) < 2 * MOVED, off = !near && *theta * settled > 0;
    wind_clock(p, m, tc_plant_lines_to(p, m, settled, near), &clock);
    for (int left = days; left > 0; left--) {
        if (off && add_settling_days(p, m, &clock, left, theta, tally))
            return;
        struct day day;
        follow_true_day(p, m, &clock, *theta, &day);
        *theta = day.run.theta;
        off = !day.run.held;
        if (fabs(day.run.theta - day.begin) < SAME_TEMPERATURE) {
            add_days(p, m, &clock, &day, left, tally);
            return;
        }
        add_days(p, m, &clock, &day, 1, tally);
    }
}
