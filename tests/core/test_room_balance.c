/* SPDX-License-Identifier: MIT */
/* A room and its tanks: one solution, found; by hand; against a simulation by the minute. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/physics/room_balance.h"
#include "core/physics/vapour.h"
#include "core/tariff/load.h"
#include "support/heat_cases.h"
#include "support/near.h"
#include "support/step.h"

#define KWH    3.6e6
#define MINUTE 60.0

/* A room like that all year that nobody heats or cools. */
static struct tc_room plain_room(double loss, double base, double humidity)
{
    struct tc_room room = {.loss = loss};
    for (int month = 0; month < 12; month++) {
        room.base[month] = base;
        room.vapour[month] = humidity * tc_saturation_pressure(base);
        room.floor[month] = -INFINITY;
        room.ceiling[month] = INFINITY;
    }
    return room;
}

static struct tc_room_year balanced(const struct tc_room *room, const struct tc_room_tank *tanks, int count)
{
    struct tc_room_year year;
    assert_int_equal(tc_room_balance(room, tanks, count, &year), TC_OK);
    return year;
}

/* One covered tank on its set point: K (T_set - T) + beside = G (T - base), but for the sides' film. */
static void a_covered_tank_by_hand(void **state)
{
    (void)state;
    struct tc_heat_case c = tc_plain_case();
    c.glazing.covered_share = 1;
    c.glazing.sheltered_share = 1; /* so that the loss is a straight line */
    struct tc_conductance k = tc_glazing_conductance(&c.glazing, c.set_temperature);
    double each = k.bottom + k.lid;
    const struct tc_room_tank tanks = {&c, 30, 4};
    struct tc_room room = plain_room(60, 293.15, 0.5);
    c.gain_steady = c.gain_light = 0;
    struct tc_room_year year = balanced(&room, &tanks, 1);
    double wanted = (60 * 293.15 + 30 * (each * 298.15 + 4)) / (60 + 30 * each);
    assert_near(year.month[4].temperature, wanted, 1e-4);
    assert_near(year.month[4].tanks, 60 * (wanted - 293.15), 0.01);
    assert_near(year.month[4].vapour, room.vapour[4], 1e-9);
    assert_near(year.month[4].evaporation, 0, 0);
    /* A heating that keeps it warmer works for the rest; a cooling takes out what there is too much. */
    room.floor[1] = wanted + 1;
    room.ceiling[2] = wanted - 1;
    year = balanced(&room, &tanks, 1);
    assert_near(year.month[1].temperature, wanted + 1, 1e-5);
    assert_near(year.month[1].heating, 60 + 30 * each, 0.01);
    assert_near(year.month[2].cooling, 60 + 30 * each, 0.01);
    assert_near(year.month[0].heating, 0, 0);
}

static void random_room(uint64_t *seed, struct tc_room *room)
{
    *room = plain_room(exp(tc_random_between(seed, log(5), log(300))), tc_random_between(seed, 278, 300),
                       tc_random_between(seed, 0.3, 0.8));
    if (tc_random_unit(seed) < 0.5)
        room->air_flow = exp(tc_random_between(seed, log(0.002), log(0.1)));
    if (tc_random_unit(seed) < 0.5)
        room->capacity = exp(tc_random_between(seed, log(1e5), log(1e8)));
    room->swing = tc_random_between(seed, 0, 4);
    double floor = room->base[0] + tc_random_between(seed, -2, 8);
    for (int month = 0; month < 12; month++) {
        if (floor > room->base[0])
            room->floor[month] = floor;
        if (tc_random_unit(seed) < 0)
            room->ceiling[month] = floor + 3;
    }
}

