/* SPDX-License-Identifier: MIT */
/* Which parts fit, how many of them, and which is chosen. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/cost/fit.h"
#include "support/near.h"
#include "support/sample.h"

#define LENGTH(array) (sizeof(array) / sizeof(array)[0])

enum { ROOM = 16 };

/* A tank of 120 x 40 x 50 cm, what a setup asks of one slot, and up to a few offers. */
struct scene {
    struct tc_tank tank;
    struct tc_tank_size size;
    struct tc_setup setup;
    struct tc_fit_case fit;
    struct tc_part parts[ROOM];
    struct tc_offer offers[ROOM];
    int count;
    struct tc_verdict verdicts[ROOM];
    int chosen;
};

static void set_scene(struct scene *s)
{
    *s = (struct scene){.chosen = -1};
    s->tank =
        (struct tc_tank){.length = 1.2, .width = 0.4, .height = 0.5, .glass = 0.01, .bottom_glass = 0.01};
    assert_int_equal(tc_tank_measure(&s->tank, (struct tc_bed){0}, 298.15, &s->size), TC_OK);
    s->setup = (struct tc_setup){.filter = TC_FILTER_CANISTER, .heater_count = 1, .light_hours = 8};
    s->fit = (struct tc_fit_case){.tank = &s->tank, .size = &s->size, .setup = &s->setup, .years = 10};
}

static struct tc_part *offer(struct scene *s, enum tc_slot slot, const char *name, tc_money price,
                             double life)
{
    struct tc_part *part = &s->parts[s->count];
    *part = (struct tc_part){.slot = slot, .goods = {.life = life}};
    snprintf(part->goods.name, sizeof part->goods.name, "%s", name);
    s->offers[s->count++] = (struct tc_offer){.part = part, .priced = true, .price = price};
    return part;
}

static int judge(struct scene *s, enum tc_slot slot, const char *pinned)
{
    struct tc_verdict best;
    int count = 0;
    s->chosen = -1;
    for (int i = 0; i < s->count; i++) {
        bool wanted = pinned && strcmp(pinned, s->parts[i].goods.name) == 0;
        if (s->parts[i].slot == slot)
            s->verdicts[count++] = tc_fit_judge(&s->fit, slot, &s->offers[i], wanted);
    }
    if (!tc_fit_choose(&s->fit, slot, s->offers, s->count, pinned, &best))
        return count;
    for (int i = 0; i < count; i++)
        if (s->verdicts[i].offer == best.offer)
            s->chosen = i;
    return count;
}

/* The verdict on one part alone. */
static struct tc_verdict judge_part(struct scene *s, struct tc_part part)
{
    s->count = 0;
    *offer(s, part.slot, "part", 1000, 5) = part;
    s->parts[0].goods.life = 5;
    assert_int_equal(judge(s, part.slot, NULL), 1);
    assert_int_equal(s->chosen, s->verdicts[0].fits ? 0 : -1);
    assert_int_equal(s->verdicts[0].count > 0, s->verdicts[0].fits);
    assert_int_equal(s->verdicts[0].fits, s->verdicts[0].reason.code == TC_FITS);
    return s->verdicts[0];
}

static void assert_verdict(struct scene *s, struct tc_part part, enum tc_reason_code code, int count,
                           int line)
{
    struct tc_verdict verdict = judge_part(s, part);
    if ((int)verdict.reason.code != (int)code || verdict.count != count)
        fail_msg("line %d: reason %d, wanted %d; count %d, wanted %d", line, (int)verdict.reason.code,
                 (int)code, verdict.count, count);
}

#define REFUSED(scene, part, code)    assert_verdict(scene, part, code, 0, __LINE__)
#define ACCEPTED(scene, part, wanted) assert_verdict(scene, part, TC_FITS, wanted, __LINE__)

static struct tc_part stand(double length, double width, double load)
{
    return (struct tc_part){.slot = TC_SLOT_STAND,
                            .as.stand = {.length = length, .width = width, .load = load, .solid = true}};
}

