/* SPDX-License-Identifier: MIT */
/* The walk-away price, proved to the minor unit: at it no dearer than the target, a unit more and dearer. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/cost/walkaway.h"
#include "support/near.h"
#include "support/sample.h"
#include "support/step.h"

enum { TRIED = 1200 };

/* The present value with all tanks at a price, all made anew. */
static tc_money value_at(const struct sample *s, tc_money price)
{
    struct tc_prices prices = s->prices;
    static struct tc_cost cost; /* large */
    struct tc_deal_terms terms = sample_terms(s);
    terms.listed = s->prices.deal.listed;
    terms.list = s->prices.deal.later;
    terms.typed = true;
    terms.price = price;
    assert_int_equal(tc_deal_make(&terms, &prices.deal), TC_OK);
    prices.deal.fee = s->prices.deal.fee;
    if (s->prices.deal.known)
        prices.deal.later = s->prices.deal.later;
    assert_int_equal(tc_cost_make(&s->c, &s->equipment, &prices, &cost), TC_OK);
    return cost.present_value;
}

static struct tc_walkaway find(const struct sample *s, tc_money target)
{
    struct tc_walkaway found;
    assert_int_equal(tc_walkaway_find(&s->c, &s->equipment, &s->prices, &s->cost, target, &found), TC_OK);
    return found;
}

static void assert_exact(const struct sample *s, tc_money target, const struct tc_walkaway *found)
{
    assert_int_equal(found->kind, TC_WALKAWAY_PRICE);
    assert_in_range(found->price, 0, TC_WALKAWAY_MOST - 1);
    assert_true(value_at(s, found->price) <= target);
    assert_true(value_at(s, found->price + 1) > target);
}

/* Any candidate, any rival: quantities, taxes, fees, free delivery, currencies of 0, 2 and 3 decimals. */
static void exact_to_the_minor_unit(void **state)
{
    (void)state;
    struct tc_random random = draw_from(90);
    int prices = 0, nones = 0, step = test_step();
    for (int i = 0; i < 1500 / step; i++) {
        struct sample s;
        sample_draw(&s, &random);
        sample_cost(&s);
        tc_money price = draw_below(&random, 10) ? draw_below(&random, 100000) : 0;
        tc_money target = value_at(&s, price) + draw_below(&random, 2001) - 1000;
        struct tc_walkaway found = find(&s, target);
        if (found.kind == TC_WALKAWAY_PRICE) {
            assert_exact(&s, target, &found);
            prices++;
        } else if (found.kind == TC_WALKAWAY_NONE) {
            assert_true(value_at(&s, 0) > target);
            nones++;
        } else {
            assert_true(value_at(&s, TC_WALKAWAY_MOST) <= target);
        }
    }
    assert_true(step > 1 || (prices > 1200 && nones > 20));
}

/* Every price tried one by one: none above the one found is worth it, wherever delivery becomes free. */
static void no_higher_price_is_worth_it(void **state)
{
    (void)state;
    struct tc_random random = draw_from(91);
    int beyond_step = 0, below_step = 0, between = 0;
    for (int i = 0; i < 40; i += test_step()) {
        struct sample s;
        sample_draw(&s, &random);
        assert_true(tc_currency_find("JPY", &s.region.currency));
        s.region.delivery = 10 + draw_below(&random, 300);
        tc_money parts = 0;
        sample_cost(&s);
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++)
            parts += s.cost.buy[TC_BUY_SLOTS + slot];
        int step = 200 + draw_below(&random, 300);
        /* Reached at a price of `step` for each, and exactly so or with a little over. */
        s.region.delivery_free_from =
            (double)(parts + step * s.c.quantity - draw_below(&random, s.c.quantity));
        sample_cost(&s);
        tc_money target = value_at(&s, step + draw_below(&random, 400) - 200);
        tc_money highest = -1, lowest_not = -1;
        for (tc_money price = 0; price <= TRIED; price++) {
            if (value_at(&s, price) <= target)
                highest = price;
            else if (lowest_not < 0)
                lowest_not = price;
        }
        struct tc_walkaway found = find(&s, target);
        if (highest == TRIED)
            continue; /* the search went further than the trial */
        assert_int_equal(found.kind, TC_WALKAWAY_PRICE);
        assert_int_equal(found.price, highest);
        beyond_step += highest >= step;
        below_step += highest < step;
        between += highest > lowest_not;
    }
    assert_true(test_step() > 1 || (beyond_step > 5 && below_step > 5 && between > 2));
}

/* What is left between the target and the value at the price found is less than a unit of it costs. */
static void values_meet_at_the_price(void **state)
{
    (void)state;
    struct tc_random random = draw_from(92);
    for (int i = 0; i < 400; i += test_step()) {
        struct sample s;
        sample_draw(&s, &random);
        s.region.delivery_free_from = 0;
        s.c.quantity = 1;
        s.c.tank.goods.resale = 0;
        s.c.tank.goods.life = INFINITY;
        s.prices.tank_life = s.prices.tank_resale = NAN;
        s.region.tax_included = true;
        sample_settle(&s);
        s.prices.deal.list = 1;
        sample_cost(&s);
        tc_money price = 1 + draw_below(&random, 100000);
        tc_money target = value_at(&s, price);
        struct tc_walkaway found = find(&s, target);
        assert_int_equal(found.price, price);
        assert_int_equal(value_at(&s, found.price), target);
    }
}

