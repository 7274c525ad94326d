/* SPDX-License-Identifier: MIT */
/* What keys do to the plan and to what is seen, without a terminal. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "profile/stock_finish.h"
#include "screen/edit.h"
#include "screen/keymap.h"
#include "screen/refresh.h"
#include "support/failing_malloc.h"
#include "support/near.h"
#include "support/screen_case.h"
#include "support/step.h"

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

static const struct tc_plan *plan(void)
{
    return &c.state.now.plan;
}

/* The selected cell's column and row label as the line at the bottom says them. */
static const struct tc_cell *cell(void)
{
    const struct tc_cell *selected = tc_state_cell(&c.state, NULL);
    assert_non_null(selected);
    return selected;
}

/* ------------------------------------------------------------------- typing figures */

static void test_type_a_price(void **state)
{
    (void)state;
    char before[64];
    screen_select(&c, "tank", 0);
    snprintf(before, sizeof before, "%s", screen_cell(&c, "to buy", 0, 0));
    screen_type(&c, "45");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    assert_true(screen_shows(&c, "29-high: price"));
    screen_type(&c, "\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    assert_near(plan()->candidate[0].price, 45, 1e-9);
    assert_string_equal(screen_cell(&c, "tank", 0, 0), "45.00");
    assert_true(cell()->marks & TC_MARK_TYPED);
    assert_true(strcmp(screen_cell(&c, "to buy", 0, 0), before) != 0);
    assert_true(screen_shows(&c, "not saved"));

    screen_type(&c, "u");
    assert_string_equal(screen_cell(&c, "to buy", 0, 0), before);
    assert_true(isnan(plan()->candidate[0].price));
    assert_false(screen_shows(&c, "not saved"));
    screen_type(&c, "U");
    assert_string_equal(screen_cell(&c, "tank", 0, 0), "45.00");
    screen_type(&c, "x");
    assert_true(isnan(plan()->candidate[0].price));
    assert_string_equal(screen_cell(&c, "to buy", 0, 0), before);
    screen_type(&c, "x");
    assert_true(screen_shows(&c, "Nothing was typed or pinned here."));
}

static void test_refused_text_stays(void **state)
{
    (void)state;
    screen_select(&c, "tank", 0);
    screen_type(&c, "\r1,5\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    assert_true(c.state.prompt.problem[0] != '\0');
    assert_string_equal(c.state.prompt.input.text, "1,5");
    assert_true(tc_plan_equal(plan(), &c.plan));
    screen_type(&c, "\b\b.5");
    assert_string_equal(c.state.prompt.problem, "");
    screen_type(&c, "\r");
    assert_near(plan()->candidate[0].price, 1.5, 1e-9);
}

static void test_looking_is_not_typing(void **state)
{
    (void)state;
    screen_select(&c, "tank", 0);
    screen_type(&c, "\r");
    assert_string_equal(c.state.prompt.input.text, "59.50"); /* 30 % off 85.00: what is in force */
    screen_type(&c, "\r");
    assert_true(tc_plan_equal(plan(), &c.plan));
    screen_type(&c, "\r7\033");
    assert_true(tc_plan_equal(plan(), &c.plan));
    assert_int_equal(c.state.history.back_count, 0);
}

/* Of several tanks the prompt holds the price of one, which is what is typed, not the sum in the cell. */
static void test_price_of_one(void **state)
{
    (void)state;
    screen_select(&c, "tank", 0);
    screen_type(&c, "++");
    assert_int_equal(plan()->candidate[0].quantity, 3);
    screen_type(&c, "\r");
    assert_string_equal(c.state.prompt.input.text, "59.50");
    screen_type(&c, "40\r");
    assert_string_equal(screen_cell(&c, "tank", 0, 0), "120.00");
}

static void test_figures_that_are_worked_out(void **state)
{
    (void)state;
    screen_select(&c, "to buy", 0);
    screen_type(&c, "\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    assert_true(screen_shows(&c, "Worked out, not typed"));
    screen_type(&c, "5");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    screen_type(&c, "z");
    assert_true(screen_shows(&c, "'z' does nothing here"));
}

static void test_undo_over_many_steps(void **state)
{
    (void)state;
    screen_select(&c, "tank", 0);
    for (int i = 0; i < 30; i++) {
        char price[16];
        snprintf(price, sizeof price, "%d\r", 40 + i);
        screen_type(&c, price);
    }
    assert_string_equal(screen_cell(&c, "tank", 0, 0), "69.00");
    for (int i = 0; i < 30; i++)
        screen_type(&c, "u");
    assert_true(tc_plan_equal(plan(), &c.plan));
    screen_type(&c, "u");
    assert_true(screen_shows(&c, "There is nothing to undo."));
    for (int i = 0; i < 30; i++)
        screen_type(&c, "y");
    assert_string_equal(screen_cell(&c, "tank", 0, 0), "69.00");
    screen_type(&c, "U");
    assert_true(screen_shows(&c, "There is nothing to redo."));
}

/* -------------------------------------------------------------------------- lists */

static void test_tanks(void **state)
{
    (void)state;
    screen_type(&c, "t");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_LIST);
    screen_type(&c, "240\r"); /* there: taken out */
    assert_int_equal(plan()->candidate_count, 2);
    screen_type(&c, "\r"); /* not there: put in */
    assert_int_equal(plan()->candidate_count, 3);
    screen_press(&c, TC_EVENT_RIGHT);
    screen_press(&c, TC_EVENT_RIGHT);
    assert_int_equal(plan()->candidate[2].quantity, 3);
    screen_press(&c, TC_EVENT_LEFT);
    assert_int_equal(plan()->candidate[2].quantity, 2);
    assert_true(screen_shows(&c, "2 ×"));
    screen_press(&c, TC_EVENT_LEFT);
    screen_press(&c, TC_EVENT_LEFT);
    assert_int_equal(plan()->candidate_count, 2);
    screen_press(&c, TC_EVENT_LEFT); /* not less than none */
    assert_int_equal(plan()->candidate_count, 2);
    screen_type(&c, "\033");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    assert_int_equal(tc_state_tab(&c.state)->sheet.column_count, 2);
}

/* Templates come behind the regions somebody pays bills in; a tax nobody said is not shown as none. */
static void test_regions(void **state)
{
    (void)state;
    assert_string_equal(c.stock.regions[0].name, "highfell");
    c.stock.regions[0].is_template = true;
    c.stock.regions[0].sales_tax = 0;
    screen_type(&c, "r");
    const char *text = screen_text(&c), *own = strstr(text, "lowmere  "),
               *template = strstr(text, "highfell  ");
    assert_true(own && template && own < template);
    assert_true(screen_shows(&c, "missing"));
    screen_type(&c, "\033");
}

static void test_tanks_are_not_without_end(void **state)
{
    (void)state;
    for (int i = 0; i < TC_CANDIDATES_MAX; i++)
        tc_plan_add(&c.state.now.plan, "40-breeder");
    tc_plan_remove(&c.state.now.plan, 0); /* the only 29-high */
    tc_plan_add(&c.state.now.plan, "40-breeder");
    assert_int_equal(plan()->candidate_count, TC_CANDIDATES_MAX);
    screen_type(&c, "t29-high\r");
    assert_true(screen_shows(&c, "12 tanks at most"));
    assert_int_equal(plan()->candidate_count, TC_CANDIDATES_MAX);
}

static void test_count_on_the_sheet(void **state)
{
    (void)state;
    screen_select(&c, "tank", 0);
    screen_type(&c, "+");
    assert_int_equal(plan()->candidate[0].quantity, 2);
    assert_true(screen_shows(&c, "2 × 29-high"));
    screen_type(&c, "--");
    assert_int_equal(plan()->candidate_count, 2);
    assert_true(screen_shows(&c, "29-high is taken out"));
    screen_type(&c, "u");
    assert_int_equal(plan()->candidate_count, 3);
}

/* A tank of the shortlist, which the plan need not have, is taken in by the key for one more. */
static void test_shortlist_into_plan(void **state)
{
    (void)state;
    int before = plan()->candidate_count;
    screen_type(&c, "gshortlist\r");
    assert_true(screen_shows(&c, "Cheapest to own first"));
    screen_select(&c, "40-breeder", 0);
    screen_type(&c, "+"); /* not twice */
    assert_true(screen_shows(&c, "40-breeder is in the plan already"));
    assert_int_equal(plan()->candidate_count, before);

    screen_type(&c, "gbill\r");
    screen_select(&c, "tank", 1);
    screen_type(&c, "--"); /* there were two */
    assert_int_equal(plan()->candidate_count, before - 1);
    screen_type(&c, "gshortlist\r");
    screen_select(&c, "40-breeder", 0);
    screen_type(&c, "+");
    assert_int_equal(plan()->candidate_count, before);
    assert_string_equal(plan()->candidate[before - 1].tank, "40-breeder");
    assert_true(screen_shows(&c, "40-breeder is in the plan; "));
    screen_type(&c, "u");
    assert_int_equal(plan()->candidate_count, before - 1);
}

static void test_one_tank_twice(void **state)
{
    (void)state;
    screen_select(&c, "light", 1);
    screen_type(&c, "d");
    assert_int_equal(plan()->candidate_count, 4);
    assert_memory_equal(&plan()->candidate[3], &plan()->candidate[1], sizeof plan()->candidate[1]);
    screen_select(&c, "to buy", 3); /* the heads of both are alike */
    assert_int_equal(tc_state_candidate(&c.state), 3);
    screen_select(&c, "light", 3);
    screen_type(&c, "ptube\r");
    assert_string_equal(plan()->candidate[3].pin[TC_SLOT_LIGHT].part, "tube-75");
    assert_string_equal(plan()->candidate[1].pin[TC_SLOT_LIGHT].part, "strip-90");
    for (int i = 4; i < TC_CANDIDATES_MAX; i++)
        screen_type(&c, "d");
    screen_type(&c, "d");
    assert_true(screen_shows(&c, "12 tanks at most"));
}

static void test_setup_and_region(void **state)
{
    (void)state;
    screen_type(&c, "kplan");
    assert_int_equal(c.state.lists[0].picker.shown_count, 1);
    screen_type(&c, "\r");
    assert_string_equal(plan()->setup, "planted");
    assert_string_equal(c.state.study->setup.name, "planted");
    screen_type(&c, "rhigh\r");
    assert_string_equal(plan()->region, "highfell");
    assert_true(screen_shows(&c, "EUR"));
    screen_type(&c, "ku\033"); /* letters narrow the list down, they are no keys there */
    assert_string_equal(plan()->region, "highfell");
    screen_type(&c, "uu");
    assert_true(tc_plan_equal(plan(), &c.plan));
}

static void test_list_narrowed_to_nothing(void **state)
{
    (void)state;
    screen_type(&c, "kqqq");
    assert_int_equal(c.state.lists[0].picker.shown_count, 0);
    assert_true(screen_shows(&c, "nothing matches"));
    screen_type(&c, "\r");
    screen_press(&c, TC_EVENT_DOWN);
    screen_press(&c, TC_EVENT_PAGE_UP);
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_LIST);
    screen_type(&c, "\025");
    assert_true(c.state.lists[0].picker.shown_count > 1);
}

static void test_buying(void **state)
{
    (void)state;
    screen_select(&c, "tank", 0);
    screen_type(&c, "b");
    assert_true(screen_shows(&c, "85.00"));  /* 29-high at list price */
    assert_true(screen_shows(&c, "59.50"));  /* 30 % off */
    assert_true(screen_shows(&c, "129.00")); /* with its parts */
    screen_type(&c, "list\r");
    assert_string_equal(plan()->sale, "list");
    assert_string_equal(screen_cell(&c, "tank", 0, 0), "85.00");
    screen_type(&c, "Bgallon\r");
    assert_string_equal(plan()->candidate[0].sale, "lowmere-gallon");
    assert_string_equal(screen_cell(&c, "tank", 0, 0), "29.00"); /* 1.00 for each of 29 gal */
    screen_type(&c, "Bplan\r");
    assert_string_equal(plan()->candidate[0].sale, "");
    assert_string_equal(screen_cell(&c, "tank", 0, 0), "85.00");
}

static void test_parts(void **state)
{
    (void)state;
    screen_select(&c, "light", 0);
    screen_type(&c, "p");
    assert_string_equal(c.state.lists[0].picker.sheet.name, "parts");
    assert_true(screen_shows(&c, "does not fit"));
    screen_type(&c, "strip\r");
    assert_string_equal(plan()->candidate[0].pin[TC_SLOT_LIGHT].part, "strip-90");
    assert_string_equal(screen_cell(&c, "light", 0, 0), "55.00");
    assert_true(cell()->marks & TC_MARK_PINNED);
    screen_type(&c, "x");
    assert_string_equal(plan()->candidate[0].pin[TC_SLOT_LIGHT].part, "");
    screen_type(&c, "pnone\r");
    assert_string_equal(plan()->candidate[0].pin[TC_SLOT_LIGHT].part, "none");
    screen_type(&c, "pany\r");
    assert_true(tc_plan_equal(plan(), &c.plan));

    screen_select(&c, "stand", 0); /* none fits: the list says why */
    screen_type(&c, "\r");
    assert_string_equal(c.state.lists[0].picker.sheet.name, "parts");
    assert_true(screen_shows(&c, "The stand of 29-high"));
    screen_type(&c, "\033");

    screen_select(&c, "to buy", 0); /* about no slot: they are listed first */
    screen_type(&c, "p");
    assert_string_equal(c.state.lists[0].picker.sheet.name, "slots");
    screen_type(&c, "heater\r");
    assert_string_equal(c.state.lists[0].picker.sheet.name, "parts");
    assert_true(screen_shows(&c, "The heater of 29-high"));
    screen_type(&c, "\033");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
}

static void test_assumptions(void **state)
{
    (void)state;
    screen_type(&c, "alight-hours");
    assert_true(screen_shows(&c, "9 h"));
    screen_type(&c, "\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    screen_type(&c, "12 h\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_LIST);
    assert_near(c.state.study->setup.light_hours, 12, 1e-9);
    assert_true(screen_shows(&c, "12 h")); /* the list follows */
    screen_press(&c, TC_EVENT_DELETE);
    char text[TC_VALUE_SIZE];
    assert_true(tc_plan_get(plan(), "setup/light-hours", text));
    assert_string_equal(text, "");
    screen_type(&c, "\025years\r7 years\r\033");
    assert_near(plan()->years, 7, 1e-9);
    assert_true(screen_shows(&c, "over 7 years"));
    screen_type(&c, "aquantity\r"); /* of the tank the cursor is on */
    assert_string_equal(c.state.prompt.path, "candidate 1/quantity");
    screen_type(&c, "\033\033");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
}

/* Every assumption of setup, region, wall and plan can be opened, and left as it is. */
static void test_every_assumption_opens(void **state)
{
    (void)state;
    screen_type(&c, "a");
    size_t count = c.state.lists[0].picker.shown_count;
    assert_true(count > 80);
    for (size_t i = 0; i < count; i++) {
        screen_type(&c, "\r");
        if (tc_state_top(&c.state) == TC_LAYER_LIST) { /* of what it may be, on what it is */
            assert_int_equal(c.state.list_count, 2);
            char present[TC_VALUE_SIZE];
            tc_edit_present(&c.state, c.state.lists[1].about.key, present);
            if (*present)
                assert_string_equal(tc_picker_value(&c.state.lists[1].picker), present);
            screen_type(&c, *present ? "\r" : "\033");
            assert_int_equal(c.state.list_count, 1);
            screen_press(&c, TC_EVENT_DOWN);
            continue;
        }
        assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
        assert_true(strlen(c.state.prompt.hint) > 0);
        if (c.state.prompt.input.length > 0 && c.state.prompt.path[0]) {
            screen_type(&c, "\r");
            if (tc_state_top(&c.state) == TC_LAYER_PROMPT)
                fail_msg("%s: %s", c.state.prompt.path, c.state.prompt.problem);
        } else {
            screen_type(&c, "\033");
        }
        assert_int_equal(tc_state_top(&c.state), TC_LAYER_LIST);
        screen_press(&c, TC_EVENT_DOWN);
    }
    assert_true(tc_plan_equal(plan(), &c.plan));
}

/* The sheet fit shows parts where the bill shows prices: Enter there chooses another one. */
static void test_parts_from_fit(void **state)
{
    (void)state;
    while (strcmp(tc_state_question(&c.state)->name, "fit") != 0)
        screen_type(&c, "\t");
    screen_select(&c, "light", 0);
    screen_type(&c, "\r");
    assert_string_equal(c.state.lists[0].picker.sheet.name, "parts");
    screen_type(&c, "strip\r");
    assert_string_equal(plan()->candidate[0].pin[TC_SLOT_LIGHT].part, "strip-90");
    assert_true(cell()->marks & TC_MARK_PINNED);
    screen_type(&c, "x");
    assert_true(tc_plan_equal(plan(), &c.plan));
}

static void test_walls_in_the_bill(void **state)
{
    char problem[TC_PROBLEM_SIZE];
    (void)state;
    screen_type(&c, "W"); /* how deep the wall is was not said: the bill stays what it is */
    assert_true(screen_shows(&c, "The plan has no wall"));
    assert_false(c.state.walls);
    assert_true(tc_plan_set(&c.state.now.plan, "wall/depth", "24 in", problem));
    assert_true(tc_plan_set(&c.state.now.plan, "wall/reach", "28 in", problem));
    screen_type(&c, "\t\t\tW");
    assert_string_equal(tc_state_question(&c.state)->name, "bill");
    assert_true(tc_state_tab(&c.state)->made || tc_state_tab(&c.state)->problem[0]);
    screen_type(&c, "x+p\033\r\033W");
    assert_true(tc_state_tab(&c.state)->made);
    assert_true(screen_shows(&c, "29-high"));
}

/* -------------------------------------------------------------------------- sheets */

static void test_from_any_sheet_to_any_in_two_presses(void **state)
{
    (void)state;
    for (size_t from = 0; from < c.state.question_count; from++) {
        for (size_t to = 0; to < c.state.question_count && to < 10; to++) {
            c.state.question = from;
            tc_keymap_press(&c.state, (struct tc_key_event){.code = 'g'});
            tc_keymap_press(&c.state, (struct tc_key_event){.code = (uint32_t)('0' + (to + 1) % 10)});
            assert_int_equal(c.state.question, to);
            assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
        }
    }
}

static void test_round_the_sheets(void **state)
{
    (void)state;
    for (size_t i = 0; i < c.state.question_count; i++) {
        assert_int_equal(c.state.question, i);
        screen_type(&c, "\t");
    }
    assert_int_equal(c.state.question, 0);
    screen_press(&c, TC_EVENT_BACK_TAB);
    assert_int_equal(c.state.question, c.state.question_count - 1);
}

/* Where one was in a sheet is where one comes back to. */
static void test_each_sheet_keeps_its_place(void **state)
{
    (void)state;
    screen_select(&c, "filter", 1);
    struct tc_position position = tc_state_tab(&c.state)->position;
    screen_type(&c, "\t");
    screen_press(&c, TC_EVENT_END);
    screen_press(&c, TC_EVENT_BACK_TAB);
    assert_memory_equal(&tc_state_tab(&c.state)->position, &position, sizeof position);
}

/* The selected row is found again when rows come and go above it. */
static void test_the_row_stays_selected(void **state)
{
    (void)state;
    const struct tc_row *row;
    screen_select(&c, "to buy", 1);
    screen_type(&c, "kplanted\r");
    assert_non_null(tc_state_cell(&c.state, &row));
    assert_string_equal(row->label, "to buy");
    tc_keymap_resize(&c.state, 61, 17);
    assert_non_null(tc_state_cell(&c.state, &row));
    assert_string_equal(row->label, "to buy");
    assert_true(screen_shows(&c, "to buy"));
}

/* Rows of the old sheet are not looked at once the new and shorter one is there. */
static void test_a_shorter_sheet(void **state)
{
    (void)state;
    c.options.ask.draws = 1; /* as few as it allows: this is not about doubts */
    for (size_t i = 0; i < c.state.question_count; i++) {
        screen_press(&c, TC_EVENT_END);
        screen_type(&c, "t240\r\02540\r\033"); /* two of three tanks go */
        screen_type(&c, "\033");
        assert_true(plan()->candidate_count < 3);
        /* A sheet may refuse such a plan, but says why. */
        assert_true(tc_state_tab(&c.state)->made || tc_state_tab(&c.state)->problem[0]);
        screen_text(&c);
        screen_type(&c, "uu\t");
    }
}

static void test_find(void **state)
{
    (void)state;
    const struct tc_row *row;
    screen_type(&c, "fwarming");
    assert_non_null(tc_state_cell(&c.state, &row));
    assert_string_equal(row->label, "electricity: warming new water");
    screen_type(&c, "\033"); /* back where one was */
    assert_non_null(tc_state_cell(&c.state, &row));
    assert_string_equal(row->label, "tank");
    screen_type(&c, "n");
    assert_true(screen_shows(&c, "Nothing was looked for yet"));
    screen_type(&c, "fWATER new\r"); /* words in any order and case */
    assert_non_null(tc_state_cell(&c.state, &row));
    assert_string_equal(row->label, "electricity: warming new water");
    screen_type(&c, "fsupplies\r");
    size_t first = tc_state_tab(&c.state)->position.line;
    screen_type(&c, "n");
    assert_true(tc_state_tab(&c.state)->position.line > first);
    screen_type(&c, "N");
    assert_int_equal(tc_state_tab(&c.state)->position.line, first);
    screen_type(&c, "fno such thing\r");
    assert_true(screen_shows(&c, "is not in this sheet"));
    assert_string_equal(c.state.find, "no such thing");
    screen_type(&c, "\033");
    assert_string_equal(c.state.find, "");
}

static void test_vary(void **state)
{
    (void)state;
    screen_type(&c, "v");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    screen_type(&c, "\025setup/light-hours=6..12 h\r");
    assert_string_equal(tc_state_question(&c.state)->name, "whatif");
    assert_true(screen_shows(&c, "light-hours"));
    screen_type(&c, "v\025nonsense\r");
    assert_false(tc_state_tab(&c.state)->made);
    assert_true(screen_shows(&c, "Say what to vary"));
    screen_type(&c, "v\025\r"); /* the default */
    assert_true(tc_state_tab(&c.state)->made);
    screen_type(&c, "a\025years"); /* from the list: its present figure is where it begins */
    screen_press(&c, TC_EVENT_RIGHT);
    assert_string_equal(c.state.prompt.input.text, "plan/years=8.. years");
    screen_type(&c, "12\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    assert_string_equal(tc_state_question(&c.state)->name, "whatif");
    assert_string_equal(c.state.vary, "plan/years=8..12 years");
    assert_true(tc_state_tab(&c.state)->made);
    screen_type(&c, "aroom-swing");
    screen_press(&c, TC_EVENT_RIGHT);
    assert_string_equal(c.state.prompt.input.text, "region/room-swing=3.. F");
    screen_type(&c, "\033\025water");
    screen_press(&c, TC_EVENT_RIGHT);
    assert_non_null(strstr(c.state.prompt.input.text, ".."));
}

static void test_pictures(void **state)
{
    (void)state;
    while (strcmp(tc_state_question(&c.state)->name, "fit") != 0)
        screen_type(&c, "\t");
    screen_type(&c, "c");
    assert_true(screen_shows(&c, "This sheet has no charts."));
    while (strcmp(tc_state_question(&c.state)->name, "years") != 0)
        screen_type(&c, "\t");
    screen_type(&c, "c");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PICTURE);
    assert_true(screen_shows(&c, "1 of 3"));
    screen_press(&c, TC_EVENT_UP);
    screen_type(&c, "c");
    assert_true(screen_shows(&c, "2 of 3"));
    screen_type(&c, "cc");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
}

/* On a wide screen charts stand beside the table, of which no column goes: two where the height has room. */
static void test_charts_beside_the_table(void **state)
{
    (void)state;
    tc_keymap_resize(&c.state, 120, 40);
    for (int i = 0; i < 2; i++, screen_type(&c, "\t")) { /* bill, years */
        assert_true(screen_shows(&c, ""));
        const struct tc_tab *tab = tc_state_tab(&c.state);
        assert_true(tab->body.beside >= 1);
        assert_int_equal(tc_body_columns(&tab->body, 0), tab->sheet.column_count);
        for (size_t p = 0; p < tab->body.beside; p++)
            assert_true(tab->body.beside_start + tab->body.pictures[p].width <= c.state.frame.inside);
    }
    while (strcmp(tc_state_question(&c.state)->name, "years") != 0)
        screen_type(&c, "\t");
    tc_keymap_resize(&c.state, 120, 50);
    assert_true(screen_shows(&c, ""));
    assert_int_equal(tc_state_tab(&c.state)->body.beside, 2);
    tc_keymap_resize(&c.state, 80, 24);
    assert_true(screen_shows(&c, ""));
    assert_int_equal(tc_state_tab(&c.state)->body.beside, 0);
}

/* ---------------------------------------------------------------------------- work */

static bool stop(void *context, double done)
{
    int *asked = context;
    ++*asked;
    assert_true(done >= 0 && done <= 1);
    tc_refresh_stop(&c.state);
    return false;
}

static void test_stopped_work(void **state)
{
    (void)state;
    int asked = 0;
    c.options.ask.draws = 1;
    for (size_t i = 0; tc_question_at(i); i++)
        if (strcmp(tc_question_at(i)->name, "doubts") == 0)
            c.state.question = i;
    assert_true(tc_refresh_waits(&c.state));
    tc_refresh_do(&c.state, stop, &asked);
    assert_int_equal(asked, 1);
    assert_false(tc_refresh_waits(&c.state));
    assert_true(screen_shows(&c, "Press Enter to work it out after all."));
    screen_type(&c, "\r");
    assert_true(tc_state_tab(&c.state)->made);
    assert_false(screen_shows(&c, "Stopped"));

    screen_press(&c, '+'); /* a change, the work on which is stopped: the old figures stay, and say so */
    asked = 0;
    c.state.version++;
    tc_refresh_do(&c.state, stop, &asked);
    assert_true(tc_state_tab(&c.state)->made);
    c.state.message[0] = '\0';
    assert_true(screen_shows(&c, "figures before the change"));
    screen_type(&c, "u"); /* the next change asks anew */
    assert_false(screen_shows(&c, "figures before the change"));
}

static void test_nothing_to_compare(void **state)
{
    (void)state;
    screen_type(&c, "---"); /* one of the first, two of the second */
    screen_type(&c, "-");
    assert_int_equal(plan()->candidate_count, 0);
    assert_true(screen_shows(&c, "No tanks are compared yet"));
    screen_type(&c, "gshortlist\r"); /* which finds some */
    assert_true(screen_shows(&c, "Cheapest to own first"));
    screen_type(&c, "gbill\r");
    assert_true(screen_shows(&c, "No tanks are compared yet"));
    screen_type(&c, "-+p\tc\rxwnB5");
    for (size_t i = 0; i < c.state.question_count; i++)
        screen_type(&c, "\t");
    screen_type(&c, "\033\033t29\r\033");
    assert_int_equal(plan()->candidate_count, 1);
    assert_true(tc_state_tab(&c.state)->made);
}

static void test_a_plan_that_names_what_is_not_there(void **state)
{
    char problem[TC_PROBLEM_SIZE];
    (void)state;
    assert_true(tc_plan_set(&c.state.now.plan, "plan/setup", "shrimp-shlef", problem));
    tc_state_outdate(&c.state);
    tc_refresh_do(&c.state, NULL, NULL);
    assert_true(screen_shows(&c, "did you mean 'shrimp-shelf'?"));
    assert_true(screen_shows(&c, "No result yet"));
    screen_type(&c, "!");
    assert_true(screen_shows(&c, "What is wrong"));
    screen_type(&c, "\033kshrimp\r");
    assert_true(tc_state_tab(&c.state)->made);
    assert_false(screen_shows(&c, "did you mean"));
}

/* ---------------------------------------------------------------------------- sizes */

static void test_sizes(void **state)
{
    static const char keys[] = "tkrbBpag\033h\033!\033s\033w\033f\033v\033\tc\033o\033";
    (void)state;
    for (int width = 1; width < 130; width += 7) {
        for (int height = 1; height<45; height += test_step()> 1 ? 9 : 3) {
            tc_keymap_resize(&c.state, width, height);
            screen_text(&c);
            if (c.state.frame.too_small)
                assert_true(width < 20 || height < 3 || screen_shows(&c, "This terminal is"));
            for (const char *key = keys; *key && !c.state.frame.too_small; key++) {
                screen_type(&c, (char[]){*key, '\0'});
                screen_text(&c);
            }
        }
    }
    assert_true(tc_plan_equal(plan(), &c.plan));
    assert_false(c.state.leave);
}

static void test_too_small_changes_nothing(void **state)
{
    (void)state;
    screen_select(&c, "tank", 0);
    tc_keymap_resize(&c.state, 30, 8);
    screen_type(&c, "45\r+x-t\r\033");
    assert_true(tc_plan_equal(plan(), &c.plan));
    tc_keymap_resize(&c.state, 80, 24);
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    tc_keymap_resize(&c.state, 30, 8);
    screen_type(&c, "q");
    assert_true(c.state.leave);
}

static void test_columns_scroll(void **state)
{
    (void)state;
    for (int i = 0; i < 6; i++)
        tc_plan_add(&c.state.now.plan, i % 2 ? "29-high" : "40-breeder");
    tc_state_outdate(&c.state);
    tc_refresh_do(&c.state, NULL, NULL);
    tc_keymap_resize(&c.state, 80, 24);
    const struct tc_tab *tab = tc_state_tab(&c.state);
    for (size_t i = 1; i < 9; i++) {
        screen_press(&c, TC_EVENT_RIGHT);
        assert_int_equal(tab->position.column, i);
        assert_true(tab->position.left + tc_body_columns(&tab->body, tab->position.left) > i);
        assert_true(screen_shows(&c, "  tank")); /* the labels stay */
    }
    assert_int_equal(tab->position.left + tc_body_columns(&tab->body, tab->position.left), 9);
    screen_press(&c, TC_EVENT_RIGHT);
    assert_int_equal(tab->position.column, 8);
    for (int i = 0; i < 9; i++)
        screen_press(&c, TC_EVENT_LEFT);
    assert_int_equal(tab->position.left, 0);
}

static void test_click(void **state)
{
    (void)state;
    screen_type(&c, "m");
    assert_true(c.state.mouse);
    const struct tc_tab *tab = tc_state_tab(&c.state);
    int column = c.state.frame.margin + tc_body_field(&tab->body, 0, 1) + 2;
    struct tc_key_event click = {TC_EVENT_CLICK, column, c.state.frame.body + 9};
    tc_keymap_press(&c.state, click);
    const struct tc_row *row;
    assert_non_null(tc_state_cell(&c.state, &row));
    assert_string_equal(row->label, "light");
    assert_int_equal(tab->position.column, 1);
    tc_keymap_press(&c.state, click); /* again: type over */
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    screen_type(&c, "\033m");
    assert_false(c.state.mouse);
    tc_keymap_press(&c.state, (struct tc_key_event){TC_EVENT_CLICK, 500, 500});
    tc_keymap_press(&c.state, (struct tc_key_event){TC_EVENT_CLICK, -1, -1});
}

/* --------------------------------------------------------------------------- memory */

/* Allocations of a working session fail, each of the first and fewer of the many alike: nothing breaks, and
 * the screen ends or goes on. */
static void test_no_memory(void **state)
{
    (void)state;
    screen_case_free(&c);
    for (long n = 0;; n += test_step() + n / 200) {
        screen_case_start(&c, 80, 24);
        failing_malloc_start(n, false);
        for (const char *key = "45\rt\033p\033a\033h\033u\tc\033"; *key && !c.state.failed; key++) {
            uint32_t code = (unsigned char)*key;
            code = code == '\r'     ? TC_EVENT_ENTER
                   : code == '\033' ? TC_EVENT_ESCAPE
                   : code == '\t'   ? TC_EVENT_TAB
                                    : code;
            tc_keymap_press(&c.state, (struct tc_key_event){.code = code});
            if (tc_refresh_waits(&c.state))
                tc_refresh_do(&c.state, NULL, NULL);
        }
        if (!failing_malloc_stop())
            break;
        screen_case_free(&c);
    }
    assert_false(c.state.failed);
}

/* ------------------------------------------------------- what a row is about */

/* Selects the last row with that label. */
static void select_last(const char *label)
{
    struct tc_tab *tab = tc_state_tab(&c.state);
    size_t found = tab->body.count;
    for (size_t i = 0; i < tab->body.count; i++)
        if (tab->body.lines[i].kind == TC_LINE_ROW &&
            strcmp(tab->sheet.rows[tab->body.lines[i].index].label, label) == 0)
            found = i;
    assert_true(found < tab->body.count);
    tab->position.line = found;
    tab->position.column = 0;
}

/* Of two candidates alike, the list's heads are alike too: the one under the cursor is counted. */
static void test_count_in_the_list_of_two_alike(void **state)
{
    (void)state;
    screen_type(&c, "glist\r");
    screen_select(&c, "to buy", 0);
    screen_type(&c, "d");
    int last = plan()->candidate_count - 1;
    assert_string_equal(plan()->candidate[last].tank, plan()->candidate[0].tank);
    select_last("to buy");
    screen_type(&c, "+");
    assert_int_equal(plan()->candidate[last].quantity, 2);
    assert_int_equal(plan()->candidate[0].quantity, 1);
    select_last("to buy");
    screen_type(&c, "--");
    assert_int_equal(plan()->candidate_count, last);
    assert_int_equal(plan()->candidate[0].quantity, 1);
}

/* A part's row in the list says more than its slot; its parts are chosen from there all the same. */
static void test_parts_from_the_list(void **state)
{
    (void)state;
    screen_type(&c, "glist\r");
    const struct tc_sheet *sheet = &tc_state_tab(&c.state)->sheet;
    size_t row = 0;
    while (row < sheet->row_count && strncmp(sheet->rows[row].label, "filter ", 7) != 0)
        row++;
    assert_true(row < sheet->row_count);
    screen_select(&c, sheet->rows[row].label, 0);
    screen_type(&c, "p");
    assert_string_equal(tc_state_list(&c.state)->picker.sheet.name, "parts");
    assert_int_equal(tc_state_list(&c.state)->about.slot, TC_SLOT_FILTER);
    assert_int_equal(tc_state_list(&c.state)->about.candidate, 0);
    screen_type(&c, "\033");
}

/* ----------------------------------------------------------------- figures nobody said */

/* The row of an open list with that label. */
static const struct tc_row *list_row(const char *label)
{
    const struct tc_sheet *sheet = &tc_state_list(&c.state)->picker.sheet;
    for (size_t r = 0; r < sheet->row_count; r++)
        if (sheet->rows[r].kind != TC_ROW_GROUP && strcmp(sheet->rows[r].label, label) == 0)
            return &sheet->rows[r];
    fail_msg("no row '%s'", label);
    return NULL;
}

/* A template shows its own figures; what it lacks is missing and not 0, and 0 can be typed there. */
static void test_a_template_shows_what_it_has(void **state)
{
    static const char text[] = "[region blank]\ncurrency = USD\ntemplate = yes\nelectricity = 0.1473 / kWh\n"
                               "cold-water = 55 F\nhousehold-energy = 600 kWh\n";
    (void)state;
    tc_state_free_study(&c.state);
    assert_int_equal(tc_stock_read_bytes(&c.stock, "blank.ini", text, strlen(text), &c.faults), TC_OK);
    assert_int_equal(tc_stock_finish(&c.stock, &c.faults), TC_OK);
    tc_state_outdate(&c.state);
    screen_type(&c, "rblank\ra");
    assert_string_equal(list_row("electricity")->cells[0].text, "0.1473 / kWh");
    assert_int_equal(list_row("sales-tax")->cells[0].kind, TC_CELL_MISSING);
    assert_int_equal(list_row("room")->cells[0].kind, TC_CELL_MISSING);
    assert_string_not_equal(list_row("turnover")->cells[0].text, "0 /h");
    screen_type(&c, "sales-tax\r0 %\r");
    assert_int_equal(list_row("sales-tax")->cells[0].kind, TC_CELL_TEXT);
    assert_string_equal(list_row("sales-tax")->cells[0].text, "0 %");
}

/* What stands in a plan by itself was typed by nobody. */
static void test_only_what_was_typed_is_marked(void **state)
{
    (void)state;
    screen_type(&c, "a");
    assert_false(list_row("quantity")->cells[0].marks & TC_MARK_TYPED);
    assert_false(list_row("measured-room")->cells[0].marks & TC_MARK_TYPED);
    assert_false(list_row("wall-least")->cells[0].marks & TC_MARK_TYPED);
    screen_type(&c, "\033");
    screen_select(&c, "tank", 0);
    screen_type(&c, "+a");
    assert_true(list_row("quantity")->cells[0].marks & TC_MARK_TYPED);
}

/* --------------------------------------------------------------------------- tags */

/* Nothing is on offer: a digit where a part is missing is its price, and it is one of which only that is
 * known. */
static void test_a_price_where_nothing_fits(void **state)
{
    (void)state;
    c.stock.part_count = 0;
    tc_state_outdate(&c.state);
    screen_press(&c, TC_EVENT_HOME);
    screen_select(&c, "light", 0);
    assert_string_equal(screen_cell(&c, "light", 0, 0), "none on offer");
    screen_type(&c, "25");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    assert_string_equal(c.state.prompt.input.text, "25");
    screen_type(&c, "\r");
    assert_string_equal(screen_cell(&c, "light", 0, 0), "25.00");
    assert_string_equal(plan()->candidate[0].pin[TC_SLOT_LIGHT].part, "unnamed");
    screen_select(&c, "heater", 0);
    screen_type(&c, "18\r");
    const struct tc_filled *heater = &tc_state_alternative(&c.state, 0)->equipment.slot[TC_SLOT_HEATER];
    assert_non_null(heater->offer); /* with the watts that it needs */
    assert_int_equal(heater->reason.code, TC_FITS_PINNED);
    assert_false(heater->ill_fitting);
    assert_near(heater->offer->part->as.heater.power, heater->demand.heat, 1e-6);
    screen_press(&c, TC_EVENT_END); /* what is assumed of it is said */
    for (int i = 0; i < 6 && !screen_shows(&c, "of its unnamed parts only the price is known"); i++)
        screen_press(&c, TC_EVENT_PAGE_UP);
    assert_true(screen_shows(&c, "of its unnamed parts only the price is known"));
    screen_press(&c, TC_EVENT_HOME);
    screen_type(&c, "u");
    assert_string_equal(screen_cell(&c, "heater", 0, 0), "none on offer");
}

/* On the row of setups a list gives one tank a setup of its own. */
static void test_a_setup_of_its_own(void **state)
{
    (void)state;
    screen_type(&c, "gfit\r");
    screen_select(&c, "setup", 0);
    screen_type(&c, "\r");
    assert_string_equal(tc_state_list(&c.state)->picker.sheet.name, "setup");
    screen_press(&c, TC_EVENT_HOME);
    screen_type(&c, "\r");
    assert_string_equal(plan()->candidate[0].setup, c.stock.setups[0].name);
    assert_string_equal(plan()->candidate[1].setup, "");
}

/* Where a part is chosen, a digit is the price of that one. */
static void test_a_digit_is_always_the_price(void **state)
{
    (void)state;
    screen_type(&c, "gfit\r");
    screen_select(&c, "light", 0);
    screen_type(&c, "25\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    assert_near(plan()->candidate[0].pin[TC_SLOT_LIGHT].price, 25, 1e-9);
    assert_string_equal(plan()->candidate[0].pin[TC_SLOT_LIGHT].part, "");
}

/* ------------------------------------------------------------------------ pasting */

static void paste(const char *text)
{
    screen_press(&c, TC_EVENT_PASTE);
    screen_type(&c, text);
    screen_press(&c, TC_EVENT_PASTE_END);
}

static void test_pasted_text_is_no_keys(void **state)
{
    (void)state;
    screen_select(&c, "tank", 0);
    paste("quick notes:\r45\rd\t");
    assert_false(c.state.leave);
    assert_true(tc_plan_equal(plan(), &c.plan));
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    assert_true(screen_shows(&c, "Text can be pasted where a line is typed"));
    screen_type(&c, "\r");
    paste("45\r");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PROMPT);
    assert_string_equal(c.state.prompt.input.text, "45");
    screen_type(&c, "\r");
    assert_near(plan()->candidate[0].price, 45, 1e-9);
    screen_press(&c, TC_EVENT_PASTE); /* broken off */
    screen_type(&c, "\033q");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_CONFIRM);
    screen_type(&c, "\033");
}