static void a_stand_carries_the_tank(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    s.fit.demand.load = 280;
    ACCEPTED(&s, stand(1.2, 0.4, 300), 1);
    ACCEPTED(&s, stand(1.2 - 0.0127, 0.4, 300), 1);
    REFUSED(&s, stand(1.2 - 0.0128, 0.4, 300), TC_TOO_SHORT);
    ACCEPTED(&s, stand(1.35, 0.4, 300), 1);
    REFUSED(&s, stand(1.3501, 0.4, 300), TC_TOO_LONG);
    ACCEPTED(&s, stand(1.2, 0.4 - 0.0127, 300), 1);
    REFUSED(&s, stand(1.2, 0.4 - 0.0128, 300), TC_TOO_NARROW);
    ACCEPTED(&s, stand(1.2, 0.55, 300), 1);
    REFUSED(&s, stand(1.2, 0.5501, 300), TC_TOO_WIDE);
    /* An open frame has to lie under the tank's edges. */
    struct tc_part frame = stand(1.25, 0.45, 300);
    frame.as.stand.solid = false;
    ACCEPTED(&s, frame, 1);
    frame.as.stand.length = 1.2501;
    REFUSED(&s, frame, TC_TOO_LONG);
    frame.as.stand.length = 1.2;
    frame.as.stand.width = 0.4501;
    REFUSED(&s, frame, TC_TOO_WIDE);
    ACCEPTED(&s, stand(1.2, 0.4, 280), 1);
    REFUSED(&s, stand(1.2, 0.4, 279.9), TC_TOO_WEAK);
    struct tc_reason reason = judge_part(&s, stand(1.2, 0.4, 100)).reason;
    assert_near(reason.have, 100, 0);
    assert_near(reason.need, 280, 0);
    reason = judge_part(&s, stand(1, 0.4, 300)).reason;
    assert_near(reason.have, 1, 0);
    assert_near(reason.need, 1.2, 0);
    /* Sizes of the trade: a 30 x 12 in stand for a tank of 30 1/4 x 12 1/2; no 36 x 18 frame, no 24 x 12. */
    s.tank.length = 30.25 * 0.0254;
    s.tank.width = 12.5 * 0.0254;
    ACCEPTED(&s, stand(30 * 0.0254, 12 * 0.0254, 300), 1);
    REFUSED(&s, stand(24 * 0.0254, 12 * 0.0254, 300), TC_TOO_SHORT);
    frame = stand(36 * 0.0254, 18 * 0.0254, 300);
    frame.as.stand.solid = false;
    REFUSED(&s, frame, TC_TOO_LONG);
}

static struct tc_part lid(double length, double width, double transmittance)
{
    return (struct tc_part){.slot = TC_SLOT_LID,
                            .as.lid = {length, width, .covered = 0.9, .transmittance = transmittance}};
}

static void a_lid_covers_the_rim_in_one_to_three_pieces(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    ACCEPTED(&s, lid(1.2, 0.4, 0.9), 1);
    ACCEPTED(&s, lid(1.185, 0.4, 0.9), 1);
    ACCEPTED(&s, lid(1.215, 0.4, 0.9), 1);
    REFUSED(&s, lid(1.1849, 0.4, 0.9), TC_NOT_IN_PIECES);
    REFUSED(&s, lid(1.2151, 0.4, 0.9), TC_TOO_LONG);
    ACCEPTED(&s, lid(0.6, 0.4, 0.9), 2);
    ACCEPTED(&s, lid(0.5925, 0.4, 0.9), 2);
    ACCEPTED(&s, lid(0.6075, 0.4, 0.9), 2);
    REFUSED(&s, lid(0.5924, 0.4, 0.9), TC_NOT_IN_PIECES);
    REFUSED(&s, lid(0.6076, 0.4, 0.9), TC_NOT_IN_PIECES);
    ACCEPTED(&s, lid(0.4, 0.4, 0.9), 3);
    ACCEPTED(&s, lid(0.395, 0.4, 0.9), 3);
    ACCEPTED(&s, lid(0.405, 0.4, 0.9), 3);
    REFUSED(&s, lid(0.3, 0.4, 0.9), TC_NOT_IN_PIECES); /* four pieces are too many */
    ACCEPTED(&s, lid(1.2, 0.385, 0.9), 1);
    REFUSED(&s, lid(1.2, 0.3849, 0.9), TC_TOO_NARROW);
    ACCEPTED(&s, lid(1.2, 0.415, 0.9), 1);
    REFUSED(&s, lid(1.2, 0.4151, 0.9), TC_TOO_WIDE);
}

/* The cheapest lid was taken even where it kept all light from the plants. */
static void an_opaque_lid_is_none_for_plants(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    ACCEPTED(&s, lid(1.2, 0.4, 0), 1);
    s.setup.ppfd = 40;
    REFUSED(&s, lid(1.2, 0.4, 0), TC_OPAQUE);
    ACCEPTED(&s, lid(1.2, 0.4, 0.01), 1);
}

/*
 * Common practice, no source: a lid of the 48 x 13 in family fits every tank of that
 * length and width whatever its height, and so do two lids of the 24 x 13 in family.
 */
