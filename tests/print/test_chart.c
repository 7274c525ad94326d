/* SPDX-License-Identifier: MIT */
/* Charts: the golden files show them whole; here, that what they show is true to the figures. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "print/chart.h"
#include "print/series.h"
#include "support/sample_sheets.h"

/* How many cells of a row show a sign. */
static int signs_in_row(const struct tc_canvas *canvas, int row, const char *sign)
{
    int count = 0;
    for (int column = 0; column < canvas->width; column++)
        count += strcmp(tc_canvas_at(canvas, column, row)->text, sign) == 0;
    return count;
}

static int signs_in_all(const struct tc_canvas *canvas, const char *sign)
{
    int count = 0;
    for (int row = 0; row < canvas->height; row++)
        count += signs_in_row(canvas, row, sign);
    return count;
}

static int column_of(const struct tc_canvas *canvas, int row, const char *sign)
{
    for (int column = 0; column < canvas->width; column++)
        if (strcmp(tc_canvas_at(canvas, column, row)->text, sign) == 0)
            return column;
    return -1;
}

/* The text of a row, with blanks. */
static const char *row_text(const struct tc_canvas *canvas, int row)
{
    static char text[4096];
    text[0] = '\0';
    for (int column = 0; column < canvas->width; column++)
        strncat(text, tc_canvas_at(canvas, column, row)->text, sizeof text - strlen(text) - 1);
    return text;
}

/* A sheet that holds one chart. */
static struct tc_chart *start(struct tc_sheet *sheet, enum tc_chart_kind kind, size_t series, size_t points)
{
    tc_sheet_start(sheet, "chart", 0);
    struct tc_chart *chart = tc_sheet_chart(sheet, kind, series, points);
    assert_non_null(chart);
    return chart;
}

static void test_bars_are_as_long_as_their_figures(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    sample_energy(&sheet);
    const struct tc_chart *chart = &sheet.charts[0];
    for (int width = 30; width < 120; width += 7) {
        assert_int_equal(tc_chart_draw(&canvas, chart, width, 20, false), TC_OK);
        assert_int_equal(canvas.width, width);
        int first = canvas.height - 12;
        int most = 0;
        for (int s = 0; s < 3; s++)
            most += signs_in_row(&canvas, first, tc_series_fill((size_t)s, false));
        double each = most / 78.2; /* cells a kWh; January has the most */
        assert_int_equal(most, width - 9);
        for (int m = 0; m < 12; m++)
            for (size_t s = 0; s < 3; s++) {
                int cells = signs_in_row(&canvas, first + m, tc_series_fill(s, false));
                assert_true(fabs(cells - chart->series[s].values[m] * each) <= 1.0);
            }
    }
    tc_canvas_free(&canvas);
    tc_sheet_free(&sheet);
}

static void test_bars_below_zero(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    struct tc_chart *chart = start(&sheet, TC_CHART_BARS, 2, 3);
    chart->series[0].values[0] = 10;
    chart->series[1].values[0] = -10;
    chart->series[0].values[1] = -5;
    chart->series[0].values[2] = chart->series[1].values[2] = NAN;
    assert_int_equal(tc_chart_draw(&canvas, chart, 44, 20, true), TC_OK);
    int row = canvas.height - 3;
    int gain = signs_in_row(&canvas, row, "."), cost = signs_in_row(&canvas, row, "#");
    assert_in_range(gain, cost - 1, cost + 1);
    assert_true(column_of(&canvas, row, ".") < column_of(&canvas, row, "#"));
    assert_in_range(signs_in_row(&canvas, row + 1, "#"), cost / 2 - 1, cost / 2 + 1);
    assert_int_equal(column_of(&canvas, row + 1, "#") + signs_in_row(&canvas, row + 1, "#"),
                     column_of(&canvas, row, "#"));           /* it ends at zero */
    assert_non_null(strstr(row_text(&canvas, row + 2), "-")); /* no figure at all */
    assert_int_equal(signs_in_row(&canvas, row + 2, "#"), 0);
    tc_canvas_free(&canvas);
    tc_sheet_free(&sheet);
}

