/* SPDX-License-Identifier: MIT */
#include "core/physics/heat.h"

#include <math.h>
#include <string.h>

#include "core/physics/light.h"
#include "core/tariff/load.h"
#include "core/physics/thermostat.h"
#include "core/physics/vapour.h"

#define HOUR 3600.0
#define DAY  86400.0

/* Water as it is poured in to make up for evaporation, kg/m3 at 20 degrees Celsius. */
#define MAKE_UP_DENSITY 998.2

/* A day repeats the one before if it ends this close to where it began, K. */
#define SAME_TEMPERATURE 1e-9

/* So close to the set point, in K, evaporation follows its tangent there. */
#define TANGENT 0.1

/* The hours of the day, cut where the light goes on and off. */
#define MOST_PARTS 26

/* A part shorter than this, in hours, is left to its neighbour. */
#define SLIVER 1e-9

/* The room in one month, as the plant feels it. */
struct month {
    double air;  /* vapour pressure, Pa */
    double loss; /* W, of water on the set point while the room is at its mean */
};

/* What of a case stays the same all year, the loss factor worked in. */
struct plant {
    const struct tc_heat_case *c;
    struct tc_conductance surfaces; /* W/K */
    double dry;                     /* W/K, their sum */
    double evaporation;             /* W/Pa */
    double capacity;                /* J/K */
    double pressure;                /* saturation pressure at the set point, Pa */
    double slope;                   /* of it there, Pa/K */

    /* The day: in W what is gained from pumps, lamps and the room's swing about its mean. */
    int part_count;
    int part_hour[MOST_PARTS];
    double part_seconds[MOST_PARTS];
    double part_gain[MOST_PARTS];
    double hour_gain[24];
    double least_gain, most_gain; /* of the parts */
    double mean_gain;

    struct month months[12];
};

/* One day as followed, theta being the water's temperature less the set point. */
struct day {
    double begin;
    struct tc_thermostat_run run;
    double heat[MOST_PARTS]; /* J given by the heater in each part */
};