static void lids_go_by_family(void **state)
{
    (void)state;
    static const double lengths[] = {48, 48.25, 48.5}, widths[] = {12.5, 12.75, 13};
    struct scene s;
    set_scene(&s);
    for (size_t l = 0; l < LENGTH(lengths); l++)
        for (size_t w = 0; w < LENGTH(widths); w++)
            for (int height = 12; height <= 24; height += 3) {
                s.tank = sample_tank_inches(lengths[l], widths[w], height, 8);
                ACCEPTED(&s, lid(48 * INCH, 13 * INCH, 0.9), 1);
                ACCEPTED(&s, lid(24 * INCH, 13 * INCH, 0.9), 2);
                REFUSED(&s, lid(36 * INCH, 13 * INCH, 0.9), TC_NOT_IN_PIECES);
                REFUSED(&s, lid(48 * INCH, 18 * INCH, 0.9), TC_TOO_WIDE);
            }
}

static struct tc_part light(double shortest, double longest, double ppf, double reach)
{
    return (struct tc_part){.slot = TC_SLOT_LIGHT,
                            .as.light = {shortest, longest, .power = 20, .ppf = ppf, .reach = reach}};
}

static void lights_span_the_length(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    s.fit.demand = (struct tc_demand){.ppf = 50, .rows = 1};
    ACCEPTED(&s, light(1.1, 1.3, 60, 0), 1);
    ACCEPTED(&s, light(1.2, 1.3, 60, 0), 1);
    REFUSED(&s, light(1.2001, 1.3, 60, 0), TC_TOO_LONG);
    ACCEPTED(&s, light(1.0, 1.2, 60, 0), 1);
    ACCEPTED(&s, light(0.5, 1.1999, 60, 0), 2);
    ACCEPTED(&s, light(0.5, 0.6, 60, 0), 2);
    REFUSED(&s, light(0.61, 1.1, 60, 0), TC_TOO_LONG); /* one is too short, two are too long */
    ACCEPTED(&s, light(0.3, 0.5, 60, 0), 3);
    ACCEPTED(&s, light(0.3, 0.4, 60, 0), 3);
    REFUSED(&s, light(0.3, 0.3999, 60, 0), TC_TOO_SHORT);
}

/* Three fixtures for 16 in span 48 in, though 3 x 0.4064 m is a hair less than 1.2192 m in binary. */
static void a_figure_met_but_for_rounding_is_met(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    for (int inches = 10; inches <= 30; inches++) {
        s.tank.length = 3 * inches * INCH;
        s.fit.demand = (struct tc_demand){.ppf = 3 * 0.1, .rows = 1};
        ACCEPTED(&s, light(0.1, inches * INCH, 0.1, 0), 3);
        ACCEPTED(&s, light(inches * INCH, 2 * inches * INCH, 10, 0), 2);
    }
}

static void lights_stand_in_rows(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    s.fit.demand = (struct tc_demand){.ppf = 100, .rows = 1};
    /* by the light asked for */
    ACCEPTED(&s, light(1, 1.3, 100, 0), 1);
    ACCEPTED(&s, light(1, 1.3, 99.9, 0), 2);
    ACCEPTED(&s, light(1, 1.3, 25, 0), 4);
    REFUSED(&s, light(1, 1.3, 24.9, 0), TC_TOO_DIM);
    assert_int_equal(judge_part(&s, light(1, 1.3, 25, 0)).rows, 4);
    /* two fixtures in each row */
    ACCEPTED(&s, light(0.5, 0.7, 25, 0), 4);
    assert_int_equal(judge_part(&s, light(0.5, 0.7, 25, 0)).rows, 2);
    /* by the width of 38 cm inside, where the fixture says how wide it lights */
    ACCEPTED(&s, light(1, 1.3, 100, 0.38), 1);
    ACCEPTED(&s, light(1, 1.3, 100, 0.379), 2);
    ACCEPTED(&s, light(1, 1.3, 100, 0.095), 4);
    REFUSED(&s, light(1, 1.3, 100, 0.0949), TC_TOO_NARROW);
    assert_near(judge_part(&s, light(1, 1.3, 100, 0.09)).reason.have, 0.36, 1e-12);
    assert_near(judge_part(&s, light(1, 1.3, 100, 0.09)).reason.need, 0.38, 1e-12);
    /* else by what the height asks for */
    s.fit.demand.rows = 3;
    ACCEPTED(&s, light(1, 1.3, 100, 0), 3);
    ACCEPTED(&s, light(1, 1.3, 100, 0.5), 1);
    s.fit.demand.rows = 5;
    REFUSED(&s, light(1, 1.3, 100, 0), TC_TOO_NARROW);
}

static struct tc_part filter(enum tc_filter_kind kind, double flow, double reach)
{
    return (struct tc_part){.slot = TC_SLOT_FILTER,
                            .as.filter = {.kind = kind, .flow = flow, .reach = reach}};
}

