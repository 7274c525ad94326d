/* SPDX-License-Identifier: MIT */
/* The builders of sheet.h: what they keep, what they refuse, and how they fail. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "sheet/sheet.h"
#include "support/failing_malloc.h"
#include "support/sample_sheets.h"

static const struct tc_currency usd = {"USD", 2};

static void test_empty(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    tc_sheet_start(&sheet, "none", 0);
    assert_string_equal(sheet.name, "none");
    assert_string_equal(sheet.title, "");
    assert_string_equal(sheet.assumptions, "");
    assert_string_equal(sheet.row_head, "");
    assert_int_equal(sheet.column_count, 0);
    assert_int_equal(sheet.row_count, 0);
    assert_null(sheet.drawing);
    assert_false(sheet.failed);
    tc_sheet_free(&sheet);
    tc_sheet_free(&sheet); /* a freed sheet is an empty one */
    assert_null(sheet.memory);
}

static void test_texts_are_copied_and_cleaned(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    char text[32] = "tank\033[31m\tA\n";
    tc_sheet_start(&sheet, text, 1);
    tc_sheet_head(&sheet, text, "m² – ½", text);
    tc_sheet_column(&sheet, 0, text, text);
    tc_sheet_row(&sheet, TC_ROW_LINE, text, "in²");
    tc_sheet_text(&sheet, 0, text);
    tc_sheet_edit(&sheet, 0, "candidate 1/price");
    tc_sheet_note(&sheet, TC_NOTE_REMARK, "%s of %d", text, 7);
    memset(text, 'x', sizeof text - 1);
    const char *wanted = "tank?[31m A?";
    assert_string_equal(sheet.name, wanted);
    assert_string_equal(sheet.title, wanted);
    assert_string_equal(sheet.assumptions, "m² – ½");
    assert_string_equal(sheet.row_head, wanted);
    assert_string_equal(sheet.columns[0].head, wanted);
    assert_string_equal(sheet.columns[0].subhead, wanted);
    assert_string_equal(sheet.rows[0].label, wanted);
    assert_string_equal(sheet.rows[0].unit, "in²");
    assert_string_equal(sheet.rows[0].cells[0].text, wanted);
    assert_string_equal(sheet.rows[0].cells[0].edit, "candidate 1/price");
    assert_string_equal(sheet.notes[0].text, "tank?[31m A? of 7");
    tc_sheet_free(&sheet);
}

static void test_long_texts(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    static char text[100001];
    memset(text, 'x', sizeof text - 1);
    tc_sheet_start(&sheet, "long", 1);
    tc_sheet_note(&sheet, TC_NOTE_FINDING, "%s!", text);
    assert_int_equal(strlen(sheet.notes[0].text), sizeof text);
    assert_int_equal(strlen(tc_sheet_format(&sheet, "%s%s", text, text)), 2 * (sizeof text - 1));
    memset(text, 0xFF, sizeof text - 1); /* no character at all: each becomes a sign of one byte */
    assert_int_equal(strlen(tc_sheet_copy(&sheet, text)), sizeof text - 1);
    assert_false(sheet.failed);
    tc_sheet_free(&sheet);
}

static void test_cells(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    tc_sheet_start(&sheet, "cells", 5);
    tc_sheet_row(&sheet, TC_ROW_LINE, "a", "");
    tc_sheet_money(&sheet, 0, 4510, usd);
    tc_sheet_number(&sheet, 1, 2.5, 1);
    tc_sheet_text(&sheet, 2, "met");
    tc_sheet_missing(&sheet, 3, "none fits");
    tc_sheet_mark(&sheet, 0, TC_MARK_TYPED);
    tc_sheet_mark(&sheet, 0, TC_MARK_OVER);
    const struct tc_cell *cells = sheet.rows[0].cells;
    assert_int_equal(cells[0].kind, TC_CELL_MONEY);
    assert_int_equal(cells[0].money, 4510);
    assert_string_equal(cells[0].currency.code, "USD");
    assert_int_equal(cells[0].marks, TC_MARK_TYPED | TC_MARK_OVER);
    assert_int_equal(cells[1].kind, TC_CELL_NUMBER);
    assert_true(cells[1].number == 2.5);
    assert_int_equal(cells[1].decimals, 1);
    assert_int_equal(cells[2].kind, TC_CELL_TEXT);
    assert_int_equal(cells[3].kind, TC_CELL_MISSING);
    assert_string_equal(cells[3].text, "none fits");
    assert_int_equal(cells[4].kind, TC_CELL_EMPTY);
    assert_null(cells[4].text);
    assert_null(cells[4].edit);
    assert_int_equal(cells[4].marks, 0);
    tc_sheet_free(&sheet);
}