/* What a month comes to. */
struct tally {
    double *heat;    /* J by hour of the day */
    double integral; /* of theta over time, K s */
    double vapour;   /* of what the vapour pressure at the water is above that at the set point, Pa s */
    double lowest, highest; /* theta on the day that repeats */
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

static bool within(double value, double low, double high)
{
    return value >= low && value <= high;
}

static bool is_temperature(double value)
{
    return within(value, 233.15, 373.15);
}

enum tc_status tc_heat_check(const struct tc_heat_case *c)
{
    bool ok = tc_glazing_check(&c->glazing) == TC_OK && within(c->water_volume, 1e-9, 1e6) &&
              within(c->extra_heat_capacity, 0, 1e12) && within(c->activity, 0, 10) &&
              within(c->loss_factor, TC_LOSS_FACTOR_LEAST, TC_LOSS_FACTOR_MOST) &&
              within(c->set_temperature, 273.15, 323.15) && is_temperature(c->limit_temperature) &&
              c->heater_power >= 0 && within(c->gain_steady, 0, 1e6) && within(c->gain_light, 0, 1e6) &&
              c->light_begin >= 0 && c->light_begin < 24 && within(c->light_hours, 0, 24) &&
              within(c->room_swing, 0, 30);
    for (int i = 0; i < 12; i++)
        ok = ok && is_temperature(c->room_temperature[i]) && within(c->room_humidity[i], 0, 1);
    return ok ? TC_OK : TC_RANGE;
}

static struct tc_conductance scaled(struct tc_conductance k, double factor)
{
    return (struct tc_conductance){k.sides * factor, k.bottom * factor, k.surface * factor, k.lid * factor};
}

/* The plant without its day. */
static struct plant plant_of(const struct tc_heat_case *c)
{
    const struct tc_glazing *g = &c->glazing;
    struct plant p = {
        .c = c,
        .surfaces = scaled(tc_glazing_conductance(g, c->set_temperature), c->loss_factor),
        .capacity = c->water_volume * TC_WATER_HEAT_CAPACITY + c->extra_heat_capacity,
        .pressure = tc_saturation_pressure(c->set_temperature),
        .slope = tc_saturation_slope(c->set_temperature),
    };
    double open = tc_water_surface(g) * (1 - g->covered_share);
    p.evaporation = c->loss_factor * tc_evaporation_conductance(open, c->activity);
    p.dry = p.surfaces.sides + p.surfaces.bottom + p.surfaces.surface + p.surfaces.lid;
    return p;
}

/*
 * Integral of the room's wave cos(2 pi (t - TC_WARMEST_HOUR) / 24) up to t, both in hours, but for a
 * constant. The table holds it for the full hours; it begins as it ends, so that a day of it adds up to
 * nothing.
 */
static const double wave_until_hour[25] = {
    2.7009489484713183,  1.909859317102744,   0.9886159294653692,  0.0,
    -0.9886159294653692, -1.909859317102744,  -2.7009489484713183, -3.3079733725307525,
    -3.6895648779366876, -3.8197186342054885, -3.6895648779366876, -3.3079733725307525,
    -2.7009489484713183, -1.909859317102744,  -0.9886159294653692, 0.0,
    0.9886159294653692,  1.909859317102744,   2.7009489484713183,  3.3079733725307525,
    3.6895648779366876,  3.8197186342054885,  3.6895648779366876,  3.3079733725307525,
    2.7009489484713183,
};

static double wave_until(double t)
{
    const double turn = 2 * 3.14159265358979323846 / 24;
    int hour = (int)t;
    return t == hour ? wave_until_hour[hour] : sin(turn * (t - TC_WARMEST_HOUR)) / turn;
}

/* Adds the part of the day from begin to end, in hours, which lies within an hour. */
static void add_part(struct plant *p, int hour, double begin, double end, bool lit)
{
    const struct tc_heat_case *c = p->c;
    double wave = (wave_until(end) - wave_until(begin)) / (end - begin);
    double gain = c->gain_steady + (lit ? c->gain_light : 0) + p->dry * c->room_swing * wave;
    int i = p->part_count++;
    p->part_hour[i] = hour;
    p->part_seconds[i] = (end - begin) * HOUR;
    p->part_gain[i] = gain;
    p->hour_gain[hour] += gain * (end - begin);
    p->least_gain = least(p->least_gain, gain);
    p->most_gain = most(p->most_gain, gain);
}

/* Cuts the day into its hours, and these where the light goes on or off. */
static void add_day(struct plant *p)
{
    const struct tc_heat_case *c = p->c;
    double on = c->light_begin, off = on + c->light_hours;
    double cut[2] = {on, off < 24 ? off : off - 24};
    if (cut[0] > cut[1]) {
        cut[0] = cut[1];
        cut[1] = on;
    }
    p->least_gain = INFINITY;
    p->most_gain = -INFINITY;
    double begin = 0;
    for (int hour = 0; hour < 24; hour++) {
        const double ends[3] = {cut[0], cut[1], hour + 1};
        for (int i = 0; i < 3; i++) {
            if (ends[i] - begin < SLIVER || ends[i] > hour + 1)
                continue;
            double middle = begin + (ends[i] - begin) / 2;
            add_part(p, hour, begin, ends[i], tc_light_is_on(on, c->light_hours, middle));
            begin = ends[i];
        }
    }
    p->mean_gain = c->gain_steady + c->gain_light * c->light_hours / 24;
}

/* Loss in W of water on the set point. */
static double loss_at(const struct plant *p, double room_temperature, double air)
{
    return p->dry * (p->c->set_temperature - room_temperature) + p->evaporation * (p->pressure - air);
}

/*
 * Slope by which evaporation is taken to grow away from the set point: that of the saturation pressure's
 * chord from there to theta, which is exact at both ends. Near the set point it is the tangent's.
 */
static double chord(const struct plant *p, double theta)
{
    double set = p->c->set_temperature;
    double water = least(most(set + theta, 233.15), 373.15);
    if (fabs(theta) < TANGENT)
        return p->slope;
    return (tc_saturation_pressure(water) - p->pressure) / (water - set);
}

/* Where theta settles on the mean over a day, and the chord to there. */
static double settle(const struct plant *p, double loss, double *slope)
{
    double net = p->mean_gain - loss, theta = 0;
    if (net < 0)
        net = least(net + p->c->heater_power, 0);
    *slope = p->slope;
    for (int i = 0; i < 2; i++) {
        theta = net / (p->dry + p->evaporation * *slope);
        *slope = chord(p, theta);
    }
    return theta;
}

static void add_room(struct plant *p)
{
    const struct tc_heat_case *c = p->c;
    for (int i = 0; i < 12; i++)
        p->months[i].air = c->room_humidity[i] * tc_saturation_pressure(c->room_temperature[i]);
    for (int i = 0; i < 12; i++)
        p->months[i].loss = loss_at(p, c->room_temperature[i], p->months[i].air);
}

/* A month of days on the set point, if the heater can hold it there all day. */
static bool hold_month(const struct plant *p, double loss, int days, struct tally *tally)
{
    if (loss < p->most_gain || loss - p->least_gain > p->c->heater_power)
        return false;
    for (int hour = 0; hour < 24; hour++)
        tally->heat[hour] = (loss - p->hour_gain[hour]) * (HOUR * days);
    tally->integral = tally->vapour = tally->lowest = tally->highest = 0;
    return true;
}

/* A thermostat, and the parts of the day made for it. */
struct clock {
    double reach; /* the theta to which evaporation follows the chord */
    double slope; /* of that chord, Pa/K */
    struct tc_thermostat thermostat;
    struct tc_stretch stretch[MOST_PARTS];
    double day_kept; /* what is left of a deviation after a day the set point is not met in */
};

static void wind_clock(const struct plant *p, double reach, double slope, struct clock *clock)
{
    clock->reach = reach;
    clock->slope = slope;
    clock->thermostat = (struct tc_thermostat){
        .capacity = p->capacity,
        .conductance = p->dry + p->evaporation * slope,
        .power = p->c->heater_power,
    };
    struct tc_stretch hour = tc_stretch_make(&clock->thermostat, HOUR);
    for (int i = 0; i < p->part_count; i++) {
        double seconds = p->part_seconds[i];
        clock->stretch[i] = seconds == HOUR ? hour : tc_stretch_make(&clock->thermostat, seconds);
    }
    clock->day_kept = exp(-DAY * clock->thermostat.conductance / p->capacity);
}

static void follow_day(const struct plant *p, double loss, const struct clock *clock, double theta,
                       struct day *day)
{
    day->begin = theta;
    day->run = tc_thermostat_follow(&clock->thermostat, theta, p->part_count, clock->stretch, p->part_gain,
                                    loss, day->heat);
}

/*
 * On days that touch the set point the water runs between there and an extreme, and the mean day does not
 * tell how far. The chord that gives such a day's evaporation its due reaches to the mean of theta weighted
 * by theta: seven tenths of the way, for anything like an arch.
 */
static void adjust_clock(const struct plant *p, const struct day *day, struct clock *clock)
{
    if (!day->run.held)
        return;
    double reach = 0.7 * (day->run.highest > -day->run.lowest ? day->run.highest : day->run.lowest);
    if (fabs(reach - clock->reach) > TANGENT)
        wind_clock(p, reach, chord(p, reach), clock);
}

static void add_integral(const struct clock *clock, double integral, struct tally *tally)
{
    tally->integral += integral;
    tally->vapour += clock->slope * integral;
}

static void add_days(const struct plant *p, const struct clock *clock, const struct day *day, double days,
                     struct tally *tally)
{
    bool heated = day->run.held || day->run.theta < 0;
    for (int i = 0; heated && i < p->part_count; i++)
        tally->heat[p->part_hour[i]] += day->heat[i] * days;
    add_integral(clock, day->run.integral * days, tally);
    tally->lowest = day->run.lowest;
    tally->highest = day->run.highest;
}

/*
 * Days that never meet the set point run alike: what is left of the deviation from the day that repeats
 * shrinks by the same factor every day. Tries to add the days that are left, the first of which
 * starts where `day` ended, at one go.
 */
static bool add_settling_days(const struct plant *p, double loss, const struct clock *clock,
                              const struct day *day, int days, double *theta, struct tally *tally)
{
    double settled = day->begin + (day->run.theta - day->begin) / (1 - clock->day_kept);
    if (day->run.held || (settled < 0) != (day->run.theta < 0))
        return false;
    struct day repeating;
    follow_day(p, loss, clock, settled, &repeating);
    if (repeating.run.held)
        return false;
    add_days(p, clock, &repeating, days, tally);
    double left = day->run.theta - settled;
    double left_last = left * pow(clock->day_kept, days);
    add_integral(clock, (left - left_last) * p->capacity / clock->thermostat.conductance, tally);
    *theta = settled + left_last;
    return true;
}

/* Follows a month from *theta to its end. */
static void follow_month(const struct plant *p, int index, double *theta, struct tally *tally)
{
    double loss = p->months[index].loss;
    int days = tc_load_days(index);
    if (*theta == 0 && hold_month(p, loss, days, tally))
        return;
    memset(tally->heat, 0, 24 * sizeof tally->heat[0]);
    tally->integral = tally->vapour = 0;
    double slope, settled = settle(p, loss, &slope);
    struct clock clock;
    wind_clock(p, settled, slope, &clock);
    for (int left = days; left > 0; left--) {
        struct day day;
        follow_day(p, loss, &clock, *theta, &day);
        *theta = day.run.theta;
        if (fabs(day.run.theta - day.begin) < SAME_TEMPERATURE) {
            add_days(p, &clock, &day, left, tally);
            return;
        }
        add_days(p, &clock, &day, 1, tally);
        if (left > 1 && add_settling_days(p, loss, &clock, &day, left - 1, theta, tally))
            return;
        adjust_clock(p, &day, &clock);
    }
}

/* Four sums side by side, because one of 24 terms would wait for each of them. */
static double sum_of_hours(const double heat[24])
{
    double sum[4] = {0};
    for (int hour = 0; hour < 24; hour += 4)
        for (int i = 0; i < 4; i++)
            sum[i] += heat[hour + i];
    return (sum[0] + sum[1]) + (sum[2] + sum[3]);
}

static void record_month(const struct plant *p, int index, const struct tally *tally,
                         struct tc_heat_year *year)
{
    year->heater_month[index] = sum_of_hours(tally->heat);
    year->heater_total += year->heater_month[index];
    year->water_lowest[index] = p->c->set_temperature + tally->lowest;
    year->water_highest[index] = p->c->set_temperature + tally->highest;