static void filters_turn_over_and_reach(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    s.fit.demand.flow = 2e-4;
    ACCEPTED(&s, filter(TC_FILTER_CANISTER, 2e-4, 2), 1);
    ACCEPTED(&s, filter(TC_FILTER_CANISTER, 1.99e-4, 2), 2);
    ACCEPTED(&s, filter(TC_FILTER_CANISTER, 1e-4, 2), 2);
    ACCEPTED(&s, filter(TC_FILTER_CANISTER, 0.5e-4, 2), 4);
    REFUSED(&s, filter(TC_FILTER_CANISTER, 0.499e-4, 2), TC_TOO_SMALL);
    /* 118 cm inside */
    ACCEPTED(&s, filter(TC_FILTER_CANISTER, 2e-4, 1.18), 1);
    ACCEPTED(&s, filter(TC_FILTER_CANISTER, 2e-4, 1.179), 2);
    ACCEPTED(&s, filter(TC_FILTER_CANISTER, 2e-4, 0.295), 4);
    REFUSED(&s, filter(TC_FILTER_CANISTER, 2e-4, 0.294), TC_TOO_SHORT);
    /* whichever is more */
    ACCEPTED(&s, filter(TC_FILTER_CANISTER, 1e-4, 0.4), 3);
    ACCEPTED(&s, filter(TC_FILTER_CANISTER, 0.7e-4, 0.6), 3);
    REFUSED(&s, filter(TC_FILTER_SPONGE, 2e-4, 2), TC_OTHER_KIND);
    s.setup.filter = TC_FILTER_NONE;
    REFUSED(&s, filter(TC_FILTER_CANISTER, 2e-4, 2), TC_OTHER_KIND);
}

/* Common practice, no source: a 4 ft tank asks for a filter at each end, a 3 ft one is served by one. */
static void four_feet_take_two_filters(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    struct tc_part yard = filter(TC_FILTER_CANISTER, 1e-3, 36 * INCH);
    s.tank = sample_tank_inches(36, 18.5, 12, 8);
    assert_int_equal(tc_tank_measure(&s.tank, (struct tc_bed){0}, 298.15, &s.size), TC_OK);
    s.fit.demand.flow = 1e-4;
    ACCEPTED(&s, yard, 1);
    s.tank = sample_tank_inches(48, 13, 16, 8);
    assert_int_equal(tc_tank_measure(&s.tank, (struct tc_bed){0}, 298.15, &s.size), TC_OK);
    ACCEPTED(&s, yard, 2);
}

static struct tc_part air_pump(double flow, double depth)
{
    return (struct tc_part){.slot = TC_SLOT_AIR_PUMP, .as.air_pump = {flow, depth, 3}};
}

static void air_pumps_blow_deep_enough(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    s.fit.demand.air = 6e-5;
    double depth = s.size.water_depth;
    ACCEPTED(&s, air_pump(6e-5, depth), 1);
    REFUSED(&s, air_pump(6e-5, depth - 1e-6), TC_TOO_DEEP);
    ACCEPTED(&s, air_pump(3e-5, 1), 2);
    ACCEPTED(&s, air_pump(2e-5, 1), 3);
    REFUSED(&s, air_pump(1.99e-5, 1), TC_TOO_SMALL);
}

static struct tc_part heater(double power)
{
    return (struct tc_part){.slot = TC_SLOT_HEATER, .as.heater = {power}};
}

static void heaters_are_strong_enough_and_no_more(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    s.fit.demand.heat = 150;
    ACCEPTED(&s, heater(150), 1);
    ACCEPTED(&s, heater(149), 2);
    ACCEPTED(&s, heater(37.5), 4);
    REFUSED(&s, heater(37.4), TC_TOO_SMALL);
    /* at most 3 W a litre */
    double most = 3000 * s.size.water_volume;
    assert_true(most > 300);
    ACCEPTED(&s, heater(most), 1);
    REFUSED(&s, heater(most + 0.1), TC_TOO_STRONG);
    assert_near(judge_part(&s, heater(1000)).reason.have, 1000, 0);
    assert_near(judge_part(&s, heater(1000)).reason.need, most, 1e-9);
    /* as many as the setup wants, in all no stronger */
    s.setup.heater_count = 2;
    ACCEPTED(&s, heater(150), 2);
    ACCEPTED(&s, heater(most / 2), 2);
    REFUSED(&s, heater(most / 2 + 0.1), TC_TOO_STRONG);
    /* a cold shed asks for more: half as much again as that at most */
    s.setup.heater_count = 1;
    s.fit.demand.heat = most;
    ACCEPTED(&s, heater(1.5 * most), 1);
    REFUSED(&s, heater(1.5 * most + 0.1), TC_TOO_STRONG);
}

static struct tc_part bags(double volume)
{
    return (struct tc_part){.slot = TC_SLOT_SUBSTRATE, .as.substrate = {volume, 1600, 0.4}};
}

