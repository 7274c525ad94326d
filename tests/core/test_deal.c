/* SPDX-License-Identifier: MIT */
/* What the tanks of a candidate cost at the till. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#include "core/goods/deal.h"
#include "support/sample.h"

static struct tc_currency dollars(void)
{
    struct tc_currency usd;
    assert_true(tc_currency_find("USD", &usd));
    return usd;
}

static tc_money sum(const struct tc_deal *deal)
{
    enum tc_status status = TC_OK;
    tc_money all = tc_deal_sum(deal, &status);
    assert_int_equal(status, TC_OK);
    return all;
}

static void at_list_price(void **state)
{
    (void)state;
    struct tc_deal deal;
    assert_int_equal(tc_deal_at_list(&deal, 3, true, 5000), TC_OK);
    assert_int_equal(deal.kind, TC_DEAL_LIST);
    assert_true(deal.known && deal.listed);
    assert_int_equal(deal.first, 3);
    assert_int_equal(deal.fee, 0);
    assert_null(deal.sale);
    assert_int_equal(sum(&deal), 15000);
    /* Without one, whatever stands in its place is not looked at. */
    assert_int_equal(tc_deal_at_list(&deal, 3, false, 5000), TC_OK);
    assert_false(deal.known || deal.listed);
    assert_int_equal(sum(&deal), 0);
    assert_int_equal(deal.list, 0);
}

static void on_special_order(void **state)
{
    (void)state;
    struct tc_deal deal;
    assert_int_equal(tc_deal_on_order(&deal, 3, true, 5000, 2500), TC_OK);
    assert_int_equal(deal.kind, TC_DEAL_ORDER);
    assert_int_equal(deal.fee, 7500); /* for each tank */
    assert_int_equal(sum(&deal), 15000);
    assert_int_equal(tc_deal_on_order(&deal, 1, false, 0, 2500), TC_OK);
    assert_false(deal.known);
}

static void a_typed_price_beats_all(void **state)
{
    (void)state;
    struct tc_deal deal;
    assert_int_equal(tc_deal_typed(&deal, 2, true, 5000, 4321), TC_OK);
    assert_int_equal(deal.kind, TC_DEAL_TYPED);
    assert_int_equal(sum(&deal), 8642);
    assert_int_equal(deal.list, 5000); /* of a later replacement */
    assert_int_equal(tc_deal_typed(&deal, 2, false, 0, 4321), TC_OK);
    assert_true(deal.known);
    assert_false(deal.listed);
    assert_int_equal(deal.list, 4321);
}

/* Two at the sale's price, the rest at the list price; all of them where the limit is not reached. */
static void a_limit_splits_the_price(void **state)
{
    (void)state;
    struct tc_tank tank = sample_tank_inches(30, 12, 18, 6);
    struct tc_sale sale = {.rule = TC_SALE_FIXED, .figure = 29, .limit = 2};
    struct tc_deal deal;
    for (int quantity = 1; quantity <= 6; quantity++) {
        int cheap = quantity < 2 ? quantity : 2;
        assert_int_equal(tc_deal_on_sale(&deal, quantity, true, 5000, &sale, &tank, dollars()), TC_OK);
        assert_int_equal(deal.kind, TC_DEAL_SALE);
        assert_int_equal(deal.first, cheap);
        assert_int_equal(sum(&deal), cheap * 2900 + (quantity - cheap) * 5000);
        assert_true(deal.known);
        assert_ptr_equal(deal.sale, &sale);
    }
    sale.limit = 0;
    assert_int_equal(tc_deal_on_sale(&deal, 6, true, 5000, &sale, &tank, dollars()), TC_OK);
    assert_int_equal(sum(&deal), 6 * 2900);
}

static void a_sale_without_a_list_price(void **state)
{
    (void)state;
    struct tc_tank tank = sample_tank_inches(30, 12, 18, 6);
    struct tc_sale sale = {.rule = TC_SALE_FIXED, .figure = 29};
    struct tc_deal deal;
    assert_int_equal(tc_deal_on_sale(&deal, 2, false, 0, &sale, &tank, dollars()), TC_OK);
    assert_true(deal.known);
    assert_int_equal(sum(&deal), 5800);
    assert_int_equal(deal.list, 2900);
    /* The third has no price. */
    sale.limit = 2;
    assert_int_equal(tc_deal_on_sale(&deal, 3, false, 0, &sale, &tank, dollars()), TC_OK);
    assert_false(deal.known);
    /* Nor has a share of nothing. */
    sale = (struct tc_sale){.rule = TC_SALE_PERCENT, .figure = 0.5};
    assert_int_equal(tc_deal_on_sale(&deal, 1, false, 0, &sale, &tank, dollars()), TC_OK);
    assert_false(deal.known);
}

static void too_much_money_is_refused(void **state)
{
    (void)state;
    struct tc_tank tank = sample_tank_inches(30, 12, 18, 6);
    struct tc_sale sale = {.rule = TC_SALE_FIXED, .figure = 9e13, .limit = 1};
    struct tc_deal deal;
    assert_int_equal(tc_deal_at_list(&deal, 1, true, TC_MONEY_MAX), TC_OK);
    assert_int_equal(tc_deal_at_list(&deal, 2, true, TC_MONEY_MAX), TC_OVERFLOW);
    assert_int_equal(tc_deal_on_order(&deal, 1, true, TC_MONEY_MAX - 5, 5), TC_OK);
    assert_int_equal(tc_deal_on_order(&deal, 1, true, TC_MONEY_MAX - 5, 6), TC_OVERFLOW);
    assert_int_equal(tc_deal_on_order(&deal, 2, true, 1, TC_MONEY_MAX), TC_OVERFLOW);
    assert_int_equal(tc_deal_typed(&deal, 3, true, 1, TC_MONEY_MAX / 2), TC_OVERFLOW);
    assert_int_equal(tc_deal_on_sale(&deal, 1, true, 1, &sale, &tank, dollars()), TC_OK);
    assert_int_equal(tc_deal_on_sale(&deal, 2, true, 1, &sale, &tank, dollars()), TC_OVERFLOW);
    sale.figure = 1e15;
    assert_int_equal(tc_deal_on_sale(&deal, 1, true, 1, &sale, &tank, dollars()), TC_OVERFLOW);
    sale.figure = NAN;
    assert_int_equal(tc_deal_on_sale(&deal, 1, true, 1, &sale, &tank, dollars()), TC_RANGE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(at_list_price),
        cmocka_unit_test(on_special_order),
        cmocka_unit_test(a_typed_price_beats_all),
        cmocka_unit_test(a_limit_splits_the_price),
        cmocka_unit_test(a_sale_without_a_list_price),
        cmocka_unit_test(too_much_money_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