/* The range about a sum stands below its bar, on the same scale; the ends of it are no parts of the bar. */
static void test_bars_with_a_band(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    struct tc_chart *chart = start(&sheet, TC_CHART_BARS, 4, 2);
    chart->band = "likely range";
    for (int i = 0; i < 2; i++) {
        chart->series[0].values[i] = 30;
        chart->series[1].values[i] = 20;
        chart->series[2].values[i] = i == 0 ? 40 : NAN;
        chart->series[3].values[i] = i == 0 ? 100 : NAN;
    }
    assert_int_equal(tc_chart_draw(&canvas, chart, 60, 20, true), TC_OK);
    int bar = canvas.height - 4, band = bar + 1;
    assert_non_null(strstr(row_text(&canvas, bar - 1), "likely range"));
    assert_non_null(strstr(row_text(&canvas, bar), "50")); /* the sum, not 190 */
    int first = column_of(&canvas, bar, "#"), most = signs_in_row(&canvas, bar, "#");
    int second = signs_in_row(&canvas, bar, "."), sum = column_of(&canvas, band, "+");
    assert_in_range(most * 2, second * 3 - 2, second * 3 + 2);
    assert_in_range(sum, first + most + second - 1, first + most + second + 1);
    int low = column_of(&canvas, band, "|"), cells = most + second; /* of 50 */
    assert_in_range(low, first + cells * 40 / 50 - 1, first + cells * 40 / 50 + 1);
    assert_int_equal(signs_in_row(&canvas, band, "|"), 2);
    assert_int_equal(signs_in_row(&canvas, band + 1, "#"), most);
    assert_int_equal(signs_in_row(&canvas, band + 2, "|"), 0); /* not known: none */
    tc_canvas_free(&canvas);
    tc_sheet_free(&sheet);
}

/* One end alone is a point; without a middle there is no line for it. */
static void test_spans_without(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    struct tc_chart *chart = start(&sheet, TC_CHART_SPANS, 2, 2);
    chart->middle = NAN;
    chart->series[0].values[0] = 30;
    chart->series[1].values[0] = 50;
    chart->series[0].values[1] = 40;
    chart->series[1].values[1] = NAN;
    assert_int_equal(tc_chart_draw(&canvas, chart, 60, 20, true), TC_OK);
    int row = canvas.height - 4;
    assert_int_equal(signs_in_all(&canvas, "|"), 0);
    int low = column_of(&canvas, row, "o"), high = column_of(&canvas, row, "x");
    assert_in_range(column_of(&canvas, row + 1, "o"), (low + high) / 2 - 1, (low + high) / 2 + 1);
    assert_int_equal(signs_in_row(&canvas, row, "-"), high - low - 1);
    assert_int_equal(signs_in_row(&canvas, row + 1, "x") + signs_in_row(&canvas, row + 1, "-"), 0);
    tc_canvas_free(&canvas);
    tc_sheet_free(&sheet);
}