static void substrate_comes_in_whole_bags(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    s.fit.demand.bed = 0.03;
    ACCEPTED(&s, bags(0.03), 1);
    ACCEPTED(&s, bags(0.0299), 2);
    ACCEPTED(&s, bags(0.01), 3);
    ACCEPTED(&s, bags(0.0005), 60);
    REFUSED(&s, bags(0.00049), TC_TOO_SMALL);
    assert_near(judge_part(&s, bags(0.012)).reason.have, 0.036, 1e-12);
    assert_near(judge_part(&s, bags(0.012)).reason.need, 0.03, 0);
}

/* The count is the least that gives what is needed, whatever that is. */
static void counts_are_the_least_that_do(void **state)
{
    (void)state;
    struct scene s;
    struct tc_random random = draw_from(50);
    set_scene(&s);
    for (int i = 0; i < 20000; i++) {
        double each = draw_between(&random, 1e-5, 1e-3);
        s.fit.demand.flow = draw_between(&random, 0, 5e-3);
        struct tc_verdict verdict = judge_part(&s, filter(TC_FILTER_CANISTER, each, 9));
        if (!verdict.fits) {
            assert_true(4 * each < s.fit.demand.flow);
            continue;
        }
        assert_in_range(verdict.count, 1, 4);
        assert_true(verdict.count * each >= s.fit.demand.flow * (1 - 1e-8));
        assert_true(verdict.count == 1 || (verdict.count - 1) * each < s.fit.demand.flow);
    }
}

/* By hand: bought at 0, 4 and 8 years; half its last life left at 10, sold for 30 % of that. */
static void present_value_by_hand(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    struct tc_part part = stand(1.2, 0.4, 300);
    part.goods.resale = 0.3;
    s.count = 0;
    *offer(&s, TC_SLOT_STAND, "s", 4000, 4) = part;
    s.parts[0].goods.life = 4;
    judge(&s, TC_SLOT_STAND, NULL);
    assert_near(s.verdicts[0].present_value, 3 * 4000 - 0.5 * 0.3 * 4000, 1e-6);
    /* With tax; what is sold is worth a share of the price without it. */
    s.fit.replacement_tax = 0.07;
    judge(&s, TC_SLOT_STAND, NULL);
    assert_near(s.verdicts[0].present_value, 3 * 4280 - 0.5 * 0.3 * 4000, 1e-6);
    /* Discounted at 3 %. */
    s.fit.discount = 0.03;
    judge(&s, TC_SLOT_STAND, NULL);
    assert_near(s.verdicts[0].present_value,
                4280 * (1 + pow(1.03, -4) + pow(1.03, -8)) - 600 * pow(1.03, -10), 1e-6);
}

/* Running costs by hand: 20 W for 8 hours a day, and supplies. Two pieces cost twice as much. */
static void present_value_counts_energy_and_supplies(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    s.fit.demand = (struct tc_demand){.ppf = 1, .rows = 1};
    s.fit.energy_price = 15 / 3.6e6; /* 15 cents a kWh */
    offer(&s, TC_SLOT_LIGHT, "one", 4000, INFINITY)->as = light(1, 1.3, 60, 0).as;
    offer(&s, TC_SLOT_LIGHT, "two", 4000, INFINITY)->as = light(0.5, 0.7, 60, 0).as;
    s.offers[0].upkeep = s.offers[1].upkeep = 250;
    judge(&s, TC_SLOT_LIGHT, NULL);
    double kwh = 0.020 * 8 * 365;
    assert_near(s.verdicts[0].present_value, 4000 + 10 * (kwh * 15 + 250), 1e-6);
    assert_near(s.verdicts[1].present_value, 2 * s.verdicts[0].present_value, 1e-6);
    /* A filter runs day and night. */
    s.count = 0;
    s.setup.filter = TC_FILTER_CANISTER;
    struct tc_part canister = filter(TC_FILTER_CANISTER, 1, 2);
    canister.as.filter.power = 20;
    offer(&s, TC_SLOT_FILTER, "f", 4000, INFINITY)->as = canister.as;
    judge(&s, TC_SLOT_FILTER, NULL);
    assert_near(s.verdicts[0].present_value, 4000 + 10 * 0.020 * 24 * 365 * 15, 1e-6);
}

