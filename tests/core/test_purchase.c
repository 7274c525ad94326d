/* SPDX-License-Identifier: MIT */
/* What a candidate is bought for at several shops: its bill against all ways to spread it. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "core/cost/choose.h"
#include "core/cost/counter_make.h"
#include "core/cost/walkaway.h"
#include "support/market.h"
#include "support/step.h"

enum { CASES = 1000 };

/* What rounding tax and lines once can differ by between two spreads, minor units. */
#define ROUNDING 4

static bool draw(struct sample *s, struct sample_market *m, int most, struct tc_random *random)
{
    sample_draw(s, random);
    market_draw(m, s, most, random);
    return tc_equipment_choose(&s->c, &s->equipment) == TC_OK;
}

static tc_money total(const struct tc_purchase *purchase)
{
    enum tc_status status = TC_OK;
    tc_money sum = tc_money_sum(purchase->buy, TC_BUY_EXTRAS, &status);
    assert_int_equal(status, TC_OK);
    return sum;
}

static int bought(const struct tc_purchase *purchase)
{
    int count = 0;
    for (int i = 0; i < TC_BUY_FEE; i++)
        count += purchase->shop[i] >= 0;
    return count;
}

/* The least of all ways to buy as many of the lines, from one on. */
static void try_all(const struct sample *s, int line, int shop[TC_BUY_FEE], int count, tc_money *least)
{
    struct tc_purchase purchase;
    if (line == TC_BUY_FEE) {
        assert_int_equal(tc_purchase_at(&s->c, &s->equipment, &s->prices, shop, &purchase), TC_OK);
        if (bought(&purchase) == count && total(&purchase) < *least)
            *least = total(&purchase);
        return;
    }
    bool empty = line != TC_BUY_TANK && !s->equipment.slot[line - TC_BUY_SLOTS].offer;
    for (int i = 0; i < (empty ? 1 : s->c.market->count); i++) {
        shop[line] = i;
        try_all(s, line + 1, shop, count, least);
    }
}

static void no_other_spread_costs_less(void **state)
{
    (void)state;
    struct tc_random random = draw_from(4001);
    int spread = 0, tried = 0;
    for (int i = 0; i < CASES / test_step(); i++) {
        struct sample s;
        struct sample_market m;
        struct tc_purchase purchase;
        int shop[TC_BUY_FEE];
        if (!draw(&s, &m, 3, &random))
            continue;
        assert_int_equal(tc_purchase_make(&s.c, &s.equipment, &s.prices, &purchase), TC_OK);
        assert_true(purchase.proven);
        tc_money least = INT64_MAX;
        try_all(&s, 0, shop, bought(&purchase), &least);
        assert_true(total(&purchase) <= least + ROUNDING && total(&purchase) >= least);
        int first = -1;
        bool several = false;
        for (int line = 0; line < TC_BUY_FEE; line++) {
            several = several || (first >= 0 && purchase.shop[line] >= 0 && purchase.shop[line] != first);
            first = first < 0 ? purchase.shop[line] : first;
        }
        spread += several;
        tried++;
    }
    assert_true(tried > CASES / test_step() / 2 && spread > tried / 4);
}

/* What the shops are paid adds up to the lines, and a cost made of them has the same. */
static void receipts_add_up_to_the_bill(void **state)
{
    (void)state;
    struct tc_random random = draw_from(4002);
    for (int i = 0; i < CASES / test_step(); i++) {
        struct sample s;
        struct sample_market m;
        struct tc_purchase purchase;
        enum tc_status status = TC_OK;
        tc_money sum = 0;
        double value;
        if (!draw(&s, &m, 6, &random))
            continue;
        assert_int_equal(tc_purchase_make(&s.c, &s.equipment, &s.prices, &purchase), TC_OK);
        for (int shop = 0; shop < m.market.count; shop++) {
            struct tc_receipt receipt;
            assert_int_equal(tc_purchase_receipt(&s.c, purchase.buy, purchase.shop, shop, &receipt), TC_OK);
            assert_true(receipt.any || tc_receipt_sum(&receipt, &status) == 0);
            sum += tc_receipt_sum(&receipt, &status);
        }
        assert_int_equal(sum, total(&purchase));
        double least = tc_purchase_least(&s.c, &s.equipment, &s.prices);
        assert_true(least <= (double)sum + ROUNDING);
        sample_cost(&s);
        assert_memory_equal(s.cost.shop, purchase.shop, sizeof purchase.shop);
        assert_memory_equal(s.cost.buy, purchase.buy, TC_BUY_EXTRAS * sizeof purchase.buy[0]);
        assert_int_equal(tc_cost_value(&s.c, &s.equipment, &s.prices, &value), TC_OK);
        assert_true(fabs(value - (double)s.cost.present_value) < 100 * TC_RUN_COUNT);
    }
}

