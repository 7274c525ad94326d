/* SPDX-License-Identifier: MIT */
#include "core/heat.h"

#include <math.h>
#include <string.h>

#include "core/light.h"
#include "core/thermostat.h"
#include "core/vapour.h"

#define HOUR 3600.0
#define DAY  86400.0

/* Water as it is poured in to make up for evaporation, kg/m3 at 20 degrees Celsius. */
#define MAKE_UP_DENSITY 998.2

/* A day repeats the one before if it ends this close to where it began, K. */
#define SAME_TEMPERATURE 1e-9

const int tc_days_of_month[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

/*
 * Mean over each hour of cos(2 pi (t - TC_WARMEST_HOUR) / 24), t in hours. The hours come in
 * pairs of opposite sign, so a day of them adds up to exactly nothing.
 */
static const double room_wave[24] = {
    -0.7910896313685741, -0.9212433876373749, -0.9886159294653691, -0.9886159294653691, -0.9212433876373749,
    -0.7910896313685741, -0.6070244240594341, -0.3815915054059350, -0.1301537562688007, 0.1301537562688007,
    0.3815915054059350,  0.6070244240594341,  0.7910896313685741,  0.9212433876373749,  0.9886159294653691,
    0.9886159294653691,  0.9212433876373749,  0.7910896313685741,  0.6070244240594341,  0.3815915054059350,
    0.1301537562688007,  -0.1301537562688007, -0.3815915054059350, -0.6070244240594341,
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
    double hourly[24];              /* W gained in each hour: gains, and the room's swing about its mean */
    double gain;                    /* W, mean of the gains over a day */
};

/* One month of a plant. */
struct month {
    double air;   /* vapour pressure in the room, Pa */
    double loss;  /* W at the set point in the room's mean temperature */
    double slope; /* by which evaporation is taken to change with the water's temperature, Pa/K */
};

/* One day as followed. theta is the water's temperature less the set point. */
struct day {
    double heat[24]; /* J given by the heater in each hour */
    double begin, end, lowest, highest;
    struct tc_thermostat_sum sum;
};

/* What a month comes to. */
struct tally {
    double heat[24]; /* J */
    double integral; /* of theta, K s */
    double lowest, highest;
};

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
              within(c->loss_factor, 0.01, 100) && within(c->set_temperature, 273.15, 323.15) &&
              is_temperature(c->limit_temperature) && c->heater_power >= 0 &&
              within(c->gain_steady, 0, 1e6) && within(c->gain_light, 0, 1e6) && c->light_begin >= 0 &&
              c->light_begin < 24 && within(c->light_hours, 0, 24) && within(c->room_swing, 0, 30);
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

static void add_day(struct plant *p)
{
    const struct tc_heat_case *c = p->c;
    double lit[24];
    (void)tc_light_by_hour(c->light_begin, c->light_hours, lit); /* its ranges are checked */
    double swing = p->dry * c->room_swing;
    for (int hour = 0; hour < 24; hour++)
        p->hourly[hour] = c->gain_steady + c->gain_light * lit[hour] + swing * room_wave[hour];
    p->gain = c->gain_steady + c->gain_light * c->light_hours / 24;
}

/* Loss in W at the set point. */
static double loss_at(const struct plant *p, double room_temperature, double air)
{
    return p->dry * (p->c->set_temperature - room_temperature) + p->evaporation * (p->pressure - air);
}

/*
 * The slope of the chord of the saturation pressure from the set point to where the mean day settles: the
 * water is on the set point, or near that end, so the chord is exact where it matters. Near the set point it
 * is the tangent.
 */
static double chord(const struct plant *p, double loss)
{
    double net = p->gain - loss;
    if (net < 0)
        net = fmin(net + p->c->heater_power, 0);
    double slope = p->slope;
    for (int i = 0; i < 3; i++) {
        double theta = net / (p->dry + p->evaporation * slope);
        double water = fmin(fmax(p->c->set_temperature + theta, 233.15), 373.15);
        theta = water - p->c->set_temperature;
        if (fabs(theta) < 0.25)
            return p->slope;
        slope = (tc_saturation_pressure(water) - p->pressure) / theta;
    }
    return slope;
}

static struct month month_of(const struct plant *p, int index)
{
    double room = p->c->room_temperature[index];
    double air = p->c->room_humidity[index] * tc_saturation_pressure(room);
    return (struct month){.air = air, .loss = loss_at(p, room, air), .slope = p->slope};
}

/* A day during which the heater can hold the set point in every hour, for water that starts on it. */
static bool hold_day(const struct plant *p, const struct month *m, struct tally *tally, double days)
{
    double power = p->c->heater_power;
    bool can = true;
    for (int hour = 0; hour < 24; hour++) {
        double need = m->loss - p->hourly[hour];
        can &= need >= 0 && need <= power;
        tally->heat[hour] = need * HOUR * days;
    }
    tally->integral = tally->lowest = tally->highest = 0;
    return can;
}

static void follow_day(const struct plant *p, const struct month *m, const struct tc_thermostat *thermostat,
                       double theta, struct day *day)
{
    day->begin = theta;
    day->lowest = INFINITY;
    day->highest = -INFINITY;
    day->sum = (struct tc_thermostat_sum){0};
    for (int hour = 0; hour < 24; hour++) {
        day->heat[hour] = tc_thermostat_step(thermostat, p->hourly[hour] - m->loss, &theta, &day->sum);
        day->lowest = fmin(day->lowest, theta);
        day->highest = fmax(day->highest, theta);
    }
    day->end = theta;
}

static void add_days(struct tally *tally, const struct day *day, double days)
{
    for (int hour = 0; hour < 24; hour++)
        tally->heat[hour] += day->heat[hour] * days;
    tally->integral += day->sum.integral * days;
    tally->lowest = day->lowest;
    tally->highest = day->highest;
}

/*
 * Days that never meet the set point all run alike: what is left of the deviation from the
 * repeating day shrinks by the same factor every day. Tries to add the days that are left, the
 * first of which starts where `day` ends, that way.
 */
static bool add_settling_days(const struct plant *p, const struct month *m,
                              const struct tc_thermostat *thermostat, const struct day *day, double days,
                              double *theta, struct tally *tally)
{
    double rate = thermostat->conductance / thermostat->capacity;
    double kept = exp(-rate * DAY);
    double settled = day->begin + (day->end - day->begin) / (1 - kept);
    if (day->sum.held || settled * day->end <= 0)
        return false;
    struct day repeating;
    follow_day(p, m, thermostat, settled, &repeating);
    if (repeating.sum.held)
        return false;
    add_days(tally, &repeating, days);
    double left = day->end - settled;
    double left_last = left * exp(-rate * DAY * days);
    tally->integral += (left - left_last) / rate;
    *theta = settled + left_last;
    return true;
}

/* Follows a month from *theta to its end. */
static void follow_month(const struct plant *p, struct month *m, int days, double *theta, struct tally *tally)
{
    if (*theta == 0 && hold_day(p, m, tally, days))
        return;
    memset(tally, 0, sizeof *tally);
    m->slope = chord(p, m->loss);
    struct tc_thermostat thermostat =
        tc_thermostat_make(p->capacity, p->dry + p->evaporation * m->slope, p->c->heater_power, HOUR);
    for (int left = days; left > 0; left--) {
        struct day day;
        follow_day(p, m, &thermostat, *theta, &day);
        *theta = day.end;
        if (fabs(day.end - day.begin) < SAME_TEMPERATURE) {
            add_days(tally, &day, left);
            return;
        }
        add_days(tally, &day, 1);
        if (left > 1 && add_settling_days(p, m, &thermostat, &day, left - 1, theta, tally))
            return;
    }
}

static void record_losses(const struct plant *p, const struct month *m, int index, const struct tally *tally,
                          struct tc_heat_year *year)
{
    const struct tc_conductance *k = &p->surfaces;
    double time = DAY * tc_days_of_month[index];
    /* The room's swing adds up to nothing over whole days. */
    double dry = tally->integral + (p->c->set_temperature - p->c->room_temperature[index]) * time;
    double wet = p->evaporation * (tally->integral * m->slope + (p->pressure - m->air) * time);
    year->loss.sides += k->sides * dry;
    year->loss.bottom += k->bottom * dry;
    year->loss.surface += k->surface * dry;
    year->loss.lid += k->lid * dry;
    year->loss.evaporation += wet;
    /* Vapour that settles on cold water fills the tank, but nobody is paid for it. */
    year->evaporated[index] = fmax(wet, 0) / (tc_latent_heat(p->c->set_temperature) * MAKE_UP_DENSITY);
    year->evaporated_total += year->evaporated[index];
}

static void record_month(const struct plant *p, const struct month *m, int index, const struct tally *tally,
                         struct tc_heat_year *year)
{
    memcpy(year->heater[index], tally->heat, sizeof tally->heat);
    double sum = 0;
    for (int hour = 0; hour < 24; hour++)
        sum += tally->heat[hour];
    year->heater_total += sum;
    year->water_lowest[index] = p->c->set_temperature + tally->lowest;
    year->water_highest[index] = p->c->set_temperature + tally->highest;
    record_losses(p, m, index, tally, year);
}

/* Duty and shortfall in the coldest month. */
static void record_coldest(const struct plant *p, double loss, struct tc_heat_year *year)
{
    int index = year->coldest_month;
    double power = p->c->heater_power;
    double sum = 0, need = 0;
    for (int hour = 0; hour < 24; hour++) {
        sum += year->heater[index][hour];
        need = fmax(need, loss - p->hourly[hour]);
    }
    if (power > 0 && isfinite(power))
        year->duty = fmin(sum / (power * DAY * tc_days_of_month[index]), 1);
    year->shortfall = fmax(p->c->set_temperature - year->water_lowest[index], 0);
    year->unserved = fmax(need - power, 0);
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
    add_day(&p);
    *year = (struct tc_heat_year){0};

    /* January starts where December ends. */
    double theta = 0;
    struct tally tally;
    struct month m = month_of(&p, 11);
    follow_month(&p, &m, tc_days_of_month[11], &theta, &tally);
    double start = theta, hardest = -INFINITY;
    for (int i = 0; i < 12; i++) {
        m = month_of(&p, i);
        follow_month(&p, &m, tc_days_of_month[i], &theta, &tally);
        record_month(&p, &m, i, &tally, year);
        if (m.loss > hardest) {
            hardest = m.loss;
            year->coldest_month = i;
        }
    }
    year->stored = p.capacity * (theta - start);
    year->gain_steady = c->gain_steady * DAY * 365;
    year->gain_light = c->gain_light * c->light_hours * HOUR * 365;
    record_coldest(&p, hardest, year);
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
    double worst = -INFINITY;
    for (int i = 0; i < 12; i++)
        worst = fmax(worst, month_of(&p, i).loss);
    double need = worst + p.dry * c->room_swing - c->gain_steady;
    *power = fmax(need, 0) * (1 + margin);
    return TC_OK;
}
