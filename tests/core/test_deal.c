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

/* So many tanks of 29 gallons at 50.00, a fee of 25.00 for each that is ordered. */
static struct tc_deal_terms plain_terms(int quantity)
{
    struct tc_deal_terms terms = {.quantity = quantity,
                                  .nominal_volume = 29 * US_GALLON,
                                  .listed = true,
                                  .list = 5000,
                                  .order_fee = 2500};
    assert_true(tc_currency_find("USD", &terms.currency));
    return terms;
}

static struct tc_deal made(struct tc_deal_terms terms)
{
    struct tc_deal deal;
    assert_int_equal(tc_deal_make(&terms, &deal), TC_OK);
    return deal;
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
    struct tc_deal_terms terms = plain_terms(3);
    struct tc_deal deal = made(terms);
    assert_int_equal(deal.kind, TC_DEAL_LIST);
    assert_true(deal.known && deal.listed);
    assert_int_equal(deal.first, 3);
    assert_int_equal(deal.fee, 0);
    assert_null(deal.sale);
    assert_int_equal(sum(&deal), 15000);
    /* Without one, whatever stands in its place is not looked at. */
    terms.listed = false;
    deal = made(terms);
    assert_false(deal.known || deal.listed);
    assert_int_equal(sum(&deal), 0);
    assert_int_equal(deal.list, 0);
}

static void on_special_order(void **state)
{
    (void)state;
    struct tc_deal_terms terms = plain_terms(3);
    terms.ordered = true;
    struct tc_deal deal = made(terms);
    assert_int_equal(deal.kind, TC_DEAL_ORDER);
    assert_int_equal(deal.fee, 7500); /* for each tank */
    assert_int_equal(sum(&deal), 15000);
    terms.listed = false;
    assert_false(made(terms).known);
}

static void a_typed_price_beats_all(void **state)
{
    (void)state;
    const struct tc_sale sale = {.rule = TC_SALE_FIXED, .figure = 29, .limit = 1};
    struct tc_deal_terms terms = plain_terms(2);
    terms.typed = true;
    terms.price = 4321;
    terms.sale = &sale;
    struct tc_deal deal = made(terms);
    assert_int_equal(deal.kind, TC_DEAL_TYPED);
    assert_int_equal(sum(&deal), 8642);
    assert_int_equal(deal.list, 5000); /* of a later replacement */
    assert_null(deal.sale);
    assert_int_equal(deal.fee, 0);
    terms.listed = false;
    deal = made(terms);
    assert_true(deal.known);
    assert_false(deal.listed);
    assert_int_equal(deal.list, 4321);
}

/* Two at the sale's price, the rest at the list price; all of them where the limit is not reached. */
static void a_limit_splits_the_price(void **state)
{
    (void)state;
    struct tc_sale sale = {.rule = TC_SALE_FIXED, .figure = 29, .limit = 2};
    for (int quantity = 1; quantity <= 6; quantity++) {
        int cheap = quantity < 2 ? quantity : 2;
        struct tc_deal_terms terms = plain_terms(quantity);
        terms.sale = &sale;
        struct tc_deal deal = made(terms);
        assert_int_equal(deal.kind, TC_DEAL_SALE);
        assert_int_equal(deal.first, cheap);
        assert_int_equal(sum(&deal), cheap * 2900 + (quantity - cheap) * 5000);
        assert_true(deal.known);
        assert_ptr_equal(deal.sale, &sale);
    }
    sale.limit = 0;
    struct tc_deal_terms terms = plain_terms(6);
    terms.sale = &sale;
    struct tc_deal deal = made(terms);
    assert_int_equal(sum(&deal), 6 * 2900);
}

/* Of tanks that are not on the shelf, those in the sale are; the others, and all at an agreed price, are
 * ordered. */
static void a_fee_for_each_tank_outside_the_sale(void **state)
{
    (void)state;
    const struct tc_sale sale = {.rule = TC_SALE_PER_VOLUME, .figure = 1 / US_GALLON, .limit = 2};
    for (int quantity = 1; quantity <= 5; quantity++) {
        struct tc_deal_terms terms = plain_terms(quantity);
        terms.ordered = true;
        assert_int_equal(made(terms).fee, quantity * 2500);
        terms.sale = &sale;
        assert_int_equal(made(terms).fee, (quantity > 2 ? quantity - 2 : 0) * 2500);
        terms.typed = true;
        terms.price = 10000;
        assert_int_equal(made(terms).fee, quantity * 2500);
        terms.ordered = false;
        assert_int_equal(made(terms).fee, 0);
    }
}