/* Columns that are not there, cells of groups, and cells before the first row are passed over. */
static void test_out_of_range(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    tc_sheet_start(&sheet, "range", 2);
    tc_sheet_money(&sheet, 0, 1, usd); /* no row yet */
    tc_sheet_mark_lowest(&sheet);
    tc_sheet_column(&sheet, 2, "no", "such");
    tc_sheet_row(&sheet, TC_ROW_GROUP, "group", "");
    assert_null(sheet.rows[0].cells);
    tc_sheet_text(&sheet, 0, "nowhere");
    tc_sheet_row(&sheet, TC_ROW_LINE, "line", "");
    tc_sheet_number(&sheet, 2, 1, 0);
    tc_sheet_text(&sheet, SIZE_MAX, "far out");
    tc_sheet_mark(&sheet, 2, TC_MARK_BEST);
    tc_sheet_edit(&sheet, 2, "path");
    assert_int_equal(sheet.rows[1].cells[0].kind, TC_CELL_EMPTY);
    assert_int_equal(sheet.rows[1].cells[1].kind, TC_CELL_EMPTY);
    tc_sheet_box(&sheet, (struct tc_box){0, 0, 1, 1, 'A', "no drawing"});
    assert_null(sheet.drawing);
    assert_false(sheet.failed);
    tc_sheet_free(&sheet);
}

static void test_sentence(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    tc_sheet_start(&sheet, "sentence", 2);
    tc_sheet_sentence(&sheet, "why", "because");
    assert_int_equal(sheet.rows[0].kind, TC_ROW_SENTENCE);
    assert_string_equal(sheet.rows[0].label, "why");
    assert_string_equal(sheet.rows[0].cells[0].text, "because");
    assert_int_equal(sheet.rows[0].cells[1].kind, TC_CELL_EMPTY);
    tc_sheet_free(&sheet);
}

/* Rows, notes, charts and boxes grow past their first room, and the earlier ones stay. */
static void test_growth(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    enum { COUNT = 300 };
    tc_sheet_start(&sheet, "growth", 1);
    tc_sheet_drawing(&sheet, "drawing", 1, 1, "cm", 0.01);
    for (int i = 0; i < COUNT; i++) {
        tc_sheet_row(&sheet, TC_ROW_LINE, tc_sheet_format(&sheet, "row %d", i), "");
        tc_sheet_number(&sheet, 0, i, 0);
        tc_sheet_note(&sheet, TC_NOTE_REMARK, "note %d", i);
        tc_sheet_box(&sheet, (struct tc_box){i, 0, 1, 1, 'A', "box"});
        assert_non_null(tc_sheet_chart(&sheet, TC_CHART_LINES, 1, (size_t)i));
    }
    assert_int_equal(sheet.row_count, COUNT);
    assert_int_equal(sheet.note_count, COUNT);
    assert_int_equal(sheet.chart_count, COUNT);
    assert_int_equal(sheet.drawing->box_count, COUNT);
    for (int i = 0; i < COUNT; i++) {
        char text[32];
        snprintf(text, sizeof text, "row %d", i);
        assert_string_equal(sheet.rows[i].label, text);
        assert_true(sheet.rows[i].cells[0].number == i);
        snprintf(text, sizeof text, "note %d", i);
        assert_string_equal(sheet.notes[i].text, text);
        assert_true(sheet.drawing->boxes[i].x == i);
        assert_int_equal(sheet.charts[i].point_count, i);
    }
    tc_sheet_free(&sheet);
}

/* Fills a row and asks which column is marked as best; -1 for none. */
static int best_of(const double *figures, unsigned marks, void (*mark_best)(struct tc_sheet *))
{
    struct tc_sheet sheet;
    int best = -1;
    tc_sheet_start(&sheet, "best", 3);
    tc_sheet_row(&sheet, TC_ROW_LINE, "figures", "");
    for (size_t i = 0; i < 3; i++)
        if (!isnan(figures[i]))
            tc_sheet_number(&sheet, i, figures[i], 0);
    tc_sheet_mark(&sheet, 0, marks);
    mark_best(&sheet);
    for (int i = 0; i < 3; i++) {
        if (sheet.rows[0].cells[i].marks & TC_MARK_BEST) {
            assert_int_equal(best, -1);
            best = i;
        }
    }
    tc_sheet_free(&sheet);
    return best;
}