static void no_price_is_low_enough(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    sample_cost(&s);
    tc_money gift = value_at(&s, 0);
    assert_int_equal(find(&s, gift - 1).kind, TC_WALKAWAY_NONE);
    struct tc_walkaway found = find(&s, gift);
    assert_int_equal(found.kind, TC_WALKAWAY_PRICE);
    assert_int_equal(found.price, 0);
    assert_int_equal(find(&s, -TC_MONEY_MAX).kind, TC_WALKAWAY_NONE);
}

/* Where no price is known at all and all that is paid comes back, any price will do, or none. */
static void any_price_is_worth_it(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    s.region.sales_tax = 0;
    s.region.delivery = 0;
    s.c.discount = 0;
    s.c.tank.goods.life = INFINITY;
    s.c.tank.goods.resale = 1;
    s.listed = false;
    sample_settle(&s);
    sample_cost(&s);
    tc_money value = value_at(&s, 0);
    assert_int_equal(value_at(&s, 123456789), value);
    assert_int_equal(find(&s, value).kind, TC_WALKAWAY_ANY);
    assert_int_equal(find(&s, value - 1).kind, TC_WALKAWAY_NONE);
    /* Free delivery decides: worth it only from there on. */
    s.region.delivery = 35;
    sample_cost(&s);
    assert_int_equal(find(&s, value).kind, TC_WALKAWAY_ANY);
    assert_int_equal(find(&s, value - 1).kind, TC_WALKAWAY_NONE);
}

/* Beyond the prices that are looked at, free delivery is none. */
static void free_delivery_out_of_reach(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    s.region.delivery_free_from = 2e9 + 500; /* 2e11 minor units */
    sample_settle(&s);
    sample_cost(&s);
    tc_money target = value_at(&s, 4321);
    struct tc_walkaway found = find(&s, target);
    assert_exact(&s, target, &found);
    assert_in_range(found.price, 4321, 4323);
}

/* A tank that is not listed costs at each replacement what it cost; replacements had been for nothing. */
static void a_tank_without_a_list_price(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    s.c.tank.goods.life = 4; /* replaced twice in ten years */
    s.listed = false;
    sample_settle(&s);
    sample_cost(&s);
    assert_true(s.cost.incomplete);
    tc_money target = value_at(&s, 6000);
    struct tc_walkaway found = find(&s, target);
    assert_exact(&s, target, &found);
    assert_in_range(found.price, 6000, 6001);
    /* With a list price, what comes later does not follow today's. */
    s.listed = true;
    s.list = 6000;
    sample_settle(&s);
    sample_cost(&s);
    assert_true(value_at(&s, 9000) - value_at(&s, 6000) < 3211);
}

/* Without its fee, a special order had seemed worth as much more. */
static void the_fee_stays_due(void **state)
{
    (void)state;
    struct sample s;
    sample_make(&s);
    sample_settle(&s);
    struct tc_deal_terms order = sample_terms(&s);
    order.ordered = true;
    order.order_fee = 2500;
    sample_deal(&s, order);
    sample_cost(&s);
    struct tc_walkaway found = find(&s, s.cost.present_value);
    assert_exact(&s, s.cost.present_value, &found);
    assert_in_range(found.price, 5000, 5001);
    tc_money target = s.cost.present_value;
    sample_deal(&s, sample_terms(&s));
    sample_cost(&s);
    assert_true(find(&s, target).price > 7000);
}

static void too_much_money_is_refused(void **state)
{
    (void)state;
    struct sample s;
    struct tc_walkaway found;
    sample_make(&s);
    sample_settle(&s);
    sample_cost(&s);
    sample_offer(&s, "stand-plain")->price = TC_MONEY_MAX / 2;
    assert_int_equal(tc_walkaway_find(&s.c, &s.equipment, &s.prices, &s.cost, TC_MONEY_MAX, &found), TC_OK);
    sample_offer(&s, "stand-plain")->price = TC_MONEY_MAX - TC_WALKAWAY_MOST;
    assert_int_equal(tc_walkaway_find(&s.c, &s.equipment, &s.prices, &s.cost, TC_MONEY_MAX, &found),
                     TC_OVERFLOW);
    s.c.quantity = 1000000;
    sample_settle(&s);
    assert_int_equal(tc_walkaway_find(&s.c, &s.equipment, &s.prices, &s.cost, TC_MONEY_MAX, &found),
                     TC_OVERFLOW);
    sample_make(&s);
    sample_settle(&s);
    sample_cost(&s);
    s.region.delivery_free_from = NAN;
    assert_int_equal(tc_walkaway_find(&s.c, &s.equipment, &s.prices, &s.cost, 0, &found), TC_RANGE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(exact_to_the_minor_unit),     cmocka_unit_test(no_higher_price_is_worth_it),
        cmocka_unit_test(values_meet_at_the_price),    cmocka_unit_test(no_price_is_low_enough),
        cmocka_unit_test(any_price_is_worth_it),       cmocka_unit_test(free_delivery_out_of_reach),
        cmocka_unit_test(a_tank_without_a_list_price), cmocka_unit_test(the_fee_stays_due),
        cmocka_unit_test(too_much_money_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
