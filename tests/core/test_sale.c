/* SPDX-License-Identifier: MIT */
/* What a sale covers, when it runs, and what it asks for a tank. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>

#include "core/goods/sale.h"
#include "support/sample.h"

static struct tc_tank tank_called(const char *name, double gallons)
{
    struct tc_tank tank = {.nominal_volume = gallons * US_GALLON};
    snprintf(tank.goods.name, sizeof tank.goods.name, "%s", name);
    return tank;
}

static void name_tanks(struct tc_sale *sale, const char *first, const char *second)
{
    snprintf(sale->tanks[0], sizeof sale->tanks[0], "%s", first);
    snprintf(sale->tanks[1], sizeof sale->tanks[1], "%s", second);
    sale->tank_count = 2;
}

static bool covers(const struct tc_sale *sale, const char *name, double gallons)
{
    struct tc_tank tank = tank_called(name, gallons);
    return tc_sale_covers(sale, &tank);
}

static void a_sale_of_named_tanks_covers_no_other(void **state)
{
    (void)state;
    struct tc_sale sale = {.rule = TC_SALE_FIXED};
    name_tanks(&sale, "29-high", "40-breeder");
    assert_true(covers(&sale, "29-high", 29));
    assert_true(covers(&sale, "40-breeder", 40));
    assert_false(covers(&sale, "20-high", 20));
    assert_false(covers(&sale, "29-hig", 29));
    /* Names go before sizes. */
    sale.greatest_volume = 30 * US_GALLON;
    assert_true(covers(&sale, "40-breeder", 40));
    assert_false(covers(&sale, "20-high", 20));
}

static void a_sale_of_sizes_covers_its_bounds(void **state)
{
    (void)state;
    struct tc_sale sale = {.least_volume = 20 * US_GALLON, .greatest_volume = 40 * US_GALLON};
    assert_true(covers(&sale, "a", 20));
    assert_true(covers(&sale, "a", 40));
    assert_false(covers(&sale, "a", 19.99));
    assert_false(covers(&sale, "a", 40.01));
    /* 20 gallons typed as litres, to the millilitre */
    struct tc_tank tank = {.nominal_volume = 0.075708};
    assert_true(tc_sale_covers(&sale, &tank));
    sale.least_volume = 0;
    assert_true(covers(&sale, "a", 1));
    sale.greatest_volume = 0;
    assert_true(covers(&sale, "a", 1000));
    sale.least_volume = 20 * US_GALLON;
    assert_false(covers(&sale, "a", 10));
    assert_true(covers(&sale, "a", 1000));
}

static void a_sale_runs_on_its_days(void **state)
{
    (void)state;
    struct tc_sale sale = {.dated = false};
    assert_true(tc_sale_runs(&sale, (struct tc_date){2026, 1, 1}));
    sale.dated = true;
    sale.when = (struct tc_repeat){.first = {2026, 3, 1},
                                   .last = {2026, 3, 21},
                                   .unit = TC_REPEAT_YEARS,
                                   .every = 1,
                                   .ends = true,
                                   .until = {2027, 12, 31}};
    assert_false(tc_sale_runs(&sale, (struct tc_date){2026, 2, 28}));
    assert_true(tc_sale_runs(&sale, (struct tc_date){2026, 3, 1}));
    assert_true(tc_sale_runs(&sale, (struct tc_date){2026, 3, 21}));
    assert_false(tc_sale_runs(&sale, (struct tc_date){2026, 3, 22}));
    assert_true(tc_sale_runs(&sale, (struct tc_date){2027, 3, 10}));
    assert_false(tc_sale_runs(&sale, (struct tc_date){2028, 3, 10}));
}

/* Common practice, no source: at half price a tank listed at 90 costs 45; at one a gallon one of 40 costs 40.
 */
static void prices_of_the_trade(void **state)
{
    (void)state;
    struct tc_currency usd;
    enum tc_status status = TC_OK;
    assert_true(tc_currency_find("USD", &usd));
    struct tc_tank tank = tank_called("40-breeder", 40);
    struct tc_sale half = {.rule = TC_SALE_PERCENT, .figure = 0.5};
    assert_int_equal(tc_sale_price(&half, tank.nominal_volume, 9000, usd, &status), 4500);
    struct tc_sale by_gallon = {.rule = TC_SALE_PER_VOLUME, .figure = 1 / US_GALLON};
    assert_int_equal(tc_sale_price(&by_gallon, tank.nominal_volume, 9000, usd, &status), 4000);
    for (int gallons = 1; gallons <= 300; gallons++) {
        tank = tank_called("a", gallons);
        assert_int_equal(tc_sale_price(&by_gallon, tank.nominal_volume, 0, usd, &status), 100 * gallons);
    }
    assert_int_equal(status, TC_OK);
}

static void each_rule_has_its_price(void **state)
{
    (void)state;
    struct tc_currency usd, jpy, kwd;
    enum tc_status status = TC_OK;
    assert_true(tc_currency_find("USD", &usd));
    assert_true(tc_currency_find("JPY", &jpy));
    assert_true(tc_currency_find("KWD", &kwd));
    struct tc_tank tank = tank_called("a", 20);
    struct tc_sale sale = {.rule = TC_SALE_PERCENT, .figure = 0.15};
    assert_int_equal(tc_sale_price(&sale, tank.nominal_volume, 4990, usd, &status),
                     4242); /* 4241.5: half away from zero */
    sale.figure = 1;
    assert_int_equal(tc_sale_price(&sale, tank.nominal_volume, 4990, usd, &status), 0);
    sale.figure = 0;
    assert_int_equal(tc_sale_price(&sale, tank.nominal_volume, 4990, usd, &status), 4990);
    sale = (struct tc_sale){.rule = TC_SALE_FIXED, .figure = 59.5};
    assert_int_equal(tc_sale_price(&sale, tank.nominal_volume, 1, usd, &status), 5950);
    assert_int_equal(tc_sale_price(&sale, tank.nominal_volume, 1, jpy, &status), 60);
    assert_int_equal(tc_sale_price(&sale, tank.nominal_volume, 1, kwd, &status), 59500);
    sale.rule = TC_SALE_BUNDLE;
    assert_int_equal(tc_sale_price(&sale, tank.nominal_volume, 1, usd, &status), 5950);
    assert_int_equal(status, TC_OK);
    sale.figure = 1e14;
    assert_int_equal(tc_sale_price(&sale, tank.nominal_volume, 1, usd, &status), 0);
    assert_int_equal(status, TC_OVERFLOW);
    status = TC_OK;
    sale.rule = (enum tc_sale_rule)9;
    assert_int_equal(tc_sale_price(&sale, tank.nominal_volume, 1, usd, &status), 0);
    assert_int_equal(status, TC_RANGE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sale_of_named_tanks_covers_no_other),
        cmocka_unit_test(a_sale_of_sizes_covers_its_bounds),
        cmocka_unit_test(a_sale_runs_on_its_days),
        cmocka_unit_test(prices_of_the_trade),
        cmocka_unit_test(each_rule_has_its_price),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