    double time = DAY * tc_load_days(index);
    /* The room's swing adds up to nothing over whole days. */
    double dry = tally->integral + (p->c->set_temperature - p->c->room_temperature[index]) * time;
    double wet = p->evaporation * (tally->vapour + (p->pressure - p->months[index].air) * time);
    const struct tc_conductance *k = &p->surfaces;
    year->loss.sides += k->sides * dry;
    year->loss.bottom += k->bottom * dry;
    year->loss.surface += k->surface * dry;
    year->loss.lid += k->lid * dry;
    year->loss.evaporation += wet;
    /* Vapour that settles on cold water fills the tank, but nobody is paid for it. */
    year->evaporated[index] = most(wet, 0) / (tc_latent_heat(p->c->set_temperature) * MAKE_UP_DENSITY);
    year->evaporated_total += year->evaporated[index];
}

static int hardest_month(const struct plant *p)
{
    int hardest = 0;
    for (int i = 1; i < 12; i++)
        if (p->months[i].loss > p->months[hardest].loss)
            hardest = i;
    return hardest;
}

/* Duty and shortfall in the coldest month. */
static void record_coldest(const struct plant *p, struct tc_heat_year *year)
{
    int index = hardest_month(p);
    double power = p->c->heater_power;
    year->coldest_month = index;
    if (power > 0 && isfinite(power))
        year->duty = least(year->heater_month[index] / (power * DAY * tc_load_days(index)), 1);
    year->shortfall = most(p->c->set_temperature - year->water_lowest[index], 0);
    year->unserved = most(p->months[index].loss - p->least_gain - power, 0);
}

static void record_hottest(const struct plant *p, struct tc_heat_year *year)
{
    year->hottest_month = 0;
    for (int i = 1; i < 12; i++)
        if (year->water_highest[i] > year->water_highest[year->hottest_month])
            year->hottest_month = i;
    year->hottest = year->water_highest[year->hottest_month];
    year->above_limit = year->hottest > p->c->limit_temperature;
}

enum tc_status tc_heat_year(const struct tc_heat_case *c, struct tc_heat_year *year)
{
    if (tc_heat_check(c) != TC_OK)
        return TC_RANGE;
    struct plant p = plant_of(c);
    add_room(&p);
    add_day(&p);
    *year = (struct tc_heat_year){0};

