/* SPDX-License-Identifier: MIT */
/* What the tanks of a candidate use in a year, by hand and as sums. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "core/cost/running.h"
#include "support/near.h"
#include "support/sample.h"

#define CELSIUS(t)     (273.15 + (t))
#define JOULES_PER_KWH 3.6e6

static struct tc_running a_year_of(const struct sample *s)
{
    struct tc_running running;
    assert_int_equal(tc_running_year(&s->c, &s->equipment, &running), TC_OK);
    return running;
}

static void parts_use_what_is_printed_on_them(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    struct tc_running running = a_year_of(&s);
    /* 20 W for 9 hours, 6 W day and night, for 365 days */
    assert_near(tc_load_year(&running.energy[TC_CONSUMER_LIGHT]), 0.020 * 9 * 365, 1e-9);
    assert_near(tc_load_year(&running.energy[TC_CONSUMER_FILTER]), 0.006 * 24 * 365, 1e-9);
    assert_near(tc_load_year(&running.energy[TC_CONSUMER_AIR_PUMP]), 0, 0);
    /* From half past ten to half past seven in the evening, 31 days of January. */
    const double *january = running.energy[TC_CONSUMER_LIGHT].use[0];
    assert_near(january[9], 0, 0);
    assert_near(january[10], 0.010 * 31, 1e-12);
    assert_near(january[11], 0.020 * 31, 1e-12);
    assert_near(january[18], 0.020 * 31, 1e-12);
    assert_near(january[19], 0.010 * 31, 1e-12);
    assert_near(january[20], 0, 0);
}

static void the_heater_uses_what_the_heat_says(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    s.c.quantity = 3;
    s.region.fresh_mixed = true; /* or new water has a share in the heater */
    sample_settle(&s);
    struct tc_running running = a_year_of(&s);
    struct tc_heat_case heat = tc_equipment_heat(&s.c, &s.equipment);
    struct tc_heat_year year;
    assert_int_equal(tc_heat_year(&heat, &year), TC_OK);
    assert_true(year.heater_total > 0);
    assert_near(tc_load_year(&running.energy[TC_CONSUMER_HEATER]), 3 * year.heater_total / JOULES_PER_KWH,
                1e-9);
    assert_near(running.energy[TC_CONSUMER_HEATER].use[6][3], 3 * year.heater[6][3] / JOULES_PER_KWH, 1e-12);
    assert_near(running.evaporated_total, 3 * year.evaporated_total, 1e-12);
    assert_near(running.heat.heater_total, year.heater_total, 0); /* of one tank */
}

static void new_water_is_warmed_by_the_heater(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    struct tc_running running = a_year_of(&s);
    double changed = 0.3 * s.equipment.size.water_volume / 7 * 365;
    assert_near(running.changed_total, changed, 1e-12);
    /* From 12 to 25 degrees: 1.1578 kWh a m3 and kelvin (4.168 MJ). */
    const struct tc_load *load = &running.energy[TC_CONSUMER_NEW_WATER];
    assert_near(tc_load_year(load), changed * 13 * 4.168 / 3.6, 1e-9);
    assert_near(load->use[1][0], load->use[1][23], 1e-9); /* evenly through the day */
    assert_near(tc_load_month(load, 1) / tc_load_month(load, 0), 28.0 / 31, 1e-9);
    assert_near(running.warm_water, 0, 0);
}

static void or_by_the_household(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    double by_heater = tc_load_year(&a_year_of(&s).energy[TC_CONSUMER_NEW_WATER]);
    s.region.fresh_mixed = true;
    /* At the tap, by electricity where warm water has no price of its own. */
    struct tc_running running = a_year_of(&s);
    const struct tc_load *load = &running.energy[TC_CONSUMER_NEW_WATER];
    assert_near(tc_load_year(load), by_heater, 1e-9);
    assert_near(load->use[1][0], load->use[1][23], 0);
    assert_near(running.warm_water, 0, 0);
    s.region.warm_water_price = 0.08;
    running = a_year_of(&s);
    assert_near(tc_load_year(&running.energy[TC_CONSUMER_NEW_WATER]), 0, 0);
    assert_near(running.warm_water, by_heater, 1e-9);
}

