/* SPDX-License-Identifier: MIT */
/* What a room of tanks costs: shared things by hand, and sums of candidates. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "core/cost/shared_cost.h"
#include "support/flow_cost.h"
#include "support/made_wall_study.h"
#include "support/near.h"
#include "support/sample.h"

enum { STAND = TC_BUY_SLOTS + TC_SLOT_STAND, AIR = TC_BUY_SLOTS + TC_SLOT_AIR_PUMP };
enum { LIGHT = TC_BUY_SLOTS + TC_SLOT_LIGHT };

/* A rack for ever, a pump of 20 W for four years, a light of 30 W for six. */
static const struct tc_shared things[] = {
    {.line = STAND, .price = 30000, .life = INFINITY, .resale = 0},
    {.line = AIR,
     .price = 10000,
     .upkeep = 600,
     .life = 4,
     .resale = 0.5,
     .consumer = TC_CONSUMER_AIR_PUMP,
     .power = 20,
     .start = 0,
     .hours = 24},
    {.line = LIGHT,
     .price = 4000,
     .life = 6,
     .resale = 0,
     .consumer = TC_CONSUMER_LIGHT,
     .power = 30,
     .start = 8,
     .hours = 10},
};

/* Ten years at 3 %, 7 % tax at the till, 0.15 a kWh that gets 1 % dearer a year: see sample.h. */
static void sample_of_a_region(struct sample *s)
{
    sample_make(s);
    sample_settle(s);
    sample_cost(s);
}

static void assert_totals_are_sums(const struct tc_cost *cost)
{
    made_assert_sums(cost);
    tc_money energy = 0;
    for (int i = 0; i < TC_CONSUMER_COUNT; i++) {
        tc_money months = 0;
        for (int month = 0; month < TC_MONTHS; month++)
            months += cost->energy[i].month[month];
        assert_int_equal(months, cost->energy[i].year);
        assert_int_equal(cost->run[TC_RUN_ENERGY + i], cost->energy[i].year);
        energy += cost->energy[i].year;
    }
    assert_int_equal(energy, cost->energy_total.year);
}

static void shared_things_by_hand(void **state)
{
    (void)state;
    struct sample s;
    struct tc_cost cost;
    sample_of_a_region(&s);
    assert_int_equal(tc_shared_cost(&s.c, &s.electricity, things, 3, 2500, &cost), TC_OK);
    assert_int_equal(cost.buy[STAND], 30000);
    assert_int_equal(cost.buy[AIR], 10000);
    assert_int_equal(cost.buy[LIGHT], 4000);
    assert_int_equal(cost.buy[TC_BUY_TAX], 3080); /* 7 % of 440.00: none on what it costs to bring */
    assert_int_equal(cost.buy[TC_BUY_DELIVERY], 2500);
    assert_int_equal(cost.to_buy, 49580);
    /* 20 W all year are 175.2 kWh, 30 W for ten hours a day 109.5 kWh; 0.15 each. */
    assert_near(tc_load_year(&cost.running.energy[TC_CONSUMER_AIR_PUMP]), 175.2, 1e-9);
    assert_near(tc_load_year(&cost.running.energy[TC_CONSUMER_LIGHT]), 109.5, 1e-9);
    assert_near(cost.running.energy[TC_CONSUMER_LIGHT].use[0][7], 0, 0);
    assert_near(cost.running.energy[TC_CONSUMER_LIGHT].use[0][8], 0.03 * 31, 1e-12);
    double yearly = (double)cost.energy_total.year;
    assert_near(yearly, 15 * (175.2 + 109.5), 12);
    assert_int_equal(cost.each_year, cost.energy_total.year + 642); /* 6.00, and 7 % tax */
    /* The pump again after 4 and 8 years, the light after 6, each with its tax. */
    double d = 1.03, pump = 10700, light = 4280;
    assert_int_equal(cost.paid[TC_LIFE_REPLACEMENTS], 2 * 10700 + 4280);
    assert_near((double)cost.present[TC_LIFE_REPLACEMENTS],
                pump / pow(d, 4) + pump / pow(d, 8) + light / pow(d, 6), 0.5);
    /* The last pump is sold with half its life left, for half of that share of its price without tax. */
    assert_int_equal(cost.paid[TC_LIFE_RESALE], -2500);
    assert_near((double)cost.present[TC_LIFE_RESALE], -2500 / pow(d, 10), 0.5);
    double energy = 0, energy_present = 0, supplies_present = 0;
    for (int year = 1; year <= 10; year++) {
        energy += yearly * pow(1.01, year);
        energy_present += yearly * pow(1.01 / d, year);
        supplies_present += 642 / pow(d, year);
    }
    assert_near((double)cost.paid[TC_LIFE_ENERGY], energy, 0.5);
    assert_near((double)cost.present[TC_LIFE_ENERGY], energy_present, 0.5);
    assert_int_equal(cost.paid[TC_LIFE_SUPPLIES], 6420);
    assert_near((double)cost.present[TC_LIFE_SUPPLIES], supplies_present, 0.5);
    assert_totals_are_sums(&cost);
    /* Year by year it comes to the same but for the rounding of the lines. */
    struct tc_amount flow = flow_cost(&cost.flow);
    assert_near(flow.paid, (double)cost.as_paid, 3);
    assert_near(flow.present, (double)cost.present_value, 3);
    assert_false(cost.incomplete);
}