/* Eighths of a block and dots of braille, where the device has them: never in ASCII. */
static void test_fine_strokes(void **state)
{
    (void)state;
    struct tc_sheet sheet, lines;
    struct tc_canvas canvas = {.fine = true};
    struct tc_chart *chart = start(&sheet, TC_CHART_BARS, 1, 3);
    chart->series[0].values[0] = 80;
    chart->series[0].values[1] = 40.5;
    chart->series[0].values[2] = 40;
    assert_int_equal(tc_chart_draw(&canvas, chart, 80 + 4, 20, false), TC_OK); /* 80 columns of bar */
    int row = canvas.height - 3;
    assert_int_equal(signs_in_row(&canvas, row, "█"), 80);
    assert_int_equal(signs_in_row(&canvas, row + 1, "█"), 40);
    assert_int_equal(signs_in_row(&canvas, row + 1, "▌"), 1);
    assert_int_equal(signs_in_row(&canvas, row + 2, "█"), 40);
    assert_int_equal(signs_in_row(&canvas, row + 2, "▌"), 0);
    chart = start(&lines, TC_CHART_LINES, 1, 2);
    chart->series[0].values[1] = 100;
    chart->x[1] = 1;
    assert_int_equal(tc_chart_draw(&canvas, chart, 60, 20, false), TC_OK);
    int dots = 0;
    for (int r = 0; r < canvas.height; r++)
        for (int c = 0; c < canvas.width; c++)
            dots += strncmp(tc_canvas_at(&canvas, c, r)->text, "\xE2\xA0", 2) == 0 ||
                    strncmp(tc_canvas_at(&canvas, c, r)->text, "\xE2\xA1", 2) == 0 ||
                    strncmp(tc_canvas_at(&canvas, c, r)->text, "\xE2\xA2", 2) == 0;
    assert_true(dots > 30);
    assert_int_equal(signs_in_all(&canvas, "·"), 0);
    assert_int_equal(tc_chart_draw(&canvas, chart, 60, 20, true), TC_OK);
    for (int r = 0; r < canvas.height; r++)
        for (int c = 0; c < canvas.width; c++)
            assert_true((unsigned char)tc_canvas_at(&canvas, c, r)->text[0] < 0x80);
    tc_canvas_free(&canvas);
    tc_sheet_free(&sheet);
    tc_sheet_free(&lines);
}

/* Where a series' points stand: further up for more, further right for later. */
static void test_lines_keep_their_order(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    struct tc_chart *chart = start(&sheet, TC_CHART_LINES, 1, 6);
    for (int i = 0; i < 6; i++)
        chart->series[0].values[i] = 100 * i;
    assert_int_equal(tc_chart_draw(&canvas, chart, 60, 26, true), TC_OK);
    int last_row = -1, found = 0;
    for (int row = 0; row < canvas.height; row++) {
        int column = column_of(&canvas, row, "o");
        if (column < 0)
            continue;
        if (last_row >= 0) { /* evenly spaced figures stand evenly spaced */
            assert_int_equal(row - last_row, (canvas.height - 4 - 1) / 5);
        }
        last_row = row;
        found++;
    }
    assert_int_equal(found, 6);
    tc_canvas_free(&canvas);
    tc_sheet_free(&sheet);
}

/* A point stands in the row of its figure: beside the same figure of the axis. */
static void test_lines_agree_with_their_axis(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    struct tc_chart *chart = start(&sheet, TC_CHART_LINES, 1, 3);
    chart->series[0].values[0] = 0;
    chart->series[0].values[1] = 500;
    chart->series[0].values[2] = 1500;
    for (int height = 10; height < 50; height++) {
        assert_int_equal(tc_chart_draw(&canvas, chart, 60, height, true), TC_OK);
        assert_in_range(canvas.height, 8, height);
        int agreed = 0;
        for (int row = 0; row < canvas.height; row++) {
            const char *text = row_text(&canvas, row);
            bool point = column_of(&canvas, row, "o") >= 0;
            if (strstr(text, " 500 +") || strstr(text, " 0 +") || strstr(text, "1 500 +")) {
                assert_true(point);
                agreed++;
            }
        }
        assert_in_range(agreed, 1, 3); /* few rows leave few figures, but zero is always there */
    }
    tc_canvas_free(&canvas);
    tc_sheet_free(&sheet);
}

static void test_lines_that_meet(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    struct tc_chart *chart = start(&sheet, TC_CHART_LINES, 2, 3);
    const double a[] = {0, 50, 100}, b[] = {100, 50, 0};
    memcpy(chart->series[0].values, a, sizeof a);
    memcpy(chart->series[1].values, b, sizeof b);
    chart->series[0].name = "rising";
    chart->series[1].name = "falling";
    assert_int_equal(tc_chart_draw(&canvas, chart, 60, 20, false), TC_OK);
    assert_int_equal(signs_in_all(&canvas, tc_series_meeting(false)), 1);
    assert_int_equal(signs_in_all(&canvas, tc_series_point(0, false)), 2 + 1); /* and once beside its name */
    assert_int_equal(signs_in_all(&canvas, tc_series_point(1, false)), 2 + 1);
    int row = 0;
    while (!strstr(row_text(&canvas, row), "rising"))
        row++;
    assert_non_null(strstr(row_text(&canvas, row), "● ")); /* the name stands where its line ends */
    while (!strstr(row_text(&canvas, row), "falling"))
        row++; /* and the other further down */
    tc_canvas_free(&canvas);
    tc_sheet_free(&sheet);
}