static void the_cheapest_to_own_is_chosen(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    s.fit.demand.heat = 100;
    /* Dearer, but it lasts: over a short study it loses. */
    offer(&s, TC_SLOT_HEATER, "cheap", 2000, 2)->as.heater.power = 100;
    offer(&s, TC_SLOT_HEATER, "durable", 4500, 10)->as.heater.power = 100;
    s.fit.years = 2;
    judge(&s, TC_SLOT_HEATER, NULL);
    assert_int_equal(s.chosen, 0);
    s.fit.years = 10;
    judge(&s, TC_SLOT_HEATER, NULL);
    assert_int_equal(s.chosen, 1);
    /* One strong enough against two weak ones. */
    offer(&s, TC_SLOT_HEATER, "weak", 2500, 10)->as.heater.power = 60;
    judge(&s, TC_SLOT_HEATER, NULL);
    assert_int_equal(s.verdicts[2].count, 2);
    assert_int_equal(s.chosen, 1);
    s.offers[2].price = 2100; /* 7 % less, which is worth a second piece */
    judge(&s, TC_SLOT_HEATER, NULL);
    assert_int_equal(s.chosen, 2);
    /* Dearer, but it fetches more at the end. */
    s.offers[2].price = 2300;
    s.parts[2].goods.life = 100;
    s.parts[2].goods.resale = 0.5;
    judge(&s, TC_SLOT_HEATER, NULL);
    assert_int_equal(s.chosen, 2);
}

/* A thriftier light wins where power is dear or the study long enough. */
static void a_thriftier_part_wins_where_power_is_dear(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    s.fit.demand = (struct tc_demand){.ppf = 50, .rows = 1};
    offer(&s, TC_SLOT_LIGHT, "cheap", 3000, INFINITY)->as = light(1, 1.3, 60, 0).as;
    offer(&s, TC_SLOT_LIGHT, "thrifty", 6000, INFINITY)->as = light(1, 1.3, 60, 0).as;
    s.parts[0].as.light.power = 40;
    /* 20 W less for 8 h a day: 58.4 kWh a year, 584 in ten; they pay back at 3000 / 584 = 5.14 a kWh. */
    s.fit.energy_price = 5.1 / 3.6e6;
    judge(&s, TC_SLOT_LIGHT, NULL);
    assert_int_equal(s.chosen, 0);
    s.fit.energy_price = 5.2 / 3.6e6;
    judge(&s, TC_SLOT_LIGHT, NULL);
    assert_int_equal(s.chosen, 1);
    s.fit.years = 9;
    judge(&s, TC_SLOT_LIGHT, NULL);
    assert_int_equal(s.chosen, 0);
    s.fit.energy_escalation = 0.05;
    judge(&s, TC_SLOT_LIGHT, NULL);
    assert_int_equal(s.chosen, 1);
}

static void of_equals_the_first_is_chosen(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    s.fit.demand.heat = 100;
    for (int i = 0; i < 5; i++) {
        char name[8];
        snprintf(name, sizeof name, "h%d", 5 - i);
        offer(&s, TC_SLOT_HEATER, name, i == 0 ? 2001 : 2000, 5)->as.heater.power = 100;
    }
    assert_int_equal(judge(&s, TC_SLOT_HEATER, NULL), 5);
    assert_int_equal(s.chosen, 1);
}

static void an_unpriced_part_is_not_chosen(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    s.fit.demand.heat = 100;
    offer(&s, TC_SLOT_HEATER, "unpriced", 0, 5)->as.heater.power = 100;
    offer(&s, TC_SLOT_HEATER, "dear", 90000, 5)->as.heater.power = 100;
    offer(&s, TC_SLOT_HEATER, "small", 0, 5)->as.heater.power = 1;
    s.offers[0].priced = s.offers[2].priced = false;
    judge(&s, TC_SLOT_HEATER, NULL);
    assert_int_equal(s.chosen, 1);
    assert_int_equal(s.verdicts[0].reason.code, TC_NO_PRICE);
    assert_false(s.verdicts[0].fits);
    assert_int_equal(s.verdicts[2].reason.code, TC_TOO_SMALL); /* the better reason */
    /* ... unless the plan asks for it. */
    judge(&s, TC_SLOT_HEATER, "unpriced");
    assert_int_equal(s.chosen, 0);
    assert_true(s.verdicts[0].fits);
    assert_int_equal(s.verdicts[0].count, 1);
}

static void a_pinned_part_is_taken(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    s.fit.demand.heat = 100;
    offer(&s, TC_SLOT_HEATER, "cheap", 2000, 5)->as.heater.power = 100;
    offer(&s, TC_SLOT_HEATER, "dear", 9000, 5)->as.heater.power = 60;
    offer(&s, TC_SLOT_HEATER, "small", 1000, 5)->as.heater.power = 10;
    judge(&s, TC_SLOT_HEATER, "dear");
    assert_int_equal(s.chosen, 1);
    assert_true(s.verdicts[1].fits);
    assert_int_equal(s.verdicts[1].reason.code, TC_FITS_PINNED);
    assert_int_equal(s.verdicts[1].count, 2); /* the least that works */
    /* One that breaks a rule is taken once, and its verdict says which. */
    judge(&s, TC_SLOT_HEATER, "small");
    assert_int_equal(s.chosen, 2);
    assert_true(!s.verdicts[2].fits);
    assert_int_equal(s.verdicts[2].reason.code, TC_TOO_SMALL);
    assert_int_equal(s.verdicts[2].count, 1);
    assert_true(s.verdicts[2].present_value > 0);
    /* One that is not on offer leaves the slot empty. */
    judge(&s, TC_SLOT_HEATER, "unheard-of");
    assert_int_equal(s.chosen, -1);
}