static void another_price_keeps_the_fee(void **state)
{
    (void)state;
    const struct tc_sale sale = {.rule = TC_SALE_FIXED, .figure = 29, .limit = 2};
    struct tc_deal_terms terms = plain_terms(3);
    terms.ordered = true;
    terms.sale = &sale;
    struct tc_deal deal = made(terms);
    assert_int_equal(tc_deal_at_price(&deal, 1234), TC_OK);
    assert_int_equal(deal.kind, TC_DEAL_TYPED);
    assert_int_equal(deal.fee, 2500);
    assert_int_equal(sum(&deal), 3 * 1234);
    assert_int_equal(deal.list, 5000);
    deal.listed = false;
    assert_int_equal(tc_deal_at_price(&deal, 1235), TC_OK);
    assert_int_equal(deal.list, 5000); /* what a new one was said to cost */
    deal.known = false;
    assert_int_equal(tc_deal_at_price(&deal, 1236), TC_OK);
    assert_int_equal(deal.list, 1236); /* all there is to go by */
    assert_int_equal(tc_deal_at_price(&deal, TC_MONEY_MAX), TC_OVERFLOW);
}

static void a_sale_without_a_list_price(void **state)
{
    (void)state;
    struct tc_sale sale = {.rule = TC_SALE_FIXED, .figure = 29};
    struct tc_deal_terms terms = plain_terms(2);
    terms.listed = false;
    terms.sale = &sale;
    struct tc_deal deal = made(terms);
    assert_true(deal.known);
    assert_int_equal(sum(&deal), 5800);
    assert_int_equal(deal.list, 2900);
    /* The third has no price. */
    sale.limit = 2;
    terms.quantity = 3;
    assert_false(made(terms).known);
    /* Nor has a share of nothing. */
    sale = (struct tc_sale){.rule = TC_SALE_PERCENT, .figure = 0.5};
    terms.quantity = 1;
    assert_false(made(terms).known);
}

static void too_much_money_is_refused(void **state)
{
    (void)state;
    struct tc_sale sale = {.rule = TC_SALE_FIXED, .figure = 9e13, .limit = 1};
    struct tc_deal deal;
    struct tc_deal_terms terms = plain_terms(1);
    terms.list = TC_MONEY_MAX;
    assert_int_equal(tc_deal_make(&terms, &deal), TC_OK);
    terms.quantity = 2;
    assert_int_equal(tc_deal_make(&terms, &deal), TC_OVERFLOW);
    terms = plain_terms(1);
    terms.ordered = true;
    terms.list = TC_MONEY_MAX - 5;
    terms.order_fee = 5;
    assert_int_equal(tc_deal_make(&terms, &deal), TC_OK);
    terms.order_fee = 6;
    assert_int_equal(tc_deal_make(&terms, &deal), TC_OVERFLOW);
    terms.quantity = 2;
    terms.list = 1;
    terms.order_fee = TC_MONEY_MAX;
    assert_int_equal(tc_deal_make(&terms, &deal), TC_OVERFLOW);
    terms = plain_terms(3);
    terms.typed = true;
    terms.price = TC_MONEY_MAX / 2;
    assert_int_equal(tc_deal_make(&terms, &deal), TC_OVERFLOW);
    terms = plain_terms(1);
    terms.list = 1;
    terms.sale = &sale;
    assert_int_equal(tc_deal_make(&terms, &deal), TC_OK);
    terms.quantity = 2;
    assert_int_equal(tc_deal_make(&terms, &deal), TC_OVERFLOW);
    terms.quantity = 1;
    sale.figure = 1e15;
    assert_int_equal(tc_deal_make(&terms, &deal), TC_OVERFLOW);
    sale.figure = NAN;
    assert_int_equal(tc_deal_make(&terms, &deal), TC_RANGE);
}

/* Of a market that sells them at 50.00, at 45.00 and not at all, kept to each: no other than that shop alone.
 */
static void kept_to_one_shop(void **state)
{
    (void)state;
    struct tc_deal_terms terms = plain_terms(2);
    terms.shops = 3;
    terms.shop[0] = (struct tc_deal_shop){true, false, true, 5000, 0};
    terms.shop[1] = (struct tc_deal_shop){true, false, true, 4500, 0};
    terms.shop[2] = (struct tc_deal_shop){true, false, false, 0, 0};
    for (int shop = 0; shop < 3; shop++) {
        struct tc_deal_terms alone = terms;
        for (int s = 0; s < 3; s++)
            alone.shop[s].open = s == shop;
        struct tc_deal kept = made(terms), one = made(alone);
        assert_int_equal(kept.shop, 1); /* the cheapest in front */
        tc_deal_keep_to(&kept, shop);
        assert_int_equal(kept.known, one.known);
        assert_int_equal(kept.listed, one.listed);
        assert_int_equal(kept.shop, one.shop);
        assert_int_equal(sum(&kept), sum(&one));
        assert_int_equal(kept.later, shop == 0 ? 5000 : shop == 1 ? 4500 : 0);
        for (int s = 0; s < 3; s++) {
            assert_int_equal(kept.at[s].open, s == shop);
            assert_int_equal(kept.at[s].sold, s == shop && s < 2);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(at_list_price),
        cmocka_unit_test(on_special_order),
        cmocka_unit_test(a_typed_price_beats_all),
        cmocka_unit_test(a_limit_splits_the_price),
        cmocka_unit_test(a_fee_for_each_tank_outside_the_sale),
        cmocka_unit_test(another_price_keeps_the_fee),
        cmocka_unit_test(a_sale_without_a_list_price),
        cmocka_unit_test(too_much_money_is_refused),
        cmocka_unit_test(kept_to_one_shop),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
