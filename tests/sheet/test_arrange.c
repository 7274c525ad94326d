/* SPDX-License-Identifier: MIT */
/* A sheet arranged by its reader shows the whole one's figures, and says what it leaves out. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdio.h>
#include <string.h>

#include "sheet/arrange.h"
#include "support/failing_malloc.h"
#include "support/sample_sheets.h"

static struct tc_sheet whole, view;
static struct tc_arrange arrange;

static int start(void **state)
{
    (void)state;
    memset(&arrange, 0, sizeof arrange);
    memset(&view, 0, sizeof view);
    sample_bill(&whole);
    return 0;
}

static int end(void **state)
{
    (void)state;
    tc_sheet_free(&view);
    tc_sheet_free(&whole);
    return 0;
}

static void make(void)
{
    tc_sheet_free(&view);
    assert_int_equal(tc_arrange_make(&view, &whole, &arrange), TC_OK);
}

/* The n-th row with a label (from 0). */
static size_t row_of(const struct tc_sheet *sheet, const char *label, int n)
{
    for (size_t r = 0; r < sheet->row_count; r++)
        if (strcmp(sheet->rows[r].label, label) == 0 && sheet->rows[r].kind != TC_ROW_GROUP && n-- == 0)
            return r;
    return sheet->row_count;
}

static bool noted(const char *text)
{
    for (size_t i = 0; i < view.note_count; i++)
        if (strstr(view.notes[i].text, text))
            return true;
    return false;
}

/* An arrangement that asks for nothing changes nothing. */
static void test_as_it_is(void **state)
{
    (void)state;
    assert_true(tc_arrange_is_none(&arrange));
    for (size_t i = 0; i < sample_count; i++) {
        tc_sheet_free(&whole);
        samples[i].make(&whole);
        make();
        assert_int_equal(view.column_count, whole.column_count);
        assert_int_equal(view.row_count, whole.row_count);
        assert_int_equal(view.note_count, whole.note_count);
        for (size_t r = 0; r < whole.row_count; r++) {
            assert_string_equal(view.rows[r].label, whole.rows[r].label);
            for (size_t c = 0;
                 whole.rows[r].cells && whole.rows[r].kind != TC_ROW_SENTENCE && c < whole.column_count; c++)
                assert_memory_equal(&view.rows[r].cells[c], &whole.rows[r].cells[c],
                                    sizeof view.rows[r].cells[c]);
        }
    }
}

static void test_hide_rows(void **state)
{
    (void)state;
    size_t row = row_of(&whole, "tank", 0);
    assert_true(tc_arrange_hide_row(&arrange, &whole, row));
    make();
    assert_int_equal(view.row_count, whole.row_count - 1);
    assert_int_equal(row_of(&view, "tank", 0), view.row_count);
    assert_true(noted("1 row is hidden here: tank."));
    /* A heading goes with the last row of its group; one row is always left. */
    int hidden = 1;
    for (size_t r = 0; r < whole.row_count; r++)
        hidden += r != row && tc_arrange_hide_row(&arrange, &whole, r);
    make();
    assert_true(hidden > 3);
    assert_int_equal(view.row_count, 2);
    assert_int_equal(view.rows[0].kind, TC_ROW_GROUP);
    assert_true(noted("rows are hidden here: tank, "));
}

static void test_hide_columns(void **state)
{
    (void)state;
    assert_true(tc_arrange_hide_column(&arrange, &whole, 1));
    make();
    assert_int_equal(view.column_count, 2);
    assert_string_equal(view.columns[1].head, whole.columns[2].head);
    size_t row = row_of(&whole, "tank", 0);
    assert_int_equal(view.rows[row].cells[1].money, whole.rows[row].cells[2].money);
    assert_true(noted("1 column is hidden here: 36-breeder."));
    assert_true(tc_arrange_hide_column(&arrange, &whole, 0));
    assert_false(tc_arrange_hide_column(&arrange, &whole, 2)); /* the last one stays */
}

/* The lowest first, the highest first, as they were; what has no figure goes last. */
static void test_sort(void **state)
{
    (void)state;
    size_t row = row_of(&whole, "tank", 0);
    assert_true(tc_arrange_sort(&arrange, &whole, row));
    make();
    for (size_t c = 1; c < view.column_count; c++)
        if (view.rows[row].cells[c].kind == TC_CELL_MONEY)
            assert_true(view.rows[row].cells[c - 1].money <= view.rows[row].cells[c].money);
    assert_true(noted("Columns are sorted by \"tank\", the lowest first."));
    assert_true(tc_arrange_sort(&arrange, &whole, row));
    make();
    for (size_t c = 1; c < view.column_count; c++)
        if (view.rows[row].cells[c].kind == TC_CELL_MONEY)
            assert_true(view.rows[row].cells[c - 1].money >= view.rows[row].cells[c].money);
    assert_true(tc_arrange_sort(&arrange, &whole, row));
    assert_true(tc_arrange_is_none(&arrange));
    for (size_t r = 0; r < whole.row_count; r++)
        if (whole.rows[r].kind == TC_ROW_GROUP || whole.rows[r].kind == TC_ROW_SENTENCE)
            assert_false(tc_arrange_sort(&arrange, &whole, r));
}