static void test_best(void **state)
{
    (void)state;
    const double plain[] = {1, 2, 3}, shared[] = {1, 1, 3}, single[] = {NAN, 2, NAN}, two[] = {NAN, 4, 3},
                 late[] = {5, 1, 1};
    assert_int_equal(best_of(plain, 0, tc_sheet_mark_lowest), 0);
    assert_int_equal(best_of(plain, 0, tc_sheet_mark_highest), 2);
    assert_int_equal(best_of(shared, 0, tc_sheet_mark_lowest), -1);
    assert_int_equal(best_of(shared, 0, tc_sheet_mark_highest), 2);
    assert_int_equal(best_of(late, 0, tc_sheet_mark_lowest), -1);
    assert_int_equal(best_of(late, 0, tc_sheet_mark_highest), 0);
    assert_int_equal(best_of(single, 0, tc_sheet_mark_lowest), -1);
    assert_int_equal(best_of(two, 0, tc_sheet_mark_lowest), 2);
    /* A sum that lacks a figure looks cheap: it is not compared. */
    assert_int_equal(best_of(plain, TC_MARK_INCOMPLETE, tc_sheet_mark_lowest), 1);
    assert_int_equal(best_of(plain, TC_MARK_TYPED, tc_sheet_mark_lowest), 0);
}

static void test_best_money(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    tc_sheet_start(&sheet, "best", 3);
    tc_sheet_row(&sheet, TC_ROW_TOTAL, "money", "");
    tc_sheet_money(&sheet, 0, 300, usd);
    tc_sheet_money(&sheet, 1, -200, usd);
    tc_sheet_missing(&sheet, 2, "no price");
    tc_sheet_mark_lowest(&sheet);
    assert_int_equal(sheet.rows[0].cells[0].marks, 0);
    assert_int_equal(sheet.rows[0].cells[1].marks, TC_MARK_BEST);
    assert_int_equal(sheet.rows[0].cells[2].marks, 0);
    tc_sheet_free(&sheet);
}

/* A figure that is not a number is not the best, though nothing is less than it. */
static void test_best_of_no_number(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    tc_sheet_start(&sheet, "best", 3);
    tc_sheet_row(&sheet, TC_ROW_LINE, "figures", "");
    tc_sheet_number(&sheet, 0, NAN, 0);
    tc_sheet_number(&sheet, 1, 4, 0);
    tc_sheet_number(&sheet, 2, 3, 0);
    tc_sheet_mark_lowest(&sheet);
    assert_int_equal(sheet.rows[0].cells[0].marks, 0);
    assert_int_equal(sheet.rows[0].cells[2].marks, TC_MARK_BEST);
    tc_sheet_free(&sheet);
}

static void test_chart_starts_blank(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    tc_sheet_start(&sheet, "chart", 0);
    struct tc_chart *chart = tc_sheet_chart(&sheet, TC_CHART_SPANS, 2, 3);
    assert_non_null(chart);
    assert_int_equal(chart->kind, TC_CHART_SPANS);
    assert_string_equal(chart->title, "");
    assert_string_equal(chart->x_title, "");
    assert_string_equal(chart->y_title, "");
    assert_string_equal(chart->below, "");
    assert_string_equal(chart->above, "");
    for (size_t i = 0; i < 3; i++) {
        assert_string_equal(chart->x_labels[i], "");
        assert_true(chart->x[i] == (double)i);
        assert_true(chart->series[0].values[i] == 0 && chart->series[1].values[i] == 0);
    }
    assert_string_equal(chart->series[1].name, "");
    tc_sheet_free(&sheet);
}

