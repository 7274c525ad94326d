/* SPDX-License-Identifier: MIT */
#include "support/heat_cases.h"

#include <math.h>
#include <stdbool.h>

#include "core/tariff/load.h"
#include "core/physics/vapour.h"

#define INCH   0.0254
#define MINUTE 60.0

struct tc_heat_case tc_plain_case(void)
{
    struct tc_heat_case c = {
        .glazing = {.inner_length = 30 * INCH - 0.012,
                    .inner_width = 12 * INCH - 0.012,
                    .water_depth = 0.42,
                    .side_thickness = 0.006,
                    .bottom_thickness = 0.006,
                    .bottom_insulation = TC_BOARD_RESISTANCE,
                    .lid_resistance = 0.004},
        .activity = TC_ACTIVITY_CALM,
        .loss_factor = 1,
        .fresh_temperature = 285.15,
        .set_temperature = 298.15,
        .limit_temperature = 303.15,
        .heater_power = 150,
        .gain_steady = 5,
        .gain_light = 7.5,
        .light_begin = 7.5,
        .light_hours = 9,
    };
    c.water_volume = tc_water_surface(&c.glazing) * c.glazing.water_depth;
    for (int i = 0; i < 12; i++) {
        c.room_temperature[i] = 294.15;
        c.room_humidity[i] = 0.5;
    }
    return c;
}

double tc_random_unit(uint64_t *state)
{
    *state += UINT64_C(0x9e3779b97f4a7c15);
    uint64_t z = *state;
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return (double)((z ^ (z >> 31)) >> 11) * 0x1p-53;
}

double tc_random_between(uint64_t *state, double low, double high)
{
    return low + (high - low) * tc_random_unit(state);
}

static void random_tank(uint64_t *state, struct tc_heat_case *c)
{
    struct tc_glazing *g = &c->glazing;
    double size = exp(tc_random_between(state, log(0.2), log(1.2)));
    g->inner_length = size * tc_random_between(state, 1, 2.5);
    g->inner_width = size * tc_random_between(state, 0.5, 1);
    g->water_depth = size * tc_random_between(state, 0.5, 1);
    g->side_thickness = tc_random_between(state, 0.004, 0.02);
    g->bottom_thickness = tc_random_between(state, 0.004, 0.02);
    g->side_insulation = tc_random_unit(state) < 0.2 ? tc_random_between(state, 0, 1) : 0;
    g->sheltered_share = tc_random_unit(state) < 0.3 ? tc_random_unit(state) : 0;
    g->bottom_insulation = tc_random_between(state, 0, 1);
    double cover = tc_random_unit(state);
    g->covered_share = cover < 0.3 ? 0 : cover < 0.6 ? 1 : cover;
    g->lid_resistance = tc_random_between(state, 0.002, 0.2);
    c->water_volume = tc_water_surface(g) * g->water_depth * tc_random_between(state, 0.8, 1);
    c->extra_heat_capacity = c->water_volume * 2e5;
    c->activity = tc_random_between(state, 0.5, 1.5);
}

static void random_room(uint64_t *state, struct tc_heat_case *c)
{
    double mean = 273.15 + tc_random_between(state, 14, 26);
    double season = tc_random_between(state, 0, 6);
    for (int i = 0; i < 12; i++) {
        double wave = cos(2 * 3.14159265358979 * (i - 6.5) / 12);
        c->room_temperature[i] = mean + season * wave + tc_random_between(state, -1, 1);
        c->room_humidity[i] = tc_random_between(state, 0.3, 0.8);
    }
    c->room_swing = tc_random_between(state, 0, 4);
}

struct tc_heat_case tc_random_case(uint64_t *state)
{
    struct tc_heat_case c = {.loss_factor = tc_random_between(state, 0.7, 1.4)};
    random_tank(state, &c);
    random_room(state, &c);
    c.set_temperature = 273.15 + tc_random_between(state, 18, 29);
    c.limit_temperature = c.set_temperature + 3;
    c.fresh_temperature = 273.15 + tc_random_between(state, 5, 25);
    if (tc_random_unit(state) < 0.5)
        c.fresh_flow = c.water_volume * tc_random_between(state, 0, 0.1) / 86400;
    c.gain_light = c.water_volume * tc_random_between(state, 0, 300);
    c.light_hours = tc_random_between(state, 0, 14);
    c.light_begin = tc_random_between(state, 0, 23.9);
    c.gain_steady = c.water_volume * tc_random_between(state, 0, 100);
    double heater = tc_random_unit(state);
    c.heater_power = heater < 0.1   ? INFINITY
                     : heater < 0.8 ? c.water_volume * tc_random_between(state, 500, 1500)
                                    : c.water_volume * tc_random_between(state, 0, 500);
    return c;
}