/* What a room of that temperature would be made by its tanks; the vapour is that of its solution. */
static double made(const struct tc_room *room, const struct tc_room_tank *tanks, int count,
                   double temperature, double vapour)
{
    double sensible = 0, humidity = fmin(vapour / tc_saturation_pressure(temperature), 1);
    for (int i = 0; i < count; i++) {
        struct tc_heat_day day;
        assert_int_equal(tc_heat_repeating_day(tanks[i].c, temperature, humidity, &day), TC_OK);
        sensible += tanks[i].count * (day.dry + tanks[i].beside);
    }
    double free = room->base[0] + sensible / room->loss;
    return fmin(fmax(free, room->floor[0]), room->ceiling[0]);
}

/* Ten thousand rooms: what was found is a solution, and there is none a little to either side. */
static void every_room_has_one_solution_and_it_is_found(void **state)
{
    (void)state;
    uint64_t seed = 5;
    int step = test_step();
    for (int i = 0; i < 10000; i += step) {
        struct tc_heat_case c[2] = {tc_random_case(&seed), tc_random_case(&seed)};
        const struct tc_room_tank tanks[2] = {
            {&c[0], 1 + (int)tc_random_between(&seed, 0, 20), tc_random_between(&seed, 0, 10)},
            {&c[1], (int)tc_random_between(&seed, 0, 10), tc_random_between(&seed, 0, 10)}};
        struct tc_room room;
        random_room(&seed, &room);
        double gains = 0; /* of lamps and pumps: more than 20 K by them alone is no room */
        for (int k = 0; k < 2; k++)
            gains += tanks[k].count * (c[k].gain_steady + c[k].gain_light + tanks[k].beside);
        room.loss = fmax(room.loss, gains / 20);
        struct tc_room_year year = balanced(&room, tanks, 2);
        assert_true(year.swing >= 0 && year.swing <= room.swing);
        struct tc_room_month found = year.month[0];
        tc_room_put(&year, &c[0]); /* made() is to have the same swing */
        tc_room_put(&year, &c[1]);
        double there = found.temperature - made(&room, tanks, 2, found.temperature, found.vapour);
        /* The heat of a day steps by so much, in one of ten thousand, where the hour a heater begins in is
         * cut. */
        assert_near(there, 0, 0.05);
        double colder = found.temperature - 1, warmer = found.temperature + 1;
        assert_true(colder < made(&room, tanks, 2, colder, found.vapour));
        assert_true(warmer > made(&room, tanks, 2, warmer, found.vapour));
        if (room.air_flow > 0 && found.humidity < 1) {
            double more = found.evaporated * 461.5 * found.temperature / room.air_flow;
            assert_near(found.vapour, fmax(room.vapour[0] + more, 0), 1 + 0.002 * more);
        }
    }
}

/* A room that stores nothing swings as its tanks let it, one that stores all, or nobody knows what, as alone.
 */
static void tanks_damp_the_swing(void **state)
{
    (void)state;
    struct tc_heat_case c = tc_plain_case();
    c.glazing.sheltered_share = 1; /* so that what it gives is a straight line */
    struct tc_conductance k = tc_glazing_conductance(&c.glazing, c.set_temperature);
    double each = k.bottom + k.surface + k.lid;
    const struct tc_room_tank tanks = {&c, 30, 0};
    struct tc_room room = plain_room(60, 293.15, 0.5);
    room.swing = 2;
    assert_near(balanced(&room, &tanks, 1).swing, 2, 0);
    room.capacity = 1;
    assert_near(balanced(&room, &tanks, 1).swing, 2 * 60 / (60 + 30 * each), 1e-6);
    room.capacity = 1e12;
    assert_near(balanced(&room, &tanks, 1).swing, 2, 1e-6);
}