/* Two small ones for 1 % less are not worth having instead of a large one; for 9 % less they are. */
static void fewer_pieces_are_preferred(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    s.fit.demand.heat = 100;
    offer(&s, TC_SLOT_HEATER, "small", 990, INFINITY)->as.heater.power = 50;
    offer(&s, TC_SLOT_HEATER, "large", 2000, INFINITY)->as.heater.power = 100;
    judge(&s, TC_SLOT_HEATER, NULL);
    assert_int_equal(s.chosen, 1);
    s.offers[0].price = 910;
    judge(&s, TC_SLOT_HEATER, NULL);
    assert_int_equal(s.chosen, 0);
    /* Of as many pieces each the cheaper one, by however little. */
    offer(&s, TC_SLOT_HEATER, "larger", 1999, INFINITY)->as.heater.power = 110;
    s.offers[0].price = 990;
    judge(&s, TC_SLOT_HEATER, NULL);
    assert_int_equal(s.chosen, 2);
}

/* A count that the plan wants is bought; a part fits if so many of it do. */
static void a_count_may_be_wanted(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    s.fit.demand.heat = 102;
    s.fit.count = 1;
    offer(&s, TC_SLOT_HEATER, "hundred", 1000, 5)->as.heater.power = 100;
    offer(&s, TC_SLOT_HEATER, "two-hundred", 3000, 5)->as.heater.power = 200;
    judge(&s, TC_SLOT_HEATER, NULL);
    assert_int_equal(s.chosen, 1);
    assert_int_equal(s.verdicts[0].reason.code, TC_TOO_SMALL);
    assert_near(s.verdicts[0].reason.have, 100, 0);
    /* Pinned it is taken all the same, once and not twice. */
    judge(&s, TC_SLOT_HEATER, "hundred");
    assert_int_equal(s.chosen, 0);
    assert_int_equal(s.verdicts[0].count, 1);
    assert_false(s.verdicts[0].fits);
    s.fit.count = 3;
    judge(&s, TC_SLOT_HEATER, NULL);
    assert_int_equal(s.chosen, 0);
    assert_int_equal(s.verdicts[0].count, 3);
    assert_true(s.verdicts[0].fits);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        struct tc_part part = {.slot = (enum tc_slot)slot};
        for (s.fit.count = 1; s.fit.count < 9; s.fit.count++)
            assert_in_range(tc_fit_judge(&s.fit, part.slot, &(struct tc_offer){.part = &part}, true).count,
                            s.fit.count, s.fit.count);
    }
}

/* Three hundred dear ones before a cheap one hide nothing. */
static void every_offer_counts(void **state)
{
    (void)state;
    enum { MANY = 300 };
    static struct tc_part parts[MANY + 1];
    static struct tc_offer offers[MANY + 1];
    struct tc_verdict best;
    struct scene s;
    set_scene(&s);
    s.fit.demand.heat = 40;
    for (int i = 0; i <= MANY; i++) {
        parts[i] = (struct tc_part){.slot = TC_SLOT_HEATER, .goods = {.life = 5}, .as.heater = {50}};
        offers[i] = (struct tc_offer){.part = &parts[i], .priced = true, .price = i < MANY ? 9900 : 1800};
    }
    assert_true(tc_fit_choose(&s.fit, TC_SLOT_HEATER, offers, MANY + 1, NULL, &best));
    assert_ptr_equal(best.offer, &offers[MANY]);
}

static void other_slots_are_left_out(void **state)
{
    (void)state;
    struct scene s;
    set_scene(&s);
    s.fit.demand.heat = 100;
    offer(&s, TC_SLOT_STAND, "stand", 1, 5)->as = stand(1.2, 0.4, 300).as;
    offer(&s, TC_SLOT_HEATER, "a", 3000, 5)->as.heater.power = 100;
    offer(&s, TC_SLOT_LID, "lid", 1, 5)->as = lid(1.2, 0.4, 0.9).as;
    offer(&s, TC_SLOT_HEATER, "b", 2000, 5)->as.heater.power = 100;
    offer(&s, TC_SLOT_HEATER, "c", 1000, 5)->as.heater.power = 100;
    assert_int_equal(judge(&s, TC_SLOT_HEATER, NULL), 3);
    assert_string_equal(s.verdicts[s.chosen].offer->part->goods.name, "c");
    assert_int_equal(judge(&s, TC_SLOT_FILTER, NULL), 0);
    assert_int_equal(s.chosen, -1);
}

