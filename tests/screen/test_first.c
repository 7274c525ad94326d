/* SPDX-License-Identifier: MIT */
/*
 * From an empty home to an answer of one's own, at 80 columns and 24 rows, with
 * nothing but the keys below. Digits are the figures themselves; every other
 * key is counted.
 */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "core/base/number.h"
#include "screen/first.h"
#include "screen/section_file.h"
#include "support/near.h"
#include "support/own_folder.h"
#include "support/screen_case.h"

static struct screen_case c;
static struct own_folder own;
static int pressed; /* keys that are no digits */

static int start(void **state)
{
    (void)state;
    screen_case_start_on(&c, "profiles", "start", 80, 24);
    c.options.own_folder = "own";
    c.options.plan_folder = "own/plans";
    c.options.installed = c.profiles;
    pressed = 0;
    return own_folder_enter(&own, "first");
}

static int end(void **state)
{
    (void)state;
    screen_case_free(&c);
    return own_folder_leave(&own);
}

static void keys(const char *text)
{
    for (const char *k = text; *k; k++)
        pressed += !(*k >= '0' && *k <= '9');
    screen_type(&c, text);
}

static const struct tc_plan *plan(void)
{
    return &c.state.now.plan;
}

/* A tag for each part that is missing, one after the other. */
static void type_tags(void)
{
    for (int i = 0; i < 40; i++) {
        keys("j");
        const struct tc_cell *cell = tc_state_cell(&c.state, NULL);
        if (screen_shows(&c, "Nothing is missing"))
            return;
        assert_non_null(cell);
        assert_int_equal(cell->kind, TC_CELL_MISSING);
        keys("25\r");
    }
    fail_msg("there is always something missing:\n%s", screen_text(&c));
}

/* No place, shop, tank price or part of the demonstration stands behind the figures. */
static void assert_own(void)
{
    const struct tc_study *study = c.state.study;
    assert_false(study->region.invented);
    assert_false(screen_shows(&c, "invented"));
    assert_true(screen_shows(&c, "assumed"));
    for (int i = 0; i < study->alternative_count; i++) {
        const struct tc_alternative *alternative = &study->alternatives[i];
        assert_false(alternative->cost.incomplete);
        assert_int_equal(alternative->prices.deal.kind, TC_DEAL_TYPED);
        for (int slot = 0; slot < TC_SLOT_COUNT; slot++) {
            const struct tc_offer *offer = alternative->equipment.slot[slot].offer;
            if (offer)
                assert_string_equal(offer->part->goods.name, "unnamed");
        }
    }
}

static void begin_a_place(const char *electricity)
{
    tc_first_offer(&c.state);
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_CONFIRM);
    keys("b");
    assert_true(screen_shows(&c, "1 of 7: Your place: what do you call it?"));
    keys("\r\r7.25\r");
    keys(electricity);
    keys("\r\r66 77\r\r");
    assert_true(screen_shows(&c, "How the tanks are equipped"));
    keys("\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    assert_string_equal(plan()->region, "home");
}

/* The usual answers that were accepted count as assumed, until each is typed. */
static void assert_usual_answers_are_assumed(void)
{
    const struct tc_region *home = tc_stock_region(&c.stock, "home");
    assert_int_equal(home->assumed_count, 1); /* the tax, the price of a kWh and the room were typed */
    assert_string_equal(home->assumed[0], "water");
    screen_type(&c, "awater");
    assert_true(screen_shows(&c, "10 / kgal, assumed"));
    screen_type(&c, "\033\033eregion\rhome\rwater");
    assert_true(screen_shows(&c, "assumed"));
    screen_type(&c, "\r\025"
                    "0.02 / gal\r");
    assert_int_equal(tc_stock_region(&c.stock, "home")->assumed_count, 0);
    screen_type(&c, "\033\033\033\033");
}

