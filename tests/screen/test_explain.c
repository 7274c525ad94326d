/* SPDX-License-Identifier: MIT */
/* The key that says where a figure comes from: it opens level by level, and goes back. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include "screen/keymap.h"
#include "support/screen_case.h"

static struct screen_case c;

static int start(void **state)
{
    (void)state;
    screen_case_start(&c, 100, 40);
    return 0;
}

static int end(void **state)
{
    (void)state;
    screen_case_free(&c);
    return 0;
}

static void test_opens_and_goes_back(void **state)
{
    (void)state;
    screen_select(&c, "heater", 0);
    screen_type(&c, "E");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_LIST);
    assert_true(screen_shows(&c, "/buy/heater comes from"));
    assert_true(screen_shows(&c, "= round(c × p)"));
    int lists = c.state.list_count;
    screen_press(&c, TC_EVENT_DOWN);
    screen_type(&c, "\r"); /* the pieces */
    assert_int_equal(c.state.list_count, lists + 1);
    assert_true(screen_shows(&c, "= k × q"));
    screen_press(&c, TC_EVENT_DOWN);
    screen_press(&c, TC_EVENT_DOWN);
    screen_type(&c, "\r"); /* how many tanks: a leaf */
    assert_int_equal(c.state.list_count, lists + 1);
    assert_true(screen_shows(&c, "It goes no deeper"));
    screen_type(&c, "\033");
    assert_true(screen_shows(&c, "= round(c × p)"));
    screen_type(&c, "\033");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
}

/* Also where the sheet is arranged: the figure is that of the selected column. */
static void test_of_an_arranged_sheet(void **state)
{
    (void)state;
    screen_select(&c, "heater", 0);
    screen_type(&c, "C"); /* hides the first column */
    screen_select(&c, "filter", 0);
    screen_type(&c, "E");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_LIST);
    assert_true(screen_shows(&c, "/buy/filter comes from"));
    assert_int_equal(c.state.explained_column, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_opens_and_goes_back, start, end),
        cmocka_unit_test_setup_teardown(test_of_an_arranged_sheet, start, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
