/* SPDX-License-Identifier: MIT */
/* Whether a tank suits: each need by itself, at its edge, and the water of the hottest hour. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "core/cost/suit.h"
#include "support/near.h"

static const struct tc_tank_size size = {
    .swim_length = 0.75, .bottom_area = 0.22, .inner_height = 0.45, .reach = 0.40};

static struct tc_suit judged(struct tc_setup setup, double hottest)
{
    struct tc_heat_year heat = {.hottest = hottest};
    for (int month = 0; month < 12; month++)
        heat.water_highest[month] = month == 6 || month == 7 ? hottest : 297;
    struct tc_suit suit;
    tc_suit_judge(&setup, &size, &heat, &suit);
    return suit;
}

static void what_asks_nothing_is_suited(void **state)
{
    (void)state;
    struct tc_suit suit = judged((struct tc_setup){.warm_limit = 303}, 300);
    assert_true(suit.suits);
    assert_int_equal(suit.lack_count, 0);
    assert_null(tc_suit_lacks(&suit, TC_NEED_COOL));
}

static void each_need_is_asked_at_its_edge(void **state)
{
    (void)state;
    for (int need = TC_NEED_LENGTH; need <= TC_NEED_REACH; need++)
        for (int beyond = 0; beyond < 2; beyond++) {
            /* As much as there is, but for a quarter of a millimetre; then a millimetre more is asked. */
            double more = beyond ? 0.001 : 0.00025, area = beyond ? 0.0001 : 0.00003;
            struct tc_setup setup = {.warm_limit = 303};
            switch ((enum tc_need)need) {
            case TC_NEED_LENGTH: setup.least_length = 0.75 + more; break;
            case TC_NEED_BOTTOM: setup.least_bottom = 0.22 + area; break;
            case TC_NEED_HEIGHT: setup.least_height = 0.45 + more; break;
            case TC_NEED_LOW: setup.greatest_height = 0.45 - more; break;
            case TC_NEED_REACH: setup.greatest_reach = 0.40 - more; break;
            default: fail();
            }
            struct tc_suit suit = judged(setup, 300);
            assert_int_equal(suit.suits, !beyond);
            assert_int_equal(suit.lack_count, beyond);
            assert_int_equal(tc_suit_lacks(&suit, (enum tc_need)need) != NULL, beyond);
        }
}

static void water_too_warm_does_not_suit_unless_its_keeper_cools(void **state)
{
    (void)state;
    struct tc_setup setup = {.warm_limit = 301.15};
    assert_true(judged(setup, 301.15).suits);
    struct tc_suit suit = judged(setup, 303.65);
    assert_false(suit.suits);
    const struct tc_lack *lack = tc_suit_lacks(&suit, TC_NEED_COOL);
    assert_non_null(lack);
    assert_near(lack->have - lack->wanted, 2.5, 1e-9);
    assert_int_equal(lack->months, 1U << 6 | 1U << 7);
    assert_true(lack->at_most);
    setup.keeper_cools = true;
    suit = judged(setup, 303.65);
    assert_true(suit.suits);
    assert_true(tc_suit_lacks(&suit, TC_NEED_COOL)->accepted);
    /* That helps nothing against a tank that is too short. */
    setup.least_length = 1;
    assert_false(judged(setup, 303.65).suits);
}

/* Whole ones count, by what the keeper says that each takes; what each takes is at its edge met. */
static void territories_and_animals_are_counted(void **state)
{
    (void)state;
    struct tc_tank_size tank = size;
    tank.water_volume = 0.060;
    struct tc_setup setup = {.territory = 0.055, .territory_count = 4, .warm_limit = 303};
    struct tc_suit suit;
    assert_int_equal(tc_suit_territories(&setup, &tank), 4); /* 0.22 m2 */
    assert_int_equal(tc_suit_animals(&setup, &tank), 0);
    tc_suit_judge(&setup, &tank, NULL, &suit);
    assert_true(suit.suits);
    setup.territory = 0.056;
    tc_suit_judge(&setup, &tank, NULL, &suit);
    assert_false(suit.suits);
    assert_near(tc_suit_lacks(&suit, TC_NEED_TERRITORIES)->have, 3, 0);
    assert_near(tc_suit_lacks(&suit, TC_NEED_TERRITORIES)->wanted, 4, 0);
    setup = (struct tc_setup){.water_each = 0.005, .animal_count = 12, .shoal_length = 0.7503};
    tc_suit_judge(&setup, &tank, NULL, &suit);
    assert_int_equal(tc_suit_animals(&setup, &tank), 12);
    assert_true(suit.suits);
    setup.animal_count = 13;
    setup.shoal_length = 0.76;
    tc_suit_judge(&setup, &tank, NULL, &suit);
    assert_int_equal(suit.lack_count, 2);
    assert_non_null(tc_suit_lacks(&suit, TC_NEED_ANIMALS));
    assert_non_null(tc_suit_lacks(&suit, TC_NEED_SHOAL));
    setup.water_each = 1e-9; /* so many fit that nobody counts them */
    assert_int_equal(tc_suit_animals(&setup, &tank), 1000000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_asks_nothing_is_suited),
        cmocka_unit_test(each_need_is_asked_at_its_edge),
        cmocka_unit_test(territories_and_animals_are_counted),
        cmocka_unit_test(water_too_warm_does_not_suit_unless_its_keeper_cools),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