/* Somebody who plans a wall asks about the wall: that is what the plan opens with. */
static void a_plan_with_a_wall_opens_on_the_wall(void **state)
{
    static struct tc_plan plan;
    (void)state;
    tc_plan_start(&plan);
    assert_string_equal(tc_question_at(tc_state_question_of(&plan))->name, "bill");
    plan.wall.length = 4;
    plan.wall.height = plan.wall.depth = 2;
    assert_string_equal(tc_question_at(tc_state_question_of(&plan))->name, "wall");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_plan_with_a_wall_opens_on_the_wall),
        cmocka_unit_test_setup_teardown(test_type_a_price, start, end),
        cmocka_unit_test_setup_teardown(test_refused_text_stays, start, end),
        cmocka_unit_test_setup_teardown(test_looking_is_not_typing, start, end),
        cmocka_unit_test_setup_teardown(test_price_of_one, start, end),
        cmocka_unit_test_setup_teardown(test_figures_that_are_worked_out, start, end),
        cmocka_unit_test_setup_teardown(test_undo_over_many_steps, start, end),
        cmocka_unit_test_setup_teardown(test_tanks, start, end),
        cmocka_unit_test_setup_teardown(test_regions, start, end),
        cmocka_unit_test_setup_teardown(test_tanks_are_not_without_end, start, end),
        cmocka_unit_test_setup_teardown(test_count_on_the_sheet, start, end),
        cmocka_unit_test_setup_teardown(test_shortlist_into_plan, start, end),
        cmocka_unit_test_setup_teardown(test_one_tank_twice, start, end),
        cmocka_unit_test_setup_teardown(test_setup_and_region, start, end),
        cmocka_unit_test_setup_teardown(test_list_narrowed_to_nothing, start, end),
        cmocka_unit_test_setup_teardown(test_buying, start, end),
        cmocka_unit_test_setup_teardown(test_parts, start, end),
        cmocka_unit_test_setup_teardown(test_parts_from_fit, start, end),
        cmocka_unit_test_setup_teardown(test_walls_in_the_bill, start, end),
        cmocka_unit_test_setup_teardown(test_assumptions, start, end),
        cmocka_unit_test_setup_teardown(test_every_assumption_opens, start, end),
        cmocka_unit_test_setup_teardown(test_from_any_sheet_to_any_in_two_presses, start, end),
        cmocka_unit_test_setup_teardown(test_round_the_sheets, start, end),
        cmocka_unit_test_setup_teardown(test_each_sheet_keeps_its_place, start, end),
        cmocka_unit_test_setup_teardown(test_the_row_stays_selected, start, end),
        cmocka_unit_test_setup_teardown(test_a_shorter_sheet, start, end),
        cmocka_unit_test_setup_teardown(test_find, start, end),
        cmocka_unit_test_setup_teardown(test_vary, start, end),
        cmocka_unit_test_setup_teardown(test_charts_beside_the_table, start, end),
        cmocka_unit_test_setup_teardown(test_pictures, start, end),
        cmocka_unit_test_setup_teardown(test_stopped_work, start, end),
        cmocka_unit_test_setup_teardown(test_nothing_to_compare, start, end),
        cmocka_unit_test_setup_teardown(test_a_plan_that_names_what_is_not_there, start, end),
        cmocka_unit_test_setup_teardown(test_sizes, start, end),
        cmocka_unit_test_setup_teardown(test_too_small_changes_nothing, start, end),
        cmocka_unit_test_setup_teardown(test_columns_scroll, start, end),
        cmocka_unit_test_setup_teardown(test_click, start, end),
        cmocka_unit_test_setup_teardown(test_no_memory, start, end),
        cmocka_unit_test_setup_teardown(test_count_in_the_list_of_two_alike, start, end),
        cmocka_unit_test_setup_teardown(test_parts_from_the_list, start, end),
        cmocka_unit_test_setup_teardown(test_pasted_text_is_no_keys, start, end),
        cmocka_unit_test_setup_teardown(test_a_template_shows_what_it_has, start, end),
        cmocka_unit_test_setup_teardown(test_only_what_was_typed_is_marked, start, end),
        cmocka_unit_test_setup_teardown(test_a_price_where_nothing_fits, start, end),
        cmocka_unit_test_setup_teardown(test_a_setup_of_its_own, start, end),
        cmocka_unit_test_setup_teardown(test_a_digit_is_always_the_price, start, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
