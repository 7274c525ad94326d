/* SPDX-License-Identifier: MIT */
/* What other parts spare of heat and vapour at most, against the years with them worked out. The bounds are
 * proven in spared.h, for a lump of water: no outside source.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/cost/counter_make.h"
#include "core/cost/spared.h"
#include "support/sample.h"
#include "support/step.h"

enum { CASES = 2000, OTHERS = 8 };

/* Parts like those chosen, and a little or much unlike them. */
struct likeness {
    struct tc_part part[TC_SLOT_COUNT];
    struct tc_offer offer[TC_SLOT_COUNT];
};

static double unlike(struct tc_random *random)
{
    double far = draw_below(random, 3) ? 0.05 : 1.5;
    return draw_between(random, 1 - fmin(far, 1), 1 + far);
}

static void change(struct tc_part *part, struct tc_random *random)
{
    double factor = unlike(random);
    switch (part->slot) {
    case TC_SLOT_LID: part->as.lid.covered = fmin(1, part->as.lid.covered * factor); break;
    case TC_SLOT_LIGHT: part->as.light.power *= factor; break;
    case TC_SLOT_FILTER: part->as.filter.power *= factor; break;
    case TC_SLOT_SUBSTRATE:
        part->as.substrate.void_share = fmin(0.9, part->as.substrate.void_share * factor);
        part->as.substrate.bulk_density *= unlike(random);
        break;
    default: break;
    }
}

/* The equipment with other parts in one or several slots. */
static void make_other(const struct tc_case *c, const struct tc_equipment *first, struct likeness *like,
                       struct tc_random *random, struct tc_equipment *other)
{
    int alone = draw_below(random, 2 * TC_SLOT_COUNT);
    *other = *first;
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
        if (!first->slot[slot].offer || slot == TC_SLOT_HEATER || (alone < TC_SLOT_COUNT && slot != alone))
            continue;
        like->part[slot] = *first->slot[slot].offer->part;
        change(&like->part[slot], random);
        like->offer[slot] = *first->slot[slot].offer;
        like->offer[slot].part = &like->part[slot];
        other->slot[slot].offer = &like->offer[slot];
    }
    assert_int_equal(tc_equipment_measure(c, other), TC_OK);
}

/* A heater that always suffices: where parts are chosen, it does. */
static bool strengthen(struct sample *s, struct tc_part *heater, struct tc_offer *offer)
{
    struct tc_filled *filled = &s->equipment.slot[TC_SLOT_HEATER];
    if (!filled->offer)
        return false;
    *heater = *filled->offer->part;
    heater->as.heater.power = 1e5;
    *offer = *filled->offer;
    offer->part = heater;
    filled->offer = offer;
    return true;
}

struct tightest {
    double heat, same; /* of what is allowed for working a year out the least that was left, as a share */
    int tried, bound;
};

static void hold(const struct tc_spared *spared, const struct tc_equipment *other, struct tightest *t)
{
    struct tc_heat_year room;
    struct tc_heat_case heat = tc_equipment_heat(spared->c, other);
    assert_int_equal(tc_heat_year(&heat, &room), TC_OK);
    double all = spared->year.heater_total, most = tc_spared_heat(spared, other);
    double spares = all - room.heater_total, dry = spared->year.evaporated_total - room.evaporated_total;
    bool same = tc_equipment_gain(other) == tc_equipment_gain(spared->first) &&
                tc_equipment_light_gain(other) == tc_equipment_light_gain(spared->first);
    double slack = same ? TC_SPARED_SAME_SLACK : TC_SPARED_SLACK;
    assert_true(spares <= most);
    assert_true(dry <= tc_spared_vapour(spared, other) * (1 + 1e-12));
    t->tried++;
    if (!(most < all))
        return;
    t->bound++;
    *(same ? &t->same : &t->heat) =
        fmin(same ? t->same : t->heat, (most - spares) / (slack * fmin(all, room.heater_total)));
}

/* With nothing remembered, and with the years of others. */
static void no_part_spares_more(void **state)
{
    (void)state;
    struct tc_random random = draw_from(414);
    struct tightest plain = {1, 1, 0, 0}, knowing = {1, 1, 0, 0};
    for (int i = 0; i < CASES; i += test_step()) {
        static struct sample s;
        static struct tc_heat_memory memory;
        struct tc_counter whole, narrowed;
        struct tc_part heater;
        struct tc_offer offer;
        struct tc_heat_year room;
        const struct tc_heat_year *year;
        sample_draw(&s, &random);
        if (!strengthen(&s, &heater, &offer))
            continue;
        assert_int_equal(tc_counter_make(&whole, &s.c), TC_OK);
        assert_int_equal(tc_counter_narrow(&whole, &s.c, &narrowed), TC_OK);
        struct tc_case c = s.c;
        c.counter = &narrowed;
        assert_int_equal(tc_equipment_heat_year(&c, &s.equipment, &room, &year), TC_OK);
        struct tc_spared spared;
        tc_spared_start(&spared, &c, &s.equipment, year);
        for (int k = 0; k < OTHERS; k++) {
            static struct likeness like;
            struct tc_equipment other;
            make_other(&c, &s.equipment, &like, &random, &other);
            c.memory = NULL;
            hold(&spared, &other, &plain);
            c.memory = &memory;
            if (k > 0)
                hold(&spared, &other, &knowing);
            memory.count = k == 0 ? 0 : memory.count;
            make_other(&c, &s.equipment, &like, &random, &other);
            assert_int_equal(tc_equipment_heat_year(&c, &other, &room, &year), TC_OK);
        }
        tc_counter_free(&narrowed);
        tc_counter_free(&whole);
    }
    /* What is allowed for the working out is not all used up: in 120 000 tanks half of it was, at most. */
    assert_true(plain.heat > 0.4 && plain.same > 0.4);
    assert_true(knowing.heat > 0.4 && knowing.same > 0.4);
    assert_true(plain.bound > plain.tried / 4 && knowing.bound >= plain.bound / 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_part_spares_more),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