    /* January starts where December ends. */
    double slope, theta = settle(&p, p.months[11].loss, &slope);
    struct tally tally = {.heat = year->heater[11]};
    follow_month(&p, 11, &theta, &tally);
    double start = theta;
    for (int i = 0; i < 12; i++) {
        tally.heat = year->heater[i];
        follow_month(&p, i, &theta, &tally);
        record_month(&p, i, &tally, year);
    }
    year->stored = p.capacity * (theta - start);
    year->gain_steady = c->gain_steady * DAY * 365;
    year->gain_light = c->gain_light * c->light_hours * HOUR * 365;
    record_coldest(&p, year);
    record_hottest(&p, year);
    return TC_OK;
}

double tc_heat_loss_total(const struct tc_heat_losses *loss)
{
    return loss->sides + loss->bottom + loss->surface + loss->lid + loss->evaporation;
}

double tc_heat_loss_at(const struct tc_heat_case *c, double room_temperature, double humidity)
{
    struct plant p = plant_of(c);
    return loss_at(&p, room_temperature, humidity * tc_saturation_pressure(room_temperature));
}

enum tc_status tc_heat_needed_power(const struct tc_heat_case *c, double margin, double *power)
{
    if (tc_heat_check(c) != TC_OK || !within(margin, 0, 10))
        return TC_RANGE;
    struct plant p = plant_of(c);
    add_room(&p);
    double need = p.months[hardest_month(&p)].loss + p.dry * c->room_swing - c->gain_steady;
    *power = most(need, 0) * (1 + margin);
    return TC_OK;
}