/* Points stand in the order of their figures, the first series over the second, with its names beside it. */
static void test_points(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    struct tc_chart *chart = start(&sheet, TC_CHART_POINTS, 2, 4);
    const double x[] = {900, 300, 600, 600}, y[] = {90, 30, 60, 60};
    static const char *const names[] = {"dear", "cheap", "middle", "beaten"};
    chart->series[0].name = "not beaten";
    chart->series[1].name = "others";
    for (size_t i = 0; i < 4; i++) {
        chart->x[i] = x[i];
        chart->x_labels[i] = names[i];
        chart->series[0].values[i] = i < 3 ? y[i] : NAN;
        chart->series[1].values[i] = i < 3 ? NAN : y[i];
    }
    for (int ascii = 0; ascii < 2; ascii++) {
        const char *sign = tc_series_point(0, ascii), *other = tc_series_point(1, ascii);
        assert_int_equal(tc_chart_draw(&canvas, chart, 80, 20, ascii), TC_OK);
        assert_in_range(canvas.height, 8, 20);
        int rows[3], columns[3];
        for (int i = 0; i < 3; i++) {
            rows[i] = 1;
            while (!strstr(row_text(&canvas, rows[i]), names[i]))
                rows[i]++;
            columns[i] = column_of(&canvas, rows[i], sign);
            assert_true(columns[i] > 0);
        }
        assert_true(rows[0] < rows[2] && rows[2] < rows[1]);
        assert_true(columns[1] < columns[2] && columns[2] < columns[0]);
        assert_in_range(rows[0] + rows[1] - 2 * rows[2] + 1, 0, 2); /* evenly spaced figures, to a cell */
        assert_in_range(columns[0] + columns[1] - 2 * columns[2] + 1, 0, 2);
        /* The point of the other series lies under one of the first, and only the legend shows its sign. */
        assert_int_equal(signs_in_row(&canvas, canvas.height - 1, other), 1);
        assert_int_equal(column_of(&canvas, rows[2], other), -1);
        assert_null(strstr(row_text(&canvas, rows[2]), "beaten"));
    }
    tc_canvas_free(&canvas);
    tc_sheet_free(&sheet);
}

/* Missing figures leave a gap, and names are shown though lines end together. */
static void test_lines_with_gaps(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    struct tc_chart *chart = start(&sheet, TC_CHART_LINES, 5, 5);
    static const char *const names[] = {"one", "two", "three", "four", "fifth"};
    for (size_t s = 0; s < 5; s++) {
        chart->series[s].name = names[s];
        for (size_t i = 0; i < 5; i++)
            chart->series[s].values[i] = s == 4 || (s == 0 && i == 2) ? NAN : 10;
    }
    assert_int_equal(tc_chart_draw(&canvas, chart, 60, 12, true), TC_OK);
    for (size_t s = 0; s < 5; s++) {
        int rows = 0;
        for (int row = 0; row < canvas.height; row++)
            rows += strstr(row_text(&canvas, row), names[s]) != NULL;
        assert_int_equal(rows, 1);
    }
    tc_canvas_free(&canvas);
    tc_sheet_free(&sheet);
}

