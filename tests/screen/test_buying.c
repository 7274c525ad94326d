/* SPDX-License-Identifier: MIT */
/* At which shops the tanks of the demonstration are bought, as the keys and lists of the screen say it. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

#include "support/screen_case.h"

static struct screen_case c;

static int start(void **state)
{
    (void)state;
    screen_case_start_on(&c, "profiles", "start", 80, 24);
    return 0;
}

static int end(void **state)
{
    (void)state;
    screen_case_free(&c);
    return 0;
}

static const struct tc_plan *plan(void)
{
    return &c.state.now.plan;
}

/* The rows of the list of ways to buy: what each shop asks, and what takes several. */
static void test_shops_in_the_list(void **state)
{
    (void)state;
    screen_type(&c, "bat ");
    assert_true(screen_shows(&c, "all at the first shop"));
    assert_true(screen_shows(&c, "all at one shop"));
    assert_true(screen_shows(&c, "at several shops"));
    assert_true(screen_shows(&c, "all at lowmere-web"));
    screen_type(&c, "several\r");
    assert_string_equal(plan()->shop, "several");
    assert_true(screen_shows(&c, "shops of lowmere"));
    screen_type(&c, "ball at one shop\r");
    assert_string_equal(plan()->shop, "one");
    assert_true(c.state.study->one);
    assert_true(screen_shows(&c, "lowmere-shop in lowmere")); /* lowmere-web has no stands and lids */
    screen_type(&c, "ball at lowmere-w\r");
    assert_string_equal(plan()->shop, "lowmere-web");
    assert_true(screen_shows(&c, "lowmere-web in lowmere"));
    screen_type(&c, "ball at the first\r");
    assert_string_equal(plan()->shop, "");
    screen_type(&c, "Bat lowmere-w\r"); /* one tank alone */
    assert_string_equal(plan()->candidate[0].shop, "lowmere-web");
    screen_type(&c, "Bas the plan\r");
}

/* The list to shop by, with what is bought at each shop. */
static void test_the_list_by_shop(void **state)
{
    (void)state;
    screen_type(&c, "bat several\rg7");
    assert_string_equal(tc_state_question(&c.state)->name, "list");
    assert_true(screen_shows(&c, "20-high, at lowmere-shop"));
    for (int i = 0; i < 4 && !screen_shows(&c, "20-high, at lowmere-web"); i++)
        screen_press(&c, TC_EVENT_PAGE_DOWN);
    assert_true(screen_shows(&c, "20-high, at lowmere-web"));
}

/* One key has orders fetched, where a shop says what the trip costs. */
static void test_orders_are_fetched(void **state)
{
    (void)state;
    screen_type(&c, "P");
    assert_true(screen_shows(&c, "No shop here says what a trip to it costs you"));
    assert_false(plan()->pick_up);
    for (size_t i = 0; i < c.stock.shop_count; i++)
        c.stock.shops[i].pick_up = 3;
    tc_state_outdate(&c.state);
    tc_money delivered = c.state.study->alternatives[0].cost.buy[TC_BUY_DELIVERY];
    screen_type(&c, "uP");
    assert_true(screen_shows(&c, "Orders are fetched"));
    assert_true(plan()->pick_up);
    assert_int_equal(delivered, 3500);
    screen_text(&c);
    assert_int_equal(c.state.study->alternatives[0].cost.buy[TC_BUY_DELIVERY], 300);
    screen_type(&c, "P");
    assert_false(plan()->pick_up);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_shops_in_the_list, start, end),
        cmocka_unit_test_setup_teardown(test_the_list_by_shop, start, end),
        cmocka_unit_test_setup_teardown(test_orders_are_fetched, start, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