static void prices_that_hold_the_tax_get_none(void **state)
{
    (void)state;
    struct sample s;
    struct tc_cost cost;
    sample_of_a_region(&s);
    s.region.tax_included = true;
    assert_int_equal(tc_shared_cost(&s.c, &s.electricity, things, 3, 0, &cost), TC_OK);
    assert_int_equal(cost.buy[TC_BUY_TAX], 0);
    assert_int_equal(cost.to_buy, 44000);
    assert_int_equal(cost.paid[TC_LIFE_REPLACEMENTS], 2 * 10000 + 4000);
    assert_totals_are_sums(&cost);
}

static void nothing_shared_costs_nothing(void **state)
{
    (void)state;
    struct sample s;
    struct tc_cost cost;
    sample_of_a_region(&s);
    assert_int_equal(tc_shared_cost(&s.c, &s.electricity, NULL, 0, 0, &cost), TC_OK);
    assert_int_equal(cost.to_buy, 0);
    assert_int_equal(cost.each_year, 0);
    assert_int_equal(cost.as_paid, 0);
    assert_int_equal(cost.present_value, 0);
}

static void assert_lines_add(const tc_money *sum, const tc_money *a, const tc_money *b, int count)
{
    for (int i = 0; i < count; i++)
        assert_int_equal(sum[i], a[i] + b[i]);
}

static void a_sum_is_the_sum_of_its_lines(void **state)
{
    (void)state;
    struct sample s;
    struct tc_cost shared, sum = {.to_buy = 0};
    sample_of_a_region(&s);
    assert_int_equal(tc_shared_cost(&s.c, &s.electricity, things, 3, 2500, &shared), TC_OK);
    assert_int_equal(tc_cost_add(&sum, &s.cost), TC_OK);
    assert_int_equal(tc_cost_add(&sum, &shared), TC_OK);
    assert_lines_add(sum.buy, s.cost.buy, shared.buy, TC_BUY_COUNT);
    assert_lines_add(sum.run, s.cost.run, shared.run, TC_RUN_COUNT);
    assert_lines_add(sum.paid, s.cost.paid, shared.paid, TC_LIFE_COUNT);
    assert_lines_add(sum.present, s.cost.present, shared.present, TC_LIFE_COUNT);
    assert_totals_are_sums(&sum);
    for (int i = 0; i < TC_CONSUMER_COUNT; i++)
        assert_near(tc_load_year(&sum.running.energy[i]),
                    tc_load_year(&s.cost.running.energy[i]) + tc_load_year(&shared.running.energy[i]), 1e-9);
    assert_near(sum.running.evaporated_total, s.cost.running.evaporated_total, 1e-15);
    assert_near(sum.running.changed_total, s.cost.running.changed_total, 1e-15);
    assert_near(sum.energy_total.exact_year, s.cost.energy_total.exact_year + shared.energy_total.exact_year,
                1e-9);
    for (int year = 0; year <= s.c.years; year++) {
        assert_near(sum.flow.capital[year].paid,
                    s.cost.flow.capital[year].paid + shared.flow.capital[year].paid, 1e-6);
        assert_near(sum.flow.running[year].present,
                    s.cost.flow.running[year].present + shared.flow.running[year].present, 1e-6);
    }
    assert_near(sum.flow.residual.paid, s.cost.flow.residual.paid + shared.flow.residual.paid, 1e-6);
    double yearly = (double)sum.present_value * tc_capital_recovery(s.c.discount, s.c.years);
    assert_near((double)sum.yearly, yearly, 0.5);
}

static void one_cost_alone_is_itself(void **state)
{
    (void)state;
    struct sample s;
    struct tc_cost sum = {.to_buy = 0};
    sample_of_a_region(&s);
    assert_int_equal(tc_cost_add(&sum, &s.cost), TC_OK);
    assert_int_equal(sum.present_value, s.cost.present_value);
    assert_int_equal(sum.yearly, s.cost.yearly);
    assert_memory_equal(&sum.flow, &s.cost.flow, sizeof sum.flow);
}

static void what_lacks_something_stays_so(void **state)
{
    (void)state;
    struct sample s;
    struct tc_cost sum = {.to_buy = 0};
    sample_of_a_region(&s);
    s.cost.incomplete = true;
    assert_int_equal(tc_cost_add(&sum, &s.cost), TC_OK);
    s.cost.incomplete = false;
    assert_int_equal(tc_cost_add(&sum, &s.cost), TC_OK);
    assert_true(sum.incomplete);
}

static void too_much_money_is_an_overflow(void **state)
{
    (void)state;
    struct sample s;
    struct tc_cost cost, sum = {.to_buy = 0};
    sample_of_a_region(&s);
    const struct tc_shared dear[] = {{.line = STAND, .price = TC_MONEY_MAX, .life = INFINITY},
                                     {.line = AIR, .price = TC_MONEY_MAX, .life = INFINITY}};
    assert_int_equal(tc_shared_cost(&s.c, &s.electricity, dear, 2, 0, &cost), TC_OVERFLOW);
    s.cost.buy[TC_BUY_TANK] = TC_MONEY_MAX;
    assert_int_equal(tc_cost_add(&sum, &s.cost), TC_OK);
    assert_int_equal(tc_cost_add(&sum, &s.cost), TC_OVERFLOW);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shared_things_by_hand),         cmocka_unit_test(prices_that_hold_the_tax_get_none),
        cmocka_unit_test(nothing_shared_costs_nothing),  cmocka_unit_test(a_sum_is_the_sum_of_its_lines),
        cmocka_unit_test(one_cost_alone_is_itself),      cmocka_unit_test(what_lacks_something_stays_so),
        cmocka_unit_test(too_much_money_is_an_overflow),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