/* Tanks warm the room, so they need less than in one that others hold; a leaky room is nearly held. */
static void a_tight_room_saves_heat(void **state)
{
    (void)state;
    struct tc_heat_case c = tc_plain_case();
    const struct tc_room_tank tanks = {&c, 20, 3};
    double before = 1e12;
    for (double loss = 2000; loss > 10; loss /= 3) {
        struct tc_room room = plain_room(loss, 294.15, 0.5);
        struct tc_room_year year = balanced(&room, &tanks, 1);
        struct tc_heat_case in_room = c;
        struct tc_heat_year heat;
        tc_room_put(&year, &in_room);
        assert_int_equal(tc_heat_year(&in_room, &heat), TC_OK);
        assert_true(heat.heater_total < before);
        before = heat.heater_total;
    }
}

/* A room as warm as the water needs loses what the lamps and pumps do not make good. */
static void water_keeps_its_set_point_in_a_room_warm_enough(void **state)
{
    (void)state;
    struct tc_heat_case c = tc_plain_case();
    c.heater_power = 0;
    double vapour = 0.5 * tc_saturation_pressure(298.15), room = tc_room_warm_enough(&c, vapour);
    struct tc_heat_day day;
    assert_int_equal(tc_heat_repeating_day(&c, room, vapour / tc_saturation_pressure(room), &day), TC_OK);
    assert_near(day.mean, c.set_temperature, 0.01);
    /* Evaporation cools an open tank below its room; a covered one with a pump is warmer than it. */
    assert_true(room > c.set_temperature);
    c.glazing.covered_share = 1;
    assert_true(tc_room_warm_enough(&c, vapour) < c.set_temperature);
}

/* ------------------------------------------------------------- the simulation */

#define FLOOR 16.0 /* m2 */

enum { KINDS = 3, EACH = 10 };

struct simulated {
    double water[KINDS], lifted, vapour; /* K; the room above its base, K; Pa */
    double heaters;                      /* J of all, of the year */
};

/* One tank through a minute: what it gives to the room, W, and to its air, kg/s. */
static double step_tank(const struct tc_heat_case *c, double room, double vapour, double hour, double *water,
                        double *heat, double *evaporated)
{
    struct tc_conductance k = tc_glazing_conductance(&c->glazing, c->set_temperature);
    struct tc_pane pane = tc_glazing_pane(&c->glazing);
    double open = tc_water_surface(&c->glazing) * (1 - c->glazing.covered_share);
    double dry = (k.bottom + k.surface + k.lid) * (*water - room) +
                 tc_side_area(&c->glazing) * tc_pane_flux(&pane, *water, room);
    double wet = tc_evaporation_conductance(open, c->activity) * (tc_saturation_pressure(*water) - vapour);
    double lit = fmod(hour - c->light_begin + 24, 24) < c->light_hours ? c->gain_light : 0;
    double capacity = c->water_volume * TC_WATER_HEAT_CAPACITY + c->extra_heat_capacity;
    double net = c->gain_steady + lit - dry - wet;
    double heater = fmin(fmax((c->set_temperature - *water) * capacity / MINUTE - net, 0), c->heater_power);
    *water += (net + heater) * MINUTE / capacity;
    *heat = heater * MINUTE;
    *evaporated = wet / tc_latent_heat(c->set_temperature);
    return dry;
}

/*
 * A minute of the room: a mass of 165 kJ/K for each m2 of its floor (ISO 13790, a room of medium weight, from
 * memory), its air mixed; the base swings as the room would alone.
 */
static void step_room(const struct tc_room *room, const struct tc_heat_case c[KINDS], int month, int minute,
                      struct simulated *s)
{
    const double volume = 40, beside = 3;
    double hour = (minute + 0.5) / 60;
    double wave = room->swing * cos(2 * 3.14159265358979 * (hour - TC_WARMEST_HOUR) / 24);
    double temperature = room->base[month] + s->lifted + wave, given = 0, vapour = 0;
    for (int i = 0; i < KINDS; i++) {
        double heat, evaporated;
        given += EACH *
                 (beside + step_tank(&c[i], temperature, s->vapour, hour, &s->water[i], &heat, &evaporated));
        vapour += EACH * evaporated;
        s->heaters += EACH * heat;
    }
    s->lifted += (given - room->loss * s->lifted) * MINUTE / room->capacity;
    double leaves = room->air_flow * (s->vapour - room->vapour[month]) / (461.5 * temperature);
    s->vapour += (vapour - leaves) * MINUTE * 461.5 * temperature / volume;
}