/* Lamps and pumps that hold a tank above its set point warm its new water for nothing. */
static void or_by_what_is_warm_anyway(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    for (int month = 4; month < 9; month++)
        s.region.climate.room[month] = CELSIUS(27);
    struct tc_running running = a_year_of(&s);
    const struct tc_load *load = &running.energy[TC_CONSUMER_NEW_WATER];
    double winter = 0.3 * s.equipment.size.water_volume / 7 * 31 * 13 * 4.168 / 3.6;
    assert_near(tc_load_month(load, 0), winter, 1e-6);
    assert_near(tc_load_month(load, 6), 0, 1e-9);
}

/* All electricity but what fresh water takes ends in the room, as heat or with the vapour. */
static void the_room_gets_what_leaves_the_tanks(void **state)
{
    (void)state;
    struct tc_random random = draw_from(77);
    for (int i = 0; i < 300; i++) {
        struct sample s;
        sample_draw(&s, &random);
        s.region.fresh_mixed = true;
        struct tc_running running = a_year_of(&s);
        const struct tc_heat_year *heat = &running.heat;
        double used = 0, given = 0;
        for (int k = 0; k < TC_CONSUMER_COUNT; k++)
            used += k == TC_CONSUMER_NEW_WATER ? 0 : tc_load_year(&running.energy[k]);
        for (int month = 0; month < TC_MONTHS; month++)
            given += running.room_heat[month];
        double vapour = s.c.quantity * (heat->loss.evaporation + heat->stored) / JOULES_PER_KWH;
        assert_near(given + vapour, used, 1e-6 * (1 + used));
    }
}

/* A fall and bubbles stir the water, so that more of it leaves; a figure typed holds. */
static void activity_is_that_of_the_filter(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    s.setup.activity = NAN;
    static const struct {
        enum tc_filter_kind kind;
        double activity;
    } rows[] = {
        {TC_FILTER_NONE, 0.74}, {TC_FILTER_CANISTER, 0.74}, {TC_FILTER_HANG_ON, 0.87}, {TC_FILTER_SPONGE, 1}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct tc_part part = {.as.filter.kind = rows[i].kind};
        struct tc_offer offer = {.part = &part};
        s.equipment.slot[TC_SLOT_FILTER].offer = rows[i].kind == TC_FILTER_NONE ? NULL : &offer;
        assert_near(tc_equipment_activity(&s.c, &s.equipment), rows[i].activity, 0);
    }
    s.setup.activity = 0.5;
    assert_near(tc_equipment_activity(&s.c, &s.equipment), 0.5, 0);
}

/* New water went on the bill of a heater that had not been bought. */
static void or_by_nobody(void **state)
{
    (void)state;
    struct sample s;
    for (int with_boiler = 0; with_boiler < 2; with_boiler++) {
        sample_make(&s);
        s.region.fresh_mixed = with_boiler;
        s.region.warm_water_price = with_boiler * 0.08;
        s.c.wish[TC_SLOT_HEATER].part = "";
        sample_settle(&s);
        struct tc_running running = a_year_of(&s);
        assert_near(tc_load_year(&running.energy[TC_CONSUMER_NEW_WATER]), 0, 0);
        assert_near(tc_load_year(&running.energy[TC_CONSUMER_HEATER]), 0, 0);
        assert_near(running.warm_water, 0, 0);
        assert_true(running.changed_total > 0);
        /* A heater that the plan pins to a setup without one does warm it. */
        s.setup.heater = false;
        s.c.wish[TC_SLOT_HEATER].part = "heater-100";
        sample_settle(&s);
        running = a_year_of(&s);
        assert_true(running.warm_water + tc_load_year(&running.energy[TC_CONSUMER_NEW_WATER]) > 1);
    }
    /* A tap warmer than the tank saves nothing. */
    sample_make(&s);
    s.region.fresh_mixed = true;
    s.region.cold_water = CELSIUS(26);
    sample_settle(&s);
    assert_near(tc_load_year(&a_year_of(&s).energy[TC_CONSUMER_NEW_WATER]), 0, 0);
}

static void no_changes_use_no_water(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    s.setup.change_interval = 0;
    assert_near(a_year_of(&s).changed_total, 0, 0);
    sample_make(&s);
    sample_settle(&s);
    s.setup.change_share = 0;
    assert_near(a_year_of(&s).changed_total, 0, 0);
}

