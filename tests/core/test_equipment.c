/* SPDX-License-Identifier: MIT */
/* A tank filled slot by slot: what each slot asks for, and what becomes of the plan's wishes. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "core/cost/choose.h"
#include "core/physics/light.h"
#include "support/near.h"
#include "support/sample.h"

#define CELSIUS(t) (273.15 + (t))

static const struct tc_demand *demand(const struct sample *s, enum tc_slot slot)
{
    return &s->equipment.slot[slot].demand;
}

static void every_slot_is_filled(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    assert_string_equal(sample_part(&s, TC_SLOT_STAND), "stand-plain");
    assert_string_equal(sample_part(&s, TC_SLOT_LID), "lid-glass");
    assert_string_equal(sample_part(&s, TC_SLOT_LIGHT), "light-strip");
    assert_string_equal(sample_part(&s, TC_SLOT_FILTER), "hang-on-m");
    assert_string_equal(sample_part(&s, TC_SLOT_AIR_PUMP), ""); /* nothing asks for air */
    assert_string_equal(sample_part(&s, TC_SLOT_HEATER), "heater-100");
    assert_string_equal(sample_part(&s, TC_SLOT_SUBSTRATE), "gravel");
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const struct tc_filled *filled = &s.equipment.slot[slot];
        assert_int_equal(filled->demand.wanted, slot != TC_SLOT_AIR_PUMP);
        assert_false(filled->missing || filled->pinned || filled->ill_fitting || filled->shared);
        assert_int_equal(tc_equipment_pieces(&s.c, &s.equipment, (enum tc_slot)slot), filled->count);
    }
}

/* What each slot asks for, from the tank as it stands filled in the end. */
static void demands_follow_from_tank_and_setup(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    const struct tc_tank_size *size = &s.equipment.size;
    assert_near(demand(&s, TC_SLOT_SUBSTRATE)->bed, size->bottom_area * 2 * INCH, 1e-12);
    assert_near(demand(&s, TC_SLOT_FILTER)->flow, 5 / 3600.0 * size->water_volume, 1e-12);
    assert_near(demand(&s, TC_SLOT_STAND)->load, size->filled_mass, 1e-9);
    /* Through about 37 cm of water over the gravel and a lid that lets 90 % through: Beer and Lambert. */
    double depth = size->water_depth - 2 * INCH;
    double share = TC_LIGHT_CAPTURE * 0.9 * (1 - TC_SURFACE_REFLECTION) * exp(-0.5 * depth);
    assert_near(demand(&s, TC_SLOT_LIGHT)->ppf, 40 * size->bottom_area / share, 1e-9);
    assert_near(tc_equipment_ppfd(&s.c, &s.equipment), 36 * share / size->bottom_area, 1e-9);
    assert_true(tc_equipment_ppfd(&s.c, &s.equipment) >= s.setup.ppfd);
    struct tc_heat_case heat = tc_equipment_heat(&s.c, &s.equipment);
    double power;
    assert_int_equal(tc_heat_needed_power(&heat, s.setup.heater_margin, &power), TC_OK);
    assert_near(demand(&s, TC_SLOT_HEATER)->heat, power, 1e-9);
}

static void the_heat_of_the_parts_is_seen(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    struct tc_heat_case heat = tc_equipment_heat(&s.c, &s.equipment);
    assert_int_equal(tc_heat_check(&heat), TC_OK);
    assert_near(heat.heater_power, 100, 0);
    assert_near(heat.gain_steady, 6 * 0.6, 1e-12);
    assert_near(heat.gain_light, 20 * 0.3, 1e-12);
    assert_near(heat.glazing.covered_share, 0.95, 0);
    assert_near(heat.water_volume, s.equipment.size.water_volume, 0);
    assert_near(heat.extra_heat_capacity,
                s.equipment.size.glass_mass * 720 + s.equipment.size.substrate_mass * 800, 1e-9);
    /* Several of a kind. */
    s.setup.ppfd = 100;
    s.setup.turnover *= 2;
    sample_settle(&s);
    heat = tc_equipment_heat(&s.c, &s.equipment);
    assert_int_equal(s.equipment.slot[TC_SLOT_LIGHT].count, 2);
    assert_int_equal(s.equipment.slot[TC_SLOT_FILTER].count, 2);
    assert_near(heat.gain_steady, 2 * 6 * 0.6, 1e-12);
    assert_near(heat.gain_light, 2 * 20 * 0.3, 1e-12);
    /* Nothing but the tank itself. */
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        s.c.wish[slot].part = "";
    sample_settle(&s);
    heat = tc_equipment_heat(&s.c, &s.equipment);
    assert_int_equal(tc_heat_check(&heat), TC_OK);
    assert_near(heat.heater_power + heat.gain_steady + heat.gain_light + heat.glazing.covered_share, 0, 0);
    assert_near(tc_equipment_ppfd(&s.c, &s.equipment), 0, 0);
}

