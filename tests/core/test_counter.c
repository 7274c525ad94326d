/* SPDX-License-Identifier: MIT */
/* Parts chosen with what was made ready and bounded before, against the same
 * chosen by looking at everything.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/cost/counter_make.h"
#include "support/sample.h"
#include "support/step.h"

enum { CASES = 1200 };

/* More parts than a drawn sample has: some equal to others but for their price,
 * some a little different. */
static void add_parts(struct sample *s, struct tc_random *random)
{
    int first = s->c.offer_count;
    while (s->c.offer_count < SAMPLE_PARTS_MAX) {
        int like = draw_below(random, first), i = s->c.offer_count++;
        double factor = draw_between(random, 0.8, 1.3);
        s->parts[i] = s->parts[like];
        s->offers[i] = s->offers[like];
        s->offers[i].part = &s->parts[i];
        if (draw_below(random, 4))
            s->offers[i].price = (tc_money)round((double)s->offers[i].price * factor);
        factor = draw_between(random, 0.9, 1.1);
        if (draw_below(random, 2))
            continue;
        switch (s->parts[i].slot) {
        case TC_SLOT_LIGHT: s->parts[i].as.light.power *= factor; break;
        case TC_SLOT_FILTER: s->parts[i].as.filter.power *= factor; break;
        case TC_SLOT_LID: s->parts[i].as.lid.covered = fmin(1, s->parts[i].as.lid.covered * factor); break;
        case TC_SLOT_HEATER: s->parts[i].as.heater.power *= factor; break;
        case TC_SLOT_AIR_PUMP: s->parts[i].as.air_pump.flow *= factor; break;
        case TC_SLOT_SUBSTRATE: s->parts[i].as.substrate.void_share *= fmin(1, factor); break;
        default: s->parts[i].as.stand.load *= factor; break;
        }
    }
}

/* A turnover by which one filter more is needed than if a bed left a little less water; and dear filters. */
static void ask_for_one_more(struct sample *s, struct tc_random *random)
{
    const struct tc_filled *filter = &s->equipment.slot[TC_SLOT_FILTER];
    if (!filter->offer || !s->equipment.slot[TC_SLOT_SUBSTRATE].offer)
        return;
    for (int k = 0; k < s->c.offer_count; k++)
        if (s->parts[k].slot == TC_SLOT_FILTER)
            s->offers[k].price *= 10;
    double all = filter->offer->part->as.filter.flow * (1 + draw_below(random, 3));
    s->setup.turnover = all / s->equipment.size.water_volume * draw_between(random, 1, 1.003);
}

static void the_choice_is_the_same(void **state)
{
    (void)state;
    struct tc_random random = draw_from(2027);
    int chosen = 0, dropped = 0, not_first = 0;
    for (int i = 0; i < CASES / test_step(); i++) {
        struct sample s;
        struct tc_counter whole, narrowed;
        struct tc_equipment with = {0}, without = {0};
        sample_draw(&s, &random);
        add_parts(&s, &random);
        if (i % 4 == 0)
            ask_for_one_more(&s, &random);
        /* An hour of upkeep: usual ones, and such that the water a bed leaves outweighs its price. */
        s.c.hour_worth = i % 3 == 0 ? draw_between(&random, 50, i % 2 ? 3000 : 900000) : 0;
        assert_int_equal(tc_counter_make(&whole, &s.c), TC_OK);
        assert_int_equal(tc_counter_narrow(&whole, &s.c, &narrowed), TC_OK);
        dropped += whole.begin[TC_SLOT_COUNT] - narrowed.begin[TC_SLOT_COUNT];
        bool goes = sample_choose(&s.c, NULL, &s.prices, &without);
        assert_int_equal(sample_choose(&s.c, &narrowed, &s.prices, &with), goes);
        for (int slot = 0; goes && slot < TC_SLOT_COUNT; slot++) {
            assert_ptr_equal(with.slot[slot].offer, without.slot[slot].offer);
            assert_int_equal(with.slot[slot].count, without.slot[slot].count);
            assert_int_equal(with.slot[slot].missing, without.slot[slot].missing);
            assert_true(with.slot[slot].present_value == without.slot[slot].present_value);
            not_first += with.slot[slot].offer && with.slot[slot].offer->price > 0;
        }
        chosen += goes;
        tc_counter_free(&narrowed);
        tc_counter_free(&whole);
    }
    assert_true(chosen > CASES / test_step() / 2 && dropped > chosen && not_first > chosen);
}

/* Heat by a frame made before is the same to the bit. */
static void a_frame_changes_no_year(void **state)
{
    (void)state;
    struct tc_random random = draw_from(99);
    for (int i = 0; i < CASES / 10; i++) {
        struct sample s;
        struct tc_heat_frame frame;
        struct tc_heat_year plain, framed;
        sample_draw(&s, &random);
        struct tc_heat_case heat = tc_equipment_heat(&s.c, &s.equipment), other = heat;
        other.glazing.covered_share = draw_between(&random, 0, 1);
        other.gain_steady = draw_between(&random, 0, 20);
        assert_int_equal(tc_heat_frame_make(&other, &frame), TC_OK);
        assert_int_equal(tc_heat_year(&heat, &plain), TC_OK);
        heat.frame = &frame;
        assert_int_equal(tc_heat_year(&heat, &framed), TC_OK);
        assert_memory_equal(&plain, &framed, sizeof plain);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_choice_is_the_same),
        cmocka_unit_test(a_frame_changes_no_year),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
