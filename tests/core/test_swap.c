/* SPDX-License-Identifier: MIT */
/* The last look at the parts chosen, by the whole bill. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/cost/choose.h"
#include "core/cost/swap.h"
#include "support/near.h"
#include "support/sample.h"

enum { CASES = 300 };

static double value_of(const struct sample *s)
{
    double value = NAN;
    assert_int_equal(tc_cost_value(&s->c, &s->equipment, &s->prices, &value), TC_OK);
    return value;
}

/* 12.00 more for substrate bring the goods to where delivery, 35.00, is free. */
static void a_dearer_part_may_make_delivery_free(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_add(&s, TC_SLOT_SUBSTRATE, "fine", 1800, INFINITY)->as.substrate =
        (struct tc_substrate){0.008, 1600, 0.4};
    sample_settle(&s);
    assert_string_equal(sample_part(&s, TC_SLOT_SUBSTRATE), "gravel");
    s.region.delivery_free_from = 284.01; /* a cent beyond what the goods cost */
    double before = value_of(&s);
    assert_int_equal(tc_swap_parts(&s.c, &s.prices, &s.equipment), TC_OK);
    assert_true(value_of(&s) < before - 1500);
    sample_cost(&s);
    assert_int_equal(s.cost.buy[TC_BUY_DELIVERY], 0);
    for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
        assert_false(s.equipment.slot[slot].pinned);
}

/* No other part in place of one lowers the bill, all else as it is; and what the plan pins stays. */
static void no_swap_lowers_the_bill(void **state)
{
    (void)state;
    struct tc_random random = draw_from(611);
    int tried = 0, improved = 0;
    for (int i = 0; i < CASES; i++) {
        struct sample s;
        sample_draw(&s, &random);
        struct tc_equipment first = s.equipment;
        double before = value_of(&s);
        assert_int_equal(tc_swap_parts(&s.c, &s.prices, &s.equipment), TC_OK);
        double least = value_of(&s);
        assert_true(least <= before + 1e-6);
        improved += least < before - 1;
        struct tc_equipment best = s.equipment;
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
            if (s.c.wish[slot].part)
                assert_ptr_equal(best.slot[slot].offer, first.slot[slot].offer);
        struct tc_case plan = s.c;
        for (int k = 0; k < s.c.offer_count; k++) {
            enum tc_slot slot = s.parts[k].slot;
            if (!s.offers[k].priced || !best.slot[slot].offer || plan.wish[slot].part ||
                s.prices.included[slot] > 0)
                continue;
            for (int other = 0; other < TC_SLOT_COUNT; other++)
                if (best.slot[other].offer)
                    s.c.wish[other].part = best.slot[other].offer->part->goods.name;
            s.c.wish[slot].part = s.parts[k].goods.name;
            bool fits = tc_equipment_choose(&s.c, &s.equipment) == TC_OK;
            for (int other = 0; fits && other < TC_SLOT_COUNT; other++)
                fits = !s.equipment.slot[other].ill_fitting || best.slot[other].ill_fitting;
            if (fits) {
                double own = best.slot[slot].present_value * (best.slot[slot].shared ? 1 : s.c.quantity);
                double more =
                    s.equipment.slot[slot].count > best.slot[slot].count ? TC_FIT_FEWER * fabs(own) : 0;
                assert_true(value_of(&s) >= least - 1.001 - more);
                tried++;
            }
            s.c = plan;
        }
    }
    assert_true(tried > CASES && improved > 5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_dearer_part_may_make_delivery_free),
        cmocka_unit_test(no_swap_lowers_the_bill),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