/*
 * A lid of mesh is cheaper than one of glass by itself, and dearer with the heat
 * and the heater that it asks for. Under a lid that is the cheapest in all,
 * whatever else is in the tank costs the least as well.
 */
static void a_lid_is_chosen_with_its_heat(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    const struct tc_lid glass = sample_offer(&s, "lid-glass")->part->as.lid;
    sample_add(&s, TC_SLOT_LID, "lid-mesh", 1400, 10)->as.lid =
        (struct tc_lid){glass.length, glass.width, 0.15, 0.75};
    sample_settle(&s);
    assert_string_equal(sample_part(&s, TC_SLOT_LID), "lid-glass");
    assert_false(s.equipment.slot[TC_SLOT_LID].pinned);
    assert_int_equal(s.equipment.slot[TC_SLOT_LID].reason.code, TC_FITS);
    sample_cost(&s);
    tc_money with_glass = s.cost.present_value;
    s.c.wish[TC_SLOT_LID].part = "lid-mesh";
    sample_settle(&s);
    sample_cost(&s);
    assert_true(s.cost.present_value > with_glass);
    /* In a room as warm as the water, or without a heater, its price alone decides. */
    s.c.wish[TC_SLOT_LID].part = NULL;
    s.setup.heater = false;
    sample_settle(&s);
    assert_string_equal(sample_part(&s, TC_SLOT_LID), "lid-mesh");
}

/*
 * A sponge that is cheaper by itself, but takes so much air that a larger pump
 * is needed: 5.00 and 30.00 against 9.00 and 15.00, all of the same life.
 */
static void a_filter_is_chosen_with_its_air_pump(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    s.setup.filter = TC_FILTER_SPONGE;
    struct tc_filter sponge = sample_offer(&s, "sponge-m")->part->as.filter;
    sponge.flow *= 2; /* so that one is enough */
    sponge.reach *= 2;
    sample_offer(&s, "sponge-m")->priced = false;
    struct tc_part *airy = sample_add(&s, TC_SLOT_FILTER, "sponge-airy", 500, 3);
    struct tc_part *sparing = sample_add(&s, TC_SLOT_FILTER, "sponge-sparing", 900, 3);
    airy->as.filter = sparing->as.filter = sponge;
    airy->as.filter.air = 2 * sponge.air;
    sample_settle(&s);
    assert_string_equal(sample_part(&s, TC_SLOT_FILTER), "sponge-sparing");
    assert_string_equal(sample_part(&s, TC_SLOT_AIR_PUMP), "air-s");
    sample_cost(&s);
    tc_money sparingly = s.cost.present_value;
    s.c.wish[TC_SLOT_FILTER].part = "sponge-airy";
    sample_settle(&s);
    assert_string_equal(sample_part(&s, TC_SLOT_AIR_PUMP), "air-m");
    sample_cost(&s);
    assert_true(s.cost.present_value > sparingly);
    /* Where air costs nothing, its own price alone decides. */
    s.c.wish[TC_SLOT_FILTER].part = NULL;
    s.c.wish[TC_SLOT_AIR_PUMP].part = "";
    sample_settle(&s);
    assert_string_equal(sample_part(&s, TC_SLOT_FILTER), "sponge-airy");
    /* Where no pump gives so much, the one is taken that can be run. */
    s.c.wish[TC_SLOT_AIR_PUMP].part = NULL;
    sample_offer(&s, "sponge-airy")->price = 1;
    sample_offer(&s, "air-m")->priced = false;
    sample_settle(&s);
    assert_string_equal(sample_part(&s, TC_SLOT_FILTER), "sponge-sparing");
    assert_false(s.equipment.slot[TC_SLOT_AIR_PUMP].missing);
}

