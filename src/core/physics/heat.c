/* SPDX-License-Identifier: MIT */
#include "core/physics/heat.h"

#include <math.h>
#include <stddef.h>

#include "core/base/order.h"
#include "core/physics/plant.h"
#include "core/physics/plant_follow.h"
#include "core/physics/plant_lines.h"
#include "core/physics/vapour.h"
#include "core/tariff/load.h"

#define HOUR 3600.0
#define DAY  86400.0

/* Water as it is poured in to make up for evaporation, kg/m3 at 20 degrees Celsius. */
#define MAKE_UP_DENSITY 998.2

/* So many days that even the slowest tank has settled. */
enum { SETTLING_DAYS = 36500 };

/* A plant in the twelve rooms of a year. */
struct rooms {
    struct tc_plant plant;
    struct tc_plant_room month[12];
};

/* Four sums side by side, because one of 24 terms would wait for each of them. */
static double sum_of_hours(const double heat[24])
{
    double sum[4] = {0};
    for (int hour = 0; hour < 24; hour += 4)
        for (int i = 0; i < 4; i++)
            sum[i] += heat[hour + i];
    return (sum[0] + sum[1]) + (sum[2] + sum[3]);
}

static void add_losses(struct tc_heat_losses *sum, const struct tc_heat_losses *loss)
{
    sum->sides += loss->sides;
    sum->bottom += loss->bottom;
    sum->surface += loss->surface;
    sum->lid += loss->lid;
    sum->evaporation += loss->evaporation;
    sum->fresh += loss->fresh;
}

static void record_month(const struct rooms *r, int index, const struct tc_plant_tally *tally,
                         struct tc_heat_year *year)
{
    const struct tc_plant *p = &r->plant;
    const struct tc_heat_case *c = p->c;
    year->heater_month[index] = sum_of_hours(tally->heat);
    year->heater_total += year->heater_month[index];
    year->water_lowest[index] = c->set_temperature + tally->lowest;
    year->water_highest[index] = c->set_temperature + tally->highest;

    year->water_rises += tally->rises;

    double time = DAY * tc_load_days(index);
    /* The room's swing adds up to nothing over whole days. */
    double dry = tally->integral + (c->set_temperature - r->month[index].room) * time;
    double wet = p->evaporation * tally->vapour;
    const struct tc_conductance *k = &p->surfaces;
    year->dry_month[index] = tally->sides + p->plain * dry;
    year->loss_month[index] = (struct tc_heat_losses){
        .sides = tally->sides,
        .bottom = k->bottom * dry,
        .surface = k->surface * dry,
        .lid = k->lid * dry,
        .evaporation = wet,
        .fresh = p->fresh * (tally->integral + (c->set_temperature - c->fresh_temperature) * time),
    };
    add_losses(&year->loss, &year->loss_month[index]);
    /* Vapour that settles on cold water fills the tank, but nobody is paid for it. */
    year->evaporated[index] = tc_most(wet, 0) / (tc_latent_heat(c->set_temperature) * MAKE_UP_DENSITY);
    year->evaporated_total += year->evaporated[index];
}

static int hardest_month(const struct rooms *r)
{
    int hardest = 0;
    for (int i = 1; i < 12; i++)
        if (r->month[i].loss > r->month[hardest].loss)
            hardest = i;
    return hardest;
}

/* Duty and shortfall in the coldest month. */
static void record_coldest(const struct rooms *r, struct tc_heat_year *year)
{
    int index = hardest_month(r);
    const struct tc_heat_case *c = r->plant.c;
    double power = c->heater_power;
    year->coldest_month = index;
    if (power > 0 && isfinite(power))
        year->duty = tc_least(year->heater_month[index] / (power * DAY * tc_load_days(index)), 1);
    year->shortfall = tc_most(c->set_temperature - year->water_lowest[index], 0);
    double least_gain = tc_plant_least_gain(&r->plant, &r->month[index]);
    year->unserved = tc_most(r->month[index].loss - least_gain - power, 0);
}

static void record_hottest(const struct tc_heat_case *c, struct tc_heat_year *year)
{
    year->hottest_month = 0;
    for (int i = 1; i < 12; i++)
        if (year->water_highest[i] > year->water_highest[year->hottest_month])
            year->hottest_month = i;
    year->hottest = year->water_highest[year->hottest_month];
    year->above_limit = year->hottest > c->limit_temperature;
}

static struct rooms rooms_of(const struct tc_heat_case *c)
{
    struct rooms r = {.plant = tc_plant_make(c)};
    for (int i = 0; i < 12; i++)
        r.month[i] = tc_plant_month(&r.plant, i);
    return r;
}