static void test_drawing(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    char label[] = "tank\033";
    tc_sheet_start(&sheet, "drawing", 0);
    tc_sheet_drawing(&sheet, "a wall", 3.5, 2.4, "in", 0.0254);
    tc_sheet_box(&sheet, (struct tc_box){1, 2, 3, 4, 'A', label});
    tc_sheet_box(&sheet, (struct tc_box){0, 0, 1, 1, ' ', NULL});
    label[0] = 'x';
    assert_string_equal(sheet.drawing->title, "a wall");
    assert_string_equal(sheet.drawing->unit, "in");
    assert_true(sheet.drawing->width == 3.5 && sheet.drawing->height == 2.4);
    assert_string_equal(sheet.drawing->boxes[0].label, "tank?");
    assert_true(sheet.drawing->boxes[0].height == 4);
    assert_null(sheet.drawing->boxes[1].label);
    tc_sheet_free(&sheet);
}

/* Counts no memory could hold fail cleanly, and the sheet does nothing from then on. */
static void test_too_much(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    tc_sheet_start(&sheet, "large", 1);
    tc_sheet_row(&sheet, TC_ROW_LINE, "before", "");
    assert_null(tc_sheet_memory(&sheet, SIZE_MAX / 2, 4));
    assert_true(sheet.failed);
    assert_null(tc_sheet_memory(&sheet, 1, 1));
    assert_string_equal(tc_sheet_copy(&sheet, "text"), "");
    assert_string_equal(tc_sheet_format(&sheet, "%d", 1), "");
    assert_null(tc_sheet_chart(&sheet, TC_CHART_BARS, 1, 1));
    tc_sheet_row(&sheet, TC_ROW_LINE, "after", "");
    tc_sheet_note(&sheet, TC_NOTE_REMARK, "after");
    assert_int_equal(sheet.row_count, 1);
    assert_int_equal(sheet.note_count, 0);
    tc_sheet_free(&sheet);
    assert_false(sheet.failed);
}

/* Whichever allocation fails, what readers see is whole: counts match what is there, no text is NULL. */
static void assert_readable(const struct tc_sheet *sheet)
{
    assert_non_null(sheet->title);
    for (size_t c = 0; c < sheet->column_count; c++)
        assert_non_null(sheet->columns[c].head);
    for (size_t r = 0; r < sheet->row_count; r++) {
        assert_non_null(sheet->rows[r].label);
        assert_int_equal(sheet->rows[r].cells == NULL, sheet->rows[r].kind == TC_ROW_GROUP);
    }
    for (size_t i = 0; i < sheet->note_count; i++)
        assert_non_null(sheet->notes[i].text);
    for (size_t i = 0; i < sheet->chart_count; i++)
        assert_non_null(sheet->charts[i].series[0].values);
}

static void test_each_allocation_fails(void **state)
{
    (void)state;
    for (size_t i = 0; i < sample_count; i++) {
        for (long n = 0;; n++) {
            struct tc_sheet sheet;
            failing_malloc_start(n, n % 2);
            samples[i].make(&sheet);
            bool failed = failing_malloc_stop();
            assert_int_equal(sheet.failed, failed);
            assert_readable(&sheet);
            tc_sheet_free(&sheet);
            if (!failed)
                break;
        }
    }
}

static void test_mark_words(void **state)
{
    (void)state;
    assert_string_equal(tc_mark_word(TC_MARK_BEST), "best");
    assert_string_equal(tc_mark_word(TC_MARK_TYPED), "typed");
    assert_string_equal(tc_mark_word(TC_MARK_SHORT), "short");
    assert_string_equal(tc_mark_word(TC_MARK_INCOMPLETE), "incomplete");
    assert_string_equal(tc_mark_word(TC_MARK_PINNED), "pinned");
    assert_string_equal(tc_mark_word(TC_MARK_OVER), "over");
    assert_string_equal(tc_mark_word((enum tc_mark)(TC_MARK_BEST | TC_MARK_OVER)), "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_empty),
        cmocka_unit_test(test_texts_are_copied_and_cleaned),
        cmocka_unit_test(test_long_texts),
        cmocka_unit_test(test_cells),
        cmocka_unit_test(test_out_of_range),
        cmocka_unit_test(test_sentence),
        cmocka_unit_test(test_growth),
        cmocka_unit_test(test_best),
        cmocka_unit_test(test_best_money),
        cmocka_unit_test(test_best_of_no_number),
        cmocka_unit_test(test_chart_starts_blank),
        cmocka_unit_test(test_drawing),
        cmocka_unit_test(test_too_much),
        cmocka_unit_test(test_each_allocation_fails),
        cmocka_unit_test(test_mark_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