/* Grains take the place of water: less to turn over, more to carry. */
static void substrate_displaces_water(void **state)
{
    (void)state;
    struct sample bare, s;
    sample_make(&bare);
    bare.setup.bed_depth = 0;
    sample_settle(&bare);
    sample_make(&s);
    sample_settle(&s);
    double grains = s.equipment.size.bottom_area * 2 * INCH * 0.6;
    assert_near(bare.equipment.size.water_volume - s.equipment.size.water_volume, grains, 1e-12);
    assert_near(demand(&bare, TC_SLOT_FILTER)->flow - demand(&s, TC_SLOT_FILTER)->flow, 5 / 3600.0 * grains,
                1e-12);
    assert_true(demand(&s, TC_SLOT_STAND)->load > demand(&bare, TC_SLOT_STAND)->load);
    assert_string_equal(sample_part(&bare, TC_SLOT_SUBSTRATE), "");
}

static void a_darker_lid_asks_for_more_light(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    double clear = demand(&s, TC_SLOT_LIGHT)->ppf;
    for (int i = 0; i < s.c.offer_count; i++)
        if (s.parts[i].slot == TC_SLOT_LID)
            s.parts[i].as.lid.transmittance = 0.45;
    sample_settle(&s);
    assert_near(demand(&s, TC_SLOT_LIGHT)->ppf, 2 * clear, 1e-9);
    s.setup.lid = false;
    sample_settle(&s);
    assert_near(demand(&s, TC_SLOT_LIGHT)->ppf, 0.9 * clear, 1e-9);
}

/* Light was reckoned to the top of a substrate that the plan had left out. */
static void light_goes_down_to_what_is_there(void **state)
{
    (void)state;
    struct sample without, s;
    sample_make(&without);
    without.setup.bed_depth = 0;
    sample_settle(&without);
    sample_make(&s);
    s.c.wish[TC_SLOT_SUBSTRATE].part = "";
    sample_settle(&s);
    assert_near(s.equipment.size.reach, without.equipment.size.reach, 0);
    assert_near(demand(&s, TC_SLOT_LIGHT)->ppf, demand(&without, TC_SLOT_LIGHT)->ppf, 1e-12);
    assert_near(tc_equipment_ppfd(&s.c, &s.equipment), tc_equipment_ppfd(&without.c, &without.equipment),
                1e-12);
}

static void only_lids_that_plants_can_live_under(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    struct tc_lid rim = sample_offer(&s, "lid-glass")->part->as.lid;
    rim.transmittance = 0;
    sample_add(&s, TC_SLOT_LID, "lid-board", 100, 10)->as.lid = rim;
    sample_settle(&s);
    assert_string_equal(sample_part(&s, TC_SLOT_LID), "lid-glass");
    s.setup.ppfd = 0;
    sample_settle(&s);
    assert_string_equal(sample_part(&s, TC_SLOT_LID), "lid-board");
    s.setup.ppfd = 40;
    s.c.wish[TC_SLOT_LID].part = "lid-board";
    assert_int_equal(tc_equipment_choose(&s.c, &s.equipment), TC_OK);
    assert_true(s.equipment.slot[TC_SLOT_LID].ill_fitting);
    assert_int_equal(s.equipment.slot[TC_SLOT_LID].reason.code, TC_OPAQUE);
    assert_non_null(s.equipment.slot[TC_SLOT_LIGHT].offer);
    assert_near(tc_equipment_ppfd(&s.c, &s.equipment), 0, 0);
    s.c.wish[TC_SLOT_LIGHT].part = "";
    assert_int_equal(tc_equipment_choose(&s.c, &s.equipment), TC_OK);
    assert_null(s.equipment.slot[TC_SLOT_LIGHT].offer);
}

static void what_nothing_fits_is_marked(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    for (int i = 0; i < s.c.offer_count; i++)
        if (s.parts[i].slot == TC_SLOT_STAND)
            s.parts[i].as.stand.load = 10;
    sample_settle(&s);
    const struct tc_filled *filled = &s.equipment.slot[TC_SLOT_STAND];
    assert_true(filled->missing && filled->demand.wanted);
    assert_null(filled->offer);
    assert_int_equal(filled->count, 0);
    assert_int_equal(tc_equipment_pieces(&s.c, &s.equipment, TC_SLOT_STAND), 0);
    assert_false(s.equipment.slot[TC_SLOT_LID].missing);
}