enum tc_status tc_heat_frame_make(const struct tc_heat_case *c, struct tc_heat_frame *frame)
{
    struct tc_heat_case bare = *c;
    bare.frame = NULL;
    if (tc_heat_check(&bare) != TC_OK)
        return TC_RANGE;
    struct rooms r = rooms_of(&bare);
    frame->parts = r.plant.parts;
    for (int i = 0; i < 12; i++) {
        frame->air[i] = r.month[i].air;
        frame->sides[i] = r.month[i].sides;
        frame->coldest[i] = tc_plant_pane_loss(&r.plant, 0, r.month[i].room - bare.room_swing);
    }
    return TC_OK;
}

enum tc_status tc_heat_year(const struct tc_heat_case *c, struct tc_heat_year *year)
{
    if (tc_heat_check(c) != TC_OK)
        return TC_RANGE;
    struct rooms r = rooms_of(c);
    *year = (struct tc_heat_year){0};

    /* January starts where December ends. */
    double theta = tc_plant_settle(&r.plant, &r.month[11]);
    struct tc_plant_tally tally = {.heat = year->heater[11]};
    tc_plant_follow(&r.plant, &r.month[11], tc_load_days(11), &theta, &tally);
    double start = theta;
    for (int i = 0; i < 12; i++) {
        double before = theta;
        tally.heat = year->heater[i];
        tc_plant_follow(&r.plant, &r.month[i], tc_load_days(i), &theta, &tally);
        record_month(&r, i, &tally, year);
        year->stored_month[i] = r.plant.capacity * (theta - before);
    }
    year->stored = r.plant.capacity * (theta - start);
    year->water_rises += fabs(theta - start); /* as if it ended where it began */
    year->gain_steady = c->gain_steady * DAY * 365;
    year->gain_light = c->gain_light * c->light_hours * HOUR * 365;
    record_coldest(&r, year);
    record_hottest(c, year);
    return TC_OK;
}

enum tc_status tc_heat_repeating_day(const struct tc_heat_case *c, double room_temperature, double humidity,
                                     struct tc_heat_day *day)
{
    if (tc_heat_check(c) != TC_OK || !(room_temperature >= 233.15 && room_temperature <= 373.15) ||
        !(humidity >= 0 && humidity <= 1))
        return TC_RANGE;
    struct tc_plant p = tc_plant_make(c);
    struct tc_plant_room m = tc_plant_room_at(&p, room_temperature, humidity);
    double heat[24], theta = tc_plant_settle(&p, &m);
    struct tc_plant_tally tally = {.heat = heat};
    tc_plant_follow(&p, &m, SETTLING_DAYS, &theta, &tally);
    tc_plant_follow(&p, &m, 1, &theta, &tally);
    double mean = c->set_temperature + tally.integral / DAY;
    *day = (struct tc_heat_day){
        .heater = sum_of_hours(heat) / DAY,
        .dry = tally.sides / DAY + p.plain * (mean - room_temperature),
        .evaporation = p.evaporation * tally.vapour / DAY,
        .lowest = c->set_temperature + tally.lowest,
        .highest = c->set_temperature + tally.highest,
        .mean = mean,
    };
    return TC_OK;
}

double tc_heat_loss_total(const struct tc_heat_losses *loss)
{
    return loss->sides + loss->bottom + loss->surface + loss->lid + loss->evaporation + loss->fresh;
}

double tc_heat_loss_at(const struct tc_heat_case *c, double room_temperature, double humidity)
{
    struct tc_plant p = tc_plant_make(c);
    struct tc_plant_room m = tc_plant_room_at(&p, room_temperature, humidity);
    return m.loss - p.fresh * (c->set_temperature - c->fresh_temperature);
}

enum tc_status tc_heat_needed_power(const struct tc_heat_case *c, double margin, double *power)
{
    if (tc_heat_check(c) != TC_OK || !(margin >= 0 && margin <= 10))
        return TC_RANGE;
    struct rooms r = rooms_of(c);
    const struct tc_plant_room *m = &r.month[hardest_month(&r)];
    /* As the year is followed, with the sides over the day as a parabola; and as it is, where that is more.
     */
    double need = m->loss + r.plant.plain * c->room_swing + m->sides.wave - m->sides.square / 2;
    need = tc_most(need, c->gain_steady);
    for (int i = 0; i < 12; i++)
        need = tc_most(need, tc_plant_coldest_loss(&r.plant, i, &r.month[i]));
    *power = (need - c->gain_steady) * (1 + margin);
    return TC_OK;
}