/* Each slot once, and each after those whose parts it depends on. */
static void slots_are_filled_in_order(void **state)
{
    (void)state;
    int place[TC_SLOT_COUNT];
    for (int i = 0; i < TC_SLOT_COUNT; i++)
        place[i] = -1;
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        assert_int_equal(place[tc_fit_order[i]], -1);
        place[tc_fit_order[i]] = i;
    }
    for (int i = 0; i < TC_SLOT_COUNT; i++)
        assert_true(place[TC_SLOT_SUBSTRATE] <= place[i] && place[i] <= place[TC_SLOT_STAND]);
    assert_true(place[TC_SLOT_LID] < place[TC_SLOT_LIGHT]);
    assert_true(place[TC_SLOT_FILTER] < place[TC_SLOT_AIR_PUMP]);
    assert_true(place[TC_SLOT_LIGHT] < place[TC_SLOT_HEATER]);
    assert_true(place[TC_SLOT_FILTER] < place[TC_SLOT_HEATER]);
}

static void slots_and_kinds_have_names(void **state)
{
    (void)state;
    for (int i = 0; i < TC_SLOT_COUNT; i++) {
        enum tc_slot slot = TC_SLOT_COUNT;
        assert_true(tc_slot_find(tc_slot_name((enum tc_slot)i), &slot));
        assert_int_equal(slot, i);
    }
    enum tc_slot slot = TC_SLOT_LID;
    assert_false(tc_slot_find("pump", &slot));
    assert_false(tc_slot_find("", &slot));
    assert_int_equal(slot, TC_SLOT_LID);
    assert_string_equal(tc_slot_name(TC_SLOT_AIR_PUMP), "air-pump");
    assert_string_equal(tc_filter_kind_name(TC_FILTER_NONE), "none");
    assert_string_equal(tc_filter_kind_name(TC_FILTER_SPONGE), "sponge");
    assert_string_equal(tc_filter_kind_name(TC_FILTER_HANG_ON), "hang-on");
    assert_string_equal(tc_filter_kind_name(TC_FILTER_CANISTER), "canister");
}

static void parts_with_a_cable_have_a_power(void **state)
{
    (void)state;
    struct tc_part part = heater(150);
    assert_near(tc_part_power(&part), 150, 0);
    part = light(1, 2, 60, 0);
    assert_near(tc_part_power(&part), 20, 0);
    part = air_pump(1, 1);
    assert_near(tc_part_power(&part), 3, 0);
    part = filter(TC_FILTER_SPONGE, 1, 1);
    assert_near(tc_part_power(&part), 0, 0);
    part = lid(1, 1, 1);
    assert_near(tc_part_power(&part), 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_stand_carries_the_tank),
        cmocka_unit_test(a_lid_covers_the_rim_in_one_to_three_pieces),
        cmocka_unit_test(an_opaque_lid_is_none_for_plants),
        cmocka_unit_test(lids_go_by_family),
        cmocka_unit_test(lights_span_the_length),
        cmocka_unit_test(a_figure_met_but_for_rounding_is_met),
        cmocka_unit_test(lights_stand_in_rows),
        cmocka_unit_test(filters_turn_over_and_reach),
        cmocka_unit_test(four_feet_take_two_filters),
        cmocka_unit_test(air_pumps_blow_deep_enough),
        cmocka_unit_test(heaters_are_strong_enough_and_no_more),
        cmocka_unit_test(substrate_comes_in_whole_bags),
        cmocka_unit_test(counts_are_the_least_that_do),
        cmocka_unit_test(present_value_by_hand),
        cmocka_unit_test(present_value_counts_energy_and_supplies),
        cmocka_unit_test(the_cheapest_to_own_is_chosen),
        cmocka_unit_test(a_thriftier_part_wins_where_power_is_dear),
        cmocka_unit_test(of_equals_the_first_is_chosen),
        cmocka_unit_test(an_unpriced_part_is_not_chosen),
        cmocka_unit_test(a_pinned_part_is_taken),
        cmocka_unit_test(fewer_pieces_are_preferred),
        cmocka_unit_test(a_count_may_be_wanted),
        cmocka_unit_test(every_offer_counts),
        cmocka_unit_test(other_slots_are_left_out),
        cmocka_unit_test(slots_are_filled_in_order),
        cmocka_unit_test(slots_and_kinds_have_names),
        cmocka_unit_test(parts_with_a_cable_have_a_power),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