/* A stand had been chosen without the weight of a substrate that had yet to be found. */
static void a_bed_that_is_missing_has_its_weight(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    double load = demand(&s, TC_SLOT_STAND)->load;
    sample_offer(&s, "gravel")->priced = sample_offer(&s, "soil")->priced = false;
    sample_settle(&s);
    assert_true(s.equipment.slot[TC_SLOT_SUBSTRATE].missing);
    assert_near(demand(&s, TC_SLOT_STAND)->load, load, 1e-9);
}

static void the_plan_leaves_slots_out(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        s.c.wish[slot].part = "";
    sample_settle(&s);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        const struct tc_filled *filled = &s.equipment.slot[slot];
        assert_null(filled->offer);
        assert_false(filled->demand.wanted || filled->missing || filled->pinned);
    }
    assert_near(s.equipment.size.substrate_mass, 0, 0);
}

static void the_plan_pins_parts(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    s.setup.ppfd = 80;
    s.c.wish[TC_SLOT_STAND].part = "stand-fine";
    s.c.wish[TC_SLOT_LIGHT].part = "light-dim"; /* too dim */
    s.c.wish[TC_SLOT_LID].part = "lid-of-gold"; /* not on offer */
    s.c.wish[TC_SLOT_AIR_PUMP].part = "air-m";  /* nothing asks for it */
    sample_settle(&s);
    const struct tc_filled *stand = &s.equipment.slot[TC_SLOT_STAND],
                           *light = &s.equipment.slot[TC_SLOT_LIGHT];
    const struct tc_filled *lid = &s.equipment.slot[TC_SLOT_LID], *air = &s.equipment.slot[TC_SLOT_AIR_PUMP];
    assert_string_equal(sample_part(&s, TC_SLOT_STAND), "stand-fine");
    assert_true(stand->pinned && !stand->ill_fitting && !stand->missing);
    assert_int_equal(stand->reason.code, TC_FITS_PINNED);
    assert_string_equal(sample_part(&s, TC_SLOT_LIGHT), "light-dim");
    assert_true(light->pinned && light->ill_fitting);
    assert_int_equal(light->reason.code, TC_TOO_DIM);
    assert_int_equal(light->count, 1);
    assert_true(lid->pinned && lid->missing && !lid->offer);
    assert_string_equal(sample_part(&s, TC_SLOT_AIR_PUMP), "air-m");
    assert_true(air->demand.wanted && air->count == 1);
}

static void sponges_ask_for_air(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    s.setup.filter = TC_FILTER_SPONGE;
    s.c.quantity = 4;
    sample_settle(&s);
    const struct tc_filled *filter = &s.equipment.slot[TC_SLOT_FILTER],
                           *pump = &s.equipment.slot[TC_SLOT_AIR_PUMP];
    double each = 150 * 0.001 / 3600;
    assert_string_equal(sample_part(&s, TC_SLOT_FILTER), "sponge-m");
    assert_int_equal(filter->count, 2);
    assert_near(pump->demand.air, 2 * each, 1e-15);
    assert_false(pump->shared);
    assert_int_equal(tc_equipment_pieces(&s.c, &s.equipment, TC_SLOT_AIR_PUMP), 4 * pump->count);
    /* One for all: it has four times as much to give. */
    s.setup.shared_air = true;
    sample_settle(&s);
    assert_near(pump->demand.air, 8 * each, 1e-15);
    assert_true(pump->shared);
    assert_string_equal(sample_part(&s, TC_SLOT_AIR_PUMP), "air-m");
    assert_int_equal(pump->count, 3);
    assert_int_equal(tc_equipment_pieces(&s.c, &s.equipment, TC_SLOT_AIR_PUMP), 3);
    assert_int_equal(tc_equipment_pieces(&s.c, &s.equipment, TC_SLOT_FILTER), 8);
}

static void a_warm_room_needs_no_heater(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    for (int month = 0; month < TC_MONTHS; month++)
        s.region.climate.room[month] = CELSIUS(32);
    sample_settle(&s);
    assert_false(demand(&s, TC_SLOT_HEATER)->wanted);
    assert_string_equal(sample_part(&s, TC_SLOT_HEATER), "");
    assert_false(s.equipment.slot[TC_SLOT_HEATER].missing);
    s.setup.heater = false;
    s.region.climate.room[0] = CELSIUS(10);
    sample_settle(&s);
    assert_string_equal(sample_part(&s, TC_SLOT_HEATER), "");
}