/* The third column is the second less the first, so that each line adds up across as well as down. */
static void test_compare(void **state)
{
    (void)state;
    tc_arrange_compare(&arrange, &whole, 0, 2);
    tc_arrange_hide_column(&arrange, &whole, 0); /* what is compared is shown all the same */
    make();
    assert_int_equal(view.column_count, 3);
    assert_string_equal(view.columns[2].head, "48-shallow less 29-high");
    int figures = 0;
    for (size_t r = 0; r < view.row_count; r++) {
        const struct tc_cell *cells = view.rows[r].cells;
        if (!cells || view.rows[r].kind == TC_ROW_SENTENCE)
            continue;
        if (cells[0].kind == TC_CELL_MONEY && cells[1].kind == TC_CELL_MONEY) {
            assert_int_equal(cells[2].money, cells[1].money - cells[0].money);
            figures++;
        } else {
            assert_true(cells[2].kind != TC_CELL_MONEY);
        }
        assert_null(cells[2].edit);
        assert_int_equal(cells[2].marks & ~(unsigned)TC_MARK_INCOMPLETE, 0);
    }
    assert_true(figures > 2);
}

/* Sums over yen and dollars have no difference. */
static void test_currencies_are_not_subtracted(void **state)
{
    (void)state;
    tc_sheet_free(&whole);
    sample_places(&whole);
    for (size_t from = 0; from < whole.column_count; from++)
        for (size_t to = 0; to < whole.column_count; to++) {
            if (from == to)
                continue;
            tc_arrange_compare(&arrange, &whole, from, to);
            make();
            for (size_t r = 0; r < view.row_count; r++) {
                const struct tc_cell *cells = view.rows[r].cells;
                if (cells && view.rows[r].kind != TC_ROW_SENTENCE && cells[2].kind == TC_CELL_MONEY)
                    assert_string_equal(cells[0].currency.code, cells[1].currency.code);
            }
        }
}

/* An arrangement of a sheet holds for the same sheet made again, and for one that lacks what it names. */
static void test_another_sheet(void **state)
{
    (void)state;
    tc_arrange_hide_row(&arrange, &whole, row_of(&whole, "tank", 0));
    tc_arrange_hide_column(&arrange, &whole, 1);
    tc_arrange_sort(&arrange, &whole, row_of(&whole, "tank", 0));
    tc_sheet_free(&whole);
    sample_bill(&whole);
    make();
    assert_int_equal(view.column_count, whole.column_count - 1);
    tc_sheet_free(&whole);
    sample_energy(&whole);
    make();
    assert_int_equal(view.row_count, whole.row_count);
}

/* The price of a tank less its length is nothing. */
static void test_facts_do_not_compare(void **state)
{
    (void)state;
    whole.facts = true;
    assert_false(tc_arrange_sort(&arrange, &whole, row_of(&whole, "tank", 0)));
    assert_false(tc_arrange_compare(&arrange, &whole, 0, 1));
    assert_true(tc_arrange_hide_column(&arrange, &whole, 0));
}

static void test_no_memory(void **state)
{
    (void)state;
    tc_arrange_hide_row(&arrange, &whole, row_of(&whole, "tank", 0));
    tc_arrange_compare(&arrange, &whole, 0, 1);
    for (long n = 0;; n++) {
        tc_sheet_free(&view);
        failing_malloc_start(n, false);
        enum tc_status status = tc_arrange_make(&view, &whole, &arrange);
        if (!failing_malloc_stop())
            break;
        assert_int_equal(status, TC_NO_MEMORY);
    }
    assert_int_equal(view.column_count, 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_as_it_is, start, end),
        cmocka_unit_test_setup_teardown(test_hide_rows, start, end),
        cmocka_unit_test_setup_teardown(test_hide_columns, start, end),
        cmocka_unit_test_setup_teardown(test_sort, start, end),
        cmocka_unit_test_setup_teardown(test_compare, start, end),
        cmocka_unit_test_setup_teardown(test_currencies_are_not_subtracted, start, end),
        cmocka_unit_test_setup_teardown(test_another_sheet, start, end),
        cmocka_unit_test_setup_teardown(test_facts_do_not_compare, start, end),
        cmocka_unit_test_setup_teardown(test_no_memory, start, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