/* What does not change from minute to minute. */
struct reference {
    const struct tc_heat_case *c;
    double plain, wet, fresh, capacity, area;
    double wave[1440], lit[1440];
};

/* The share of a minute in which the light is on; it may go on into the next day. */
static double lit_share(const struct tc_heat_case *c, int minute)
{
    double share = 0;
    for (int day = 0; day <= 1; day++) {
        double begin = minute + 1440 * day, on = c->light_begin * 60, off = on + c->light_hours * 60;
        share += fmax(fmin(off, begin + 1) - fmax(on, begin), 0);
    }
    return share;
}

static void prepare(struct reference *r, const struct tc_heat_case *c)
{
    const struct tc_glazing *g = &c->glazing;
    struct tc_conductance k = tc_glazing_conductance(g, c->set_temperature);
    double open = tc_water_surface(g) * (1 - g->covered_share);
    r->c = c;
    r->plain = c->loss_factor * (k.bottom + k.surface + k.lid);
    r->area = c->loss_factor * (1 - g->sheltered_share) * tc_side_area(g);
    r->wet = c->loss_factor * open * c->activity * 0.089;
    r->fresh = c->fresh_flow * TC_WATER_HEAT_CAPACITY;
    r->capacity = c->water_volume * TC_WATER_HEAT_CAPACITY + c->extra_heat_capacity;
    for (int minute = 0; minute < 1440; minute++) {
        double hour = (minute + 0.5) / 60;
        r->wave[minute] = c->room_swing * cos(2 * 3.14159265358979323846 * (hour - TC_WARMEST_HOUR) / 24);
        r->lit[minute] = c->gain_light * lit_share(c, minute);
    }
}

/*
 * W through a m2 of the sides. *share is how much of the difference stands over the film, which hardly
 * changes from minute to minute: each takes the film that the last one's share makes.
 */
static double side_flux(const struct tc_heat_case *c, double water, double room, double *share)
{
    const struct tc_glazing *g = &c->glazing;
    double all = fabs(water - room), mean = (water + room) / 2;
    double root = 0.1338 / sqrt(g->water_depth) + 1.116 * cbrt(sqrt(*share * all));
    double film = 4 * 0.837 * 5.670374e-8 * mean * mean * mean + root * root;
    *share = 1 / (1 + film * (g->side_thickness + g->side_insulation));
    return film * *share * (water - room);
}

static double run_day(const struct reference *r, int month, double water, struct tc_minute_year *year)
{
    const struct tc_heat_case *c = r->c;
    double mean = c->room_temperature[month], share = 1;
    double air = c->room_humidity[month] * tc_saturation_pressure(mean);
    double evaporated = 0;
    for (int i = 0; i < 8; i++)
        side_flux(c, water, mean + r->wave[0], &share);
    for (int minute = 0; minute < 1440; minute++) {
        double room = mean + r->wave[minute];
        double wet = r->wet * (tc_saturation_pressure(water) - air);
        double loss = r->plain * (water - room) + r->area * side_flux(c, water, room, &share) + wet +
                      r->fresh * (water - c->fresh_temperature);
        double net = c->gain_steady + r->lit[minute] - loss;
        double asked = (c->set_temperature - water) * r->capacity / MINUTE - net;
        double heater = fmin(fmax(asked, 0), c->heater_power);
        water += (net + heater) * MINUTE / r->capacity;
        evaporated += wet * MINUTE;
        year->heater[month][minute / 60] += heater * MINUTE;
        year->heater_total += heater * MINUTE;
        year->highest = fmax(year->highest, water);
    }
    year->evaporated[month] += evaporated / (tc_latent_heat(c->set_temperature) * 998.2);
    return water;
}

void tc_minute_year(const struct tc_heat_case *c, struct tc_minute_year *year)
{
    struct reference r;
    prepare(&r, c);
    *year = (struct tc_minute_year){0};
    double water = c->set_temperature;
    for (int day = 0; day < 2 * tc_load_days(11); day++)
        water = run_day(&r, 11, water, year);
    *year = (struct tc_minute_year){0};
    for (int month = 0; month < 12; month++)
        for (int day = 0; day < tc_load_days(month); day++)
            water = run_day(&r, month, water, year);
}