static void what_cannot_be_is_refused(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    s.setup.bed_depth = 1;
    assert_int_equal(tc_equipment_choose(&s.c, &s.equipment), TC_RANGE);
    sample_make(&s);
    s.c.tank.glass = 0.2;
    assert_int_equal(tc_equipment_choose(&s.c, &s.equipment), TC_RANGE);
    sample_make(&s);
    s.setup.temperature = 400;
    assert_int_equal(tc_equipment_choose(&s.c, &s.equipment), TC_RANGE);
    sample_make(&s);
    s.setup.attenuation = -1;
    assert_int_equal(tc_equipment_choose(&s.c, &s.equipment), TC_RANGE);
}

/* The verdicts that explain a setup are those it was made from. */
static void explanations_agree_with_the_choice(void **state)
{
    (void)state;
    struct tc_random random = draw_from(60);
    for (int i = 0; i < 300; i++) {
        struct sample s;
        sample_draw(&s, &random);
        for (int k = 0; k < TC_SLOT_COUNT; k++) {
            enum tc_slot slot = (enum tc_slot)k;
            const struct tc_filled *filled = &s.equipment.slot[slot];
            if (!filled->demand.wanted)
                continue;
            int chosen = 0;
            for (int v = 0; v < s.c.offer_count; v++) {
                if (s.offers[v].part->slot != slot || &s.offers[v] != filled->offer)
                    continue;
                struct tc_verdict verdict = tc_equipment_judge(&s.c, &s.equipment, &s.offers[v]);
                chosen++;
                assert_ptr_equal(verdict.offer, filled->offer);
                assert_int_equal(verdict.count, filled->count);
                assert_int_equal(verdict.rows, filled->rows);
                assert_int_equal(!verdict.fits, filled->ill_fitting);
                assert_int_equal(verdict.reason.code, filled->reason.code);
            }
            assert_int_equal(chosen, filled->offer != NULL);
            assert_int_equal(filled->missing, filled->offer == NULL);
        }
    }
}

/* The order in which a shop's parts stand in its list does not matter, where no two cost the same. */
static void the_order_of_offers_does_not_matter(void **state)
{
    (void)state;
    struct tc_random random = draw_from(61);
    for (int i = 0; i < 200; i++) {
        struct sample s;
        sample_draw(&s, &random);
        struct tc_equipment first = s.equipment;
        for (int a = 0, b = s.c.offer_count - 1; a < b; a++, b--) {
            struct tc_offer offer = s.offers[a];
            s.offers[a] = s.offers[b];
            s.offers[b] = offer;
        }
        assert_int_equal(tc_equipment_choose(&s.c, &s.equipment), TC_OK);
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
            const struct tc_offer *was = first.slot[slot].offer, *is = s.equipment.slot[slot].offer;
            /* The offers have changed places, the parts have not. */
            assert_int_equal(was == NULL, is == NULL);
            if (!was)
                continue;
            ptrdiff_t place = was - s.offers, mirrored = s.c.offer_count - 1 - place;
            assert_ptr_equal(is->part, s.offers[mirrored].part);
            assert_int_equal(first.slot[slot].count, s.equipment.slot[slot].count);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_slot_is_filled),
        cmocka_unit_test(demands_follow_from_tank_and_setup),
        cmocka_unit_test(the_heat_of_the_parts_is_seen),
        cmocka_unit_test(a_lid_is_chosen_with_its_heat),
        cmocka_unit_test(a_filter_is_chosen_with_its_air_pump),
        cmocka_unit_test(substrate_displaces_water),
        cmocka_unit_test(a_darker_lid_asks_for_more_light),
        cmocka_unit_test(light_goes_down_to_what_is_there),
        cmocka_unit_test(only_lids_that_plants_can_live_under),
        cmocka_unit_test(what_nothing_fits_is_marked),
        cmocka_unit_test(a_bed_that_is_missing_has_its_weight),
        cmocka_unit_test(the_plan_leaves_slots_out),
        cmocka_unit_test(the_plan_pins_parts),
        cmocka_unit_test(sponges_ask_for_air),
        cmocka_unit_test(a_warm_room_needs_no_heater),
        cmocka_unit_test(what_cannot_be_is_refused),
        cmocka_unit_test(explanations_agree_with_the_choice),
        cmocka_unit_test(the_order_of_offers_does_not_matter),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