/* Own place with a two-tier tariff, own shop, three tanks, one of no trade size, and tags for their parts. */
static void test_an_answer_of_ones_own(void **state)
{
    (void)state;
    begin_a_place("0.14 500 0.18");
    assert_string_equal(tc_stock_region(&c.stock, "home")->electricity.tariff, "home-power");
    assert_non_null(tc_stock_shop(&c.stock, "my-shop"));
    keys("t20-l\r\02529\r\033"); /* two of the trade's sizes */
    assert_int_equal(plan()->candidate_count, 2);
    keys("T33 15 16 49\r"); /* and one that is none */
    assert_int_equal(plan()->candidate_count, 3);
    type_tags();
    assert_int_equal(c.state.study->alternative_count, 3);
    assert_own();
    assert_true(screen_shows(&c, "to own over"));
    print_message("keys besides digits: %d\n", pressed);
    assert_true(pressed <= 120);
    assert_usual_answers_are_assumed();
}

/* In a shop: two tanks, nothing but tags, which one and up to which price. */
static void test_in_a_shop(void **state)
{
    (void)state;
    begin_a_place("0.16");
    pressed = 0; /* the place is set up at home */
    keys("T30 12 12 40\r");
    keys("T30 12 18 60\r");
    type_tags();
    keys("g3");
    assert_string_equal(tc_state_question(&c.state)->name, "sale");
    assert_own();
    print_message("keys besides digits: %d\n", pressed);
    assert_true(pressed <= 40);
}

/* What is refused says why; what is left is left for later. */
static void test_answers_are_checked(void **state)
{
    (void)state;
    screen_type(&c, "I\025None\r");
    assert_non_null(strstr(c.state.prompt.problem, "a name has"));
    screen_type(&c, "\025den\r\025dollars\r");
    assert_true(c.state.prompt.problem[0] != '\0');
    screen_type(&c, "\025usd\r5 %\r0.14 500\r");
    assert_non_null(strstr(c.state.prompt.problem, "above the last limit"));
    screen_type(&c, "\0250.2\r\025free\r");
    assert_true(c.state.prompt.problem[0] != '\0');
    /* One question back, with what was answered; from the first one all is left. */
    screen_type(&c, "\033");
    assert_string_equal(c.state.prompt.input.text, "0.2");
    screen_type(&c, "\033");
    assert_string_equal(c.state.prompt.input.text, "5 %");
    screen_type(&c, "\r\r");
    assert_true(screen_shows(&c, "5 of 7"));
    screen_type(&c, "\033\033\033\033\033");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    assert_true(screen_shows(&c, "Left for later"));
    assert_int_not_equal(access("own", F_OK), 0);
}

/* A template of a place: what it lacks is shown as missing, never as 0, and asked for by one key. */
static void test_what_a_template_lacks(void **state)
{
    static const char *const answers[][2] = {
        {"sales-tax", "0 %"},        {"water", "2.40 / m3"}, {"household-energy", "300 kWh"},
        {"household-water", "9 m3"}, {"cold-water", "50 F"}, {"room", "68 F"},
        {"humidity", "45 %"}};
    (void)state;
    screen_type(&c, "raverage-minn\r");
    assert_true(screen_shows(&c, "Press j for what is missing"));
    screen_type(&c, "asales-tax");
    assert_true(screen_shows(&c, "missing"));
    screen_type(&c, "\033\033");
    for (size_t i = 0; i < sizeof answers / sizeof answers[0]; i++) {
        screen_type(&c, "j");
        assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
        assert_non_null(strstr(c.state.prompt.title, answers[i][0]));
        assert_string_equal(c.state.prompt.input.text, ""); /* and not 0 */
        screen_type(&c, answers[i][1]);
        screen_type(&c, "\r");
    }
    screen_type(&c, "j"); /* now a price is missing, and the cursor is there */
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    assert_non_null(tc_state_cell(&c.state, NULL));
    assert_int_equal(tc_state_cell(&c.state, NULL)->kind, TC_CELL_MISSING);
}

/* Whoever has something of his own is not asked. */
static void test_it_is_offered_once(void **state)
{
    (void)state;
    begin_a_place("0.16");
    tc_first_offer(&c.state);
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_an_answer_of_ones_own, start, end),
        cmocka_unit_test_setup_teardown(test_in_a_shop, start, end),
        cmocka_unit_test_setup_teardown(test_answers_are_checked, start, end),
        cmocka_unit_test_setup_teardown(test_what_a_template_lacks, start, end),
        cmocka_unit_test_setup_teardown(test_it_is_offered_once, start, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
