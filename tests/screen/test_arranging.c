/* SPDX-License-Identifier: MIT */
/* The keys that arrange a sheet: rows and columns hidden, sorted, compared, and what is said in full. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdio.h>
#include <string.h>

#include "screen/keymap.h"
#include "support/failing_malloc.h"
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

static const struct tc_tab *tab(void)
{
    return tc_state_tab_seen(&c.state);
}

static const char *head(size_t column)
{
    return tab()->sheet.columns[column].head;
}

static void test_hide(void **state)
{
    (void)state;
    size_t columns = tab()->sheet.column_count;
    screen_select(&c, "heater", 1);
    char hidden[64];
    snprintf(hidden, sizeof hidden, "%s", head(1));
    screen_type(&c, "R");
    assert_string_equal(screen_cell(&c, "heater", 0, 0), "");
    assert_true(screen_shows(&c, "1 row hidden"));
    screen_type(&c, "C");
    assert_int_equal(tab()->sheet.column_count, columns - 1);
    assert_true(strcmp(head(1), hidden) != 0);
    assert_true(screen_shows(&c, "1 row hidden, 1 column hidden"));
    screen_type(&c, "A");
    assert_int_equal(tab()->sheet.column_count, columns);
    assert_true(*screen_cell(&c, "heater", 0, 0) != '\0');
    assert_false(screen_shows(&c, "hidden"));
    screen_type(&c, "A");
    assert_true(screen_shows(&c, "Nothing is hidden, sorted or compared here."));
    /* It is no change of the plan. */
    assert_true(tc_plan_equal(&c.state.now.plan, &c.plan));
}

/* What is typed goes to the tank one sees, wherever its column stands. */
static void test_typing_in_a_sorted_sheet(void **state)
{
    (void)state;
    screen_select(&c, "tank", 0);
    screen_type(&c, "SS"); /* the dearest first */
    assert_true(screen_shows(&c, "sorted"));
    size_t here = tab()->position.column;
    assert_string_equal(head(here), "29-high"); /* the cursor stays with its tank */
    screen_type(&c, "999\r");
    assert_int_equal((int)c.state.now.plan.candidate[0].price, 999);
    assert_string_equal(head(0), "29-high"); /* and the columns go by the new figure */
    assert_int_equal(tab()->position.column, 0);
    screen_type(&c, "S");
    assert_false(screen_shows(&c, "sorted"));
    screen_select(&c, "tank", 0);
    screen_type(&c, "u");
    assert_true(tc_plan_equal(&c.state.now.plan, &c.plan));
}

static void test_difference(void **state)
{
    (void)state;
    screen_select(&c, "tank", 0);
    screen_type(&c, "D");
    if (tab()->whole.memory == NULL) /* more than two: asked which */
        screen_type(&c, "\r");
    assert_int_equal(tab()->sheet.column_count, 3);
    assert_non_null(strstr(head(2), "less 29-high"));
    assert_true(screen_shows(&c, "difference"));
    screen_select(&c, "tank", 2);
    screen_type(&c, "5");
    assert_true(screen_shows(&c, "Worked out, not typed"));
    screen_type(&c, "C");
    assert_int_equal(tab()->sheet.column_count, 3);
    /* The tanks beside it are typed over as ever, and the difference follows. */
    screen_select(&c, "tank", 1);
    char before[64];
    snprintf(before, sizeof before, "%s", screen_cell(&c, "tank", 0, 2));
    screen_type(&c, "777\r");
    assert_true(strcmp(screen_cell(&c, "tank", 0, 2), before) != 0);
    screen_type(&c, "A");
    assert_true(tab()->whole.memory == NULL);
}

/* An arrangement is that of one sheet, and survives going to others. */
static void test_each_sheet_has_its_own(void **state)
{
    (void)state;
    size_t columns = tab()->sheet.column_count;
    screen_select(&c, "heater", 1);
    screen_type(&c, "C\t");
    assert_false(screen_shows(&c, "hidden"));
    screen_press(&c, TC_EVENT_BACK_TAB);
    assert_int_equal(tab()->sheet.column_count, columns - 1);
    screen_type(&c, "+"); /* the plan changes, the sheet is made again */
    assert_int_equal(tab()->sheet.column_count, columns - 1);
}

/* One key opens the refusals of the sheet fit, and closes them. */
static void test_in_full(void **state)
{
    (void)state;
    screen_type(&c, "i");
    assert_true(screen_shows(&c, "fit and shortlist say more"));
    while (strcmp(tc_state_question(&c.state)->name, "fit") != 0)
        screen_type(&c, "\t");
    size_t rows = tab()->sheet.row_count;
    screen_type(&c, "i");
    assert_true(tab()->sheet.row_count > rows);
    const struct tc_line *line = &tab()->body.lines[tab()->position.line];
    assert_int_equal(line->kind, TC_LINE_SENTENCE); /* one is where they begin */
    assert_true(screen_shows(&c, "Why: "));
    screen_type(&c, "i");
    assert_int_equal(tab()->sheet.row_count, rows);
}

/* The next missing figure is found where it is hidden, too. */
static void test_missing_is_not_hidden(void **state)
{
    (void)state;
    screen_select(&c, "heater", 0);
    screen_type(&c, "Rj");
    assert_false(screen_shows(&c, "hidden"));
}

static void test_no_memory(void **state)
{
    (void)state;
    screen_select(&c, "heater", 1);
    for (long n = 0; n < 200; n++) {
        failing_malloc_start(n, false);
        screen_type(&c, "C");
        bool failed = failing_malloc_stop();
        if (!failed)
            return;
        assert_true(c.state.failed || c.state.message[0]);
        screen_case_free(&c);
        screen_case_start(&c, 100, 40);
        screen_select(&c, "heater", 1);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_hide, start, end),
        cmocka_unit_test_setup_teardown(test_typing_in_a_sorted_sheet, start, end),
        cmocka_unit_test_setup_teardown(test_difference, start, end),
        cmocka_unit_test_setup_teardown(test_each_sheet_has_its_own, start, end),
        cmocka_unit_test_setup_teardown(test_in_full, start, end),
        cmocka_unit_test_setup_teardown(test_missing_is_not_hidden, start, end),
        cmocka_unit_test_setup_teardown(test_no_memory, start, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