/* Spans reach from figure to figure of their axis. */
static void test_spans_agree_with_their_axis(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    struct tc_chart *chart = start(&sheet, TC_CHART_SPANS, 2, 2);
    chart->x_labels[0] = "here";
    chart->x_labels[1] = "there";
    chart->series[0].values[0] = -100;
    chart->series[1].values[0] = 200;
    chart->series[0].values[1] = 100;
    chart->series[1].values[1] = 0;
    chart->middle = 50;
    chart->below = "loss";
    for (int width = 50; width < 130; width += 9) {
        assert_int_equal(tc_chart_draw(&canvas, chart, width, 20, true), TC_OK);
        int axis = canvas.height - 2, row = canvas.height - 4;
        int left = column_of(&canvas, row, "o"), right = column_of(&canvas, row, "x");
        assert_int_equal(right, width - 1);
        assert_string_equal(tc_canvas_at(&canvas, left, axis)->text, "+");
        assert_string_equal(tc_canvas_at(&canvas, right, axis)->text, "+");
        int high = column_of(&canvas, row + 1, "o"), zero = column_of(&canvas, row + 1, "x");
        assert_true(zero < high);
        assert_true(fabs(zero - (left + (right - left) / 3.0)) <= 1);
        assert_true(fabs(high - (left + (right - left) * 2 / 3.0)) <= 1);
        assert_int_equal(column_of(&canvas, row + 1, "|"), -1); /* the middle lies under the span */
    }
    tc_canvas_free(&canvas);
    tc_sheet_free(&sheet);
}

static void test_signs_differ(void **state)
{
    (void)state;
    for (int ascii = 0; ascii < 2; ascii++) {
        for (size_t i = 0; i < 20; i++) {
            assert_int_equal(tc_width(tc_series_point(i, ascii)), 1);
            assert_int_equal(tc_width(tc_series_fill(i, ascii)), 1);
            assert_string_not_equal(tc_series_point(i, ascii), tc_series_meeting(ascii));
            for (size_t k = 0; k < i; k++) {
                assert_string_not_equal(tc_series_point(i, ascii), tc_series_point(k, ascii));
                assert_string_not_equal(tc_series_fill(i, ascii), tc_series_fill(k, ascii));
            }
        }
    }
    for (size_t i = 0; i < 100; i++)
        assert_in_range(tc_series_tone(i), TC_TONE_SERIES, TC_TONE_COUNT - 1);
}

/* Charts of all kinds with nothing in them, or far too much, at all sizes. */
static void test_odd_charts(void **state)
{
    (void)state;
    const size_t counts[] = {0, 1, 2, 40};
    for (int kind = TC_CHART_BARS; kind <= TC_CHART_SPANS; kind++) {
        for (size_t s = 0; s < 4; s++) {
            for (size_t p = 0; p < 4; p++) {
                struct tc_sheet sheet;
                struct tc_canvas canvas = TC_CANVAS_EMPTY;
                struct tc_chart *chart = start(&sheet, (enum tc_chart_kind)kind, counts[s], counts[p]);
                chart->title = "A title that is wider than the narrowest of charts";
                for (size_t i = 0; i < counts[p]; i++)
                    for (size_t k = 0; k < counts[s]; k++)
                        chart->series[k].values[i] = i % 3 == 0 ? NAN : i % 3 == 1 ? 1e9 : -1e-9;
                const int widths[] = {-5, 1, 24, 81, 300};
                for (size_t w = 0; w < 5; w++) {
                    assert_int_equal(tc_chart_draw(&canvas, chart, widths[w], 10 * (int)w, w % 2), TC_OK);
                    assert_int_equal(canvas.width, widths[w] < 24 ? 24 : widths[w]);
                    assert_in_range(canvas.height, 1, 120);
                }
                tc_canvas_free(&canvas);
                tc_sheet_free(&sheet);
            }
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_bars_are_as_long_as_their_figures),
        cmocka_unit_test(test_bars_below_zero),
        cmocka_unit_test(test_bars_with_a_band),
        cmocka_unit_test(test_spans_without),
        cmocka_unit_test(test_fine_strokes),
        cmocka_unit_test(test_lines_keep_their_order),
        cmocka_unit_test(test_lines_agree_with_their_axis),
        cmocka_unit_test(test_lines_that_meet),
        cmocka_unit_test(test_lines_with_gaps),
        cmocka_unit_test(test_points),
        cmocka_unit_test(test_spans_agree_with_their_axis),
        cmocka_unit_test(test_signs_differ),
        cmocka_unit_test(test_odd_charts),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