/* One shop that sells everything is no other than a region of one shop. */
static void one_shop_is_a_market_of_one(void **state)
{
    (void)state;
    struct tc_random random = draw_from(4003);
    for (int i = 0; i < CASES / 2 / test_step(); i++) {
        struct sample s;
        struct tc_market market = {.count = 1};
        tc_money asked[SAMPLE_PARTS_MAX];
        enum tc_status status = TC_OK;
        sample_draw(&s, &random);
        sample_cost(&s);
        struct tc_cost one = s.cost;
        market.shop[0] =
            (struct tc_shop_terms){tc_currency_money(s.region.currency, s.region.delivery, &status),
                                   tc_currency_money(s.region.currency, s.region.delivery_free_from, &status),
                                   tc_region_added_tax(&s.region), false};
        for (int k = 0; k < s.c.offer_count; k++) {
            asked[k] = s.offers[k].priced ? s.offers[k].price : TC_NOT_SOLD;
            s.offers[k].asked = &asked[k];
            s.offers[k].least = (double)s.offers[k].price * (1 + market.shop[0].tax);
        }
        s.c.market = &market;
        struct tc_deal *deal = &s.prices.deal;
        deal->shops = 1;
        deal->at[0] = (struct tc_deal_at){true, deal->listed, deal->known, deal->each, deal->list, deal->fee};
        sample_cost(&s);
        assert_int_equal(s.cost.incomplete, one.incomplete);
        if (one.incomplete)
            continue; /* what a drawn part without a price has at one shop is no price */
        assert_int_equal(s.cost.to_buy, one.to_buy);
        assert_int_equal(s.cost.present_value, one.present_value);
    }
}

/* What bounds leave out changes no choice. */
static void parts_are_the_same_without_bounds(void **state)
{
    (void)state;
    struct tc_random random = draw_from(4004);
    int chosen = 0;
    for (int i = 0; i < CASES / test_step(); i++) {
        struct sample s;
        struct sample_market m;
        struct tc_counter whole, narrowed;
        struct tc_equipment with = {0}, without = {0};
        draw(&s, &m, 4, &random);
        assert_int_equal(tc_counter_make(&whole, &s.c), TC_OK);
        assert_int_equal(tc_counter_narrow(&whole, &s.c, &narrowed), TC_OK);
        bool goes = sample_choose(&s.c, NULL, &s.prices, &without);
        assert_int_equal(sample_choose(&s.c, &narrowed, &s.prices, &with), goes);
        for (int slot = 0; goes && slot < TC_SLOT_COUNT; slot++) {
            assert_ptr_equal(with.slot[slot].offer, without.slot[slot].offer);
            assert_int_equal(with.slot[slot].count, without.slot[slot].count);
        }
        chosen += goes;
        tc_counter_free(&narrowed);
        tc_counter_free(&whole);
    }
    assert_true(chosen > CASES / test_step() / 2);
}

/* The walk-away price at the deal's shop: found by steps, against trying prices one by one. */
static void no_higher_price_is_worth_it(void **state)
{
    (void)state;
    enum { TRIED = 3000 };
    struct tc_random random = draw_from(4005);
    int priced = 0;
    for (int i = 0; i < 60 / test_step() + 2; i++) {
        struct sample s;
        struct sample_market m;
        struct tc_walkaway found;
        static struct tc_cost cost; /* large */
        draw(&s, &m, 4, &random);
        s.c.quantity = 1;
        sample_cost(&s);
        if (s.prices.deal.quantity != 1 || !s.prices.deal.known)
            continue;
        struct tc_prices prices = s.prices;
        assert_int_equal(tc_deal_at_price(&prices.deal, draw_below(&random, TRIED)), TC_OK);
        assert_int_equal(tc_cost_make(&s.c, &s.equipment, &prices, &cost), TC_OK);
        tc_money target = cost.present_value, highest = -1;
        for (tc_money price = 0; price <= TRIED; price++) {
            prices.deal = s.prices.deal;
            assert_int_equal(tc_deal_at_price(&prices.deal, price), TC_OK);
            assert_int_equal(tc_cost_reprice(&s.c, &s.equipment, &prices, &cost), TC_OK);
            if (cost.present_value <= target)
                highest = price;
        }
        assert_int_equal(tc_walkaway_find(&s.c, &s.equipment, &s.prices, &s.cost, target, &found), TC_OK);
        if (highest == TRIED)
            continue; /* the search went further */
        assert_int_equal(found.kind, TC_WALKAWAY_PRICE);
        assert_true(found.price == highest || found.price > TRIED);
        priced += found.price == highest;
    }
    assert_true(priced > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_other_spread_costs_less),  cmocka_unit_test(receipts_add_up_to_the_bill),
        cmocka_unit_test(one_shop_is_a_market_of_one), cmocka_unit_test(parts_are_the_same_without_bounds),
        cmocka_unit_test(no_higher_price_is_worth_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