/* Everything n times over, but for an air pump that all tanks share. */
static void tanks_use_alike(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    s.setup.filter = TC_FILTER_SPONGE;
    sample_settle(&s);
    struct tc_running one = a_year_of(&s);
    s.c.quantity = 4;
    sample_settle(&s);
    struct tc_running four = a_year_of(&s);
    for (int i = 0; i < TC_CONSUMER_COUNT; i++)
        assert_near(tc_load_year(&four.energy[i]), 4 * tc_load_year(&one.energy[i]), 1e-9);
    assert_near(four.changed_total, 4 * one.changed_total, 1e-12);
    s.setup.shared_air = true;
    sample_settle(&s);
    four = a_year_of(&s);
    assert_near(tc_load_year(&four.energy[TC_CONSUMER_AIR_PUMP]),
                s.equipment.slot[TC_SLOT_AIR_PUMP].count * 0.005 * 24 * 365, 1e-9);
}

/* The sums of a year are the sums of its parts, whatever the candidate. */
static void sums_are_those_of_the_year(void **state)
{
    (void)state;
    struct tc_random random = draw_from(70);
    for (int i = 0; i < 500; i++) {
        struct sample s;
        struct tc_running_sums sums;
        struct tc_load hours;
        sample_draw(&s, &random);
        struct tc_running running = a_year_of(&s);
        assert_int_equal(tc_running_add_up(&s.c, &s.equipment, &sums, &hours), TC_OK);
        for (int month = 0; month < TC_MONTHS; month++) {
            double whole = tc_load_month(&hours, month);
            assert_near(sums.energy[month], whole, 1e-9 * (1 + whole));
            for (int hour = 0; hour < TC_HOURS; hour++) {
                double all = 0;
                for (int k = 0; k < TC_CONSUMER_COUNT; k++)
                    all += running.energy[k].use[month][hour];
                assert_near(hours.use[month][hour], all, 1e-9 * (1 + all));
            }
            assert_near(sums.water[month], running.changed[month] + running.evaporated[month], 1e-12);
        }
        double changed = 0, evaporated = 0;
        for (int month = 0; month < TC_MONTHS; month++) {
            changed += running.changed[month];
            evaporated += running.evaporated[month];
        }
        assert_near(running.changed_total, changed, 1e-9);
        assert_near(running.evaporated_total, evaporated, 1e-9);
        assert_near(sums.changed_total, running.changed_total, 1e-9);
        assert_near(sums.warm_water, running.warm_water, 1e-9 * (1 + running.warm_water));
    }
}

static void what_cannot_be_heated_is_refused(void **state)
{
    (void)state;
    struct sample s;
    struct tc_running running;
    struct tc_running_sums sums;
    sample_make(&s);
    sample_settle(&s);
    s.region.climate.humidity[3] = 2;
    assert_int_equal(tc_running_year(&s.c, &s.equipment, &running), TC_RANGE);
    assert_int_equal(tc_running_add_up(&s.c, &s.equipment, &sums, NULL), TC_RANGE);
}

static void consumers_have_names(void **state)
{
    (void)state;
    for (int i = 0; i < TC_CONSUMER_COUNT; i++)
        for (int k = 0; k < i; k++)
            assert_string_not_equal(tc_consumer_name((enum tc_consumer)i),
                                    tc_consumer_name((enum tc_consumer)k));
    assert_string_equal(tc_consumer_name(TC_CONSUMER_HEATER), "heater");
    assert_string_equal(tc_consumer_name(TC_CONSUMER_COUNT), "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(parts_use_what_is_printed_on_them),
        cmocka_unit_test(the_heater_uses_what_the_heat_says),
        cmocka_unit_test(new_water_is_warmed_by_the_heater),
        cmocka_unit_test(or_by_the_household),
        cmocka_unit_test(or_by_what_is_warm_anyway),
        cmocka_unit_test(the_room_gets_what_leaves_the_tanks),
        cmocka_unit_test(activity_is_that_of_the_filter),
        cmocka_unit_test(or_by_nobody),
        cmocka_unit_test(no_changes_use_no_water),
        cmocka_unit_test(tanks_use_alike),
        cmocka_unit_test(sums_are_those_of_the_year),
        cmocka_unit_test(what_cannot_be_heated_is_refused),
        cmocka_unit_test(consumers_have_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