/*
 * Thirty tanks of three kinds in rooms with seasons, tight and airy, some so warm that the tanks heat in
 * winter mostly; their December run through twice to begin with.
 */
static void a_year_is_that_of_a_simulation_by_the_minute(void **state)
{
    (void)state;
    for (int which_room = 0; which_room < 4; which_room++) {
        double base = which_room / 2 ? 293.15 : 288.15;
        struct tc_room room = plain_room(which_room % 2 ? 90 : 50, base, 0.5);
        struct tc_heat_case c[KINDS];
        struct tc_room_tank tanks[KINDS];
        room.air_flow = 0.02;
        room.swing = 1.5;
        room.capacity = 165e3 * FLOOR;
        for (int month = 0; month < 12; month++)
            room.base[month] += 3 * cos(2 * 3.14159265358979 * (month - 6.5) / 12);
        for (int i = 0; i < KINDS; i++) {
            c[i] = tc_plain_case();
            c[i].set_temperature += i - 1;
            c[i].glazing.covered_share = i == 2 ? 0.3 : 0.9;
            tanks[i] = (struct tc_room_tank){&c[i], EACH, 3};
        }
        struct simulated s = {.water = {298, 298, 298}, .vapour = room.vapour[11]};
        for (int month = -1; month < 12; month++) {
            int which = month < 0 ? 11 : month;
            if (month == 0)
                s.heaters = 0;
            for (int minute = 0; minute < 1440 * tc_load_days(which); minute++)
                step_room(&room, c, which, minute % 1440, &s);
        }
        struct tc_room_year year = balanced(&room, tanks, KINDS);
        double heaters = 0;
        for (int i = 0; i < KINDS; i++) {
            struct tc_heat_year heat;
            tc_room_put(&year, &c[i]);
            assert_int_equal(tc_heat_year(&c[i], &heat), TC_OK);
            heaters += EACH * heat.heater_total;
        }
        assert_true(heaters > 1000 * KWH);
        assert_near(heaters, s.heaters, 0.003 * s.heaters);
    }
}

static void what_cannot_be_is_refused(void **state)
{
    (void)state;
    struct tc_heat_case c = tc_plain_case();
    struct tc_room_tank tank = {&c, 1, 0};
    struct tc_room_year year;
    struct tc_room room = plain_room(0, 293, 0.5);
    assert_int_equal(tc_room_balance(&room, &tank, 1, &year), TC_RANGE);
    room = plain_room(60, 293, 0.5);
    room.air_flow = NAN;
    assert_int_equal(tc_room_balance(&room, &tank, 1, &year), TC_RANGE);
    room = plain_room(60, 293, 0.5);
    room.floor[3] = 300;
    room.ceiling[3] = 299;
    assert_int_equal(tc_room_balance(&room, &tank, 1, &year), TC_RANGE);
    room = plain_room(60, 293, 0.5);
    tank.count = -1;
    assert_int_equal(tc_room_balance(&room, &tank, 1, &year), TC_RANGE);
    tank.count = 1;
    c.activity = -1;
    assert_int_equal(tc_room_balance(&room, &tank, 1, &year), TC_RANGE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_covered_tank_by_hand),
        cmocka_unit_test(every_room_has_one_solution_and_it_is_found),
        cmocka_unit_test(tanks_damp_the_swing),
        cmocka_unit_test(a_tight_room_saves_heat),
        cmocka_unit_test(water_keeps_its_set_point_in_a_room_warm_enough),
        cmocka_unit_test(a_year_is_that_of_a_simulation_by_the_minute),
        cmocka_unit_test(what_cannot_be_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
