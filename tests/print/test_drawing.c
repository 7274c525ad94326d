/* SPDX-License-Identifier: MIT */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "print/drawing.h"
#include "support/draw.h"
#include "support/sample_sheets.h"

/* A sheet that holds a drawing without boxes. */
static void start(struct tc_sheet *sheet, double width, double height)
{
    tc_sheet_start(sheet, "drawing", 0);
    tc_sheet_drawing(sheet, "A drawing", width, height, "cm", 0.01);
    assert_non_null(sheet->drawing);
}

static const char *text_at(const struct tc_canvas *canvas, int column, int row)
{
    return tc_canvas_at(canvas, column, row) ? tc_canvas_at(canvas, column, row)->text : "";
}

/* Finds the n-th cell with a sign, row by row; false if there are fewer. */
static bool find(const struct tc_canvas *canvas, const char *sign, int n, int *column, int *row)
{
    for (*row = 0; *row < canvas->height; ++*row)
        for (*column = 0; *column < canvas->width; ++*column)
            if (strcmp(text_at(canvas, *column, *row), sign) == 0 && n-- == 0)
                return true;
    return false;
}

static const char *row_text(const struct tc_canvas *canvas, int row)
{
    static char text[4096];
    text[0] = '\0';
    for (int column = 0; column < canvas->width; column++)
        strncat(text, text_at(canvas, column, row), sizeof text - strlen(text) - 1);
    return text;
}

/* One metre is twice as many columns as rows, whatever the size of the canvas. */
static void test_aspect(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    start(&sheet, 2, 2);
    tc_sheet_box(&sheet, (struct tc_box){0.5, 0.5, 1, 1, 'A', "a square"});
    for (int width = 40; width <= 160; width += 13) {
        int left, top, right, bottom, row, column;
        assert_int_equal(tc_drawing_draw(&canvas, sheet.drawing, width, 0, false), TC_OK);
        assert_true(find(&canvas, "┌", 0, &left, &top));
        assert_true(find(&canvas, "┐", 0, &right, &row));
        assert_int_equal(row, top);
        assert_true(find(&canvas, "└", 0, &column, &bottom));
        assert_int_equal(column, left);
        double ratio = (double)(right - left + 1) / (bottom - top + 1);
        assert_true(fabs(ratio - 2) <= 2.5 / (bottom - top + 1));
        assert_true(find(&canvas, "A", 1, &column, &row)); /* 0 is the title's */
        assert_in_range(column, (left + right) / 2, (left + right) / 2 + 1);
        assert_in_range(row, (top + bottom) / 2, (top + bottom) / 2 + 1);
    }
    tc_canvas_free(&canvas);
    tc_sheet_free(&sheet);
}

/* A limited height shrinks the drawing as a whole. */
static void test_limited_height(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    sample_wall(&sheet);
    for (int height = 9; height < 40; height++) {
        assert_int_equal(tc_drawing_draw(&canvas, sheet.drawing, 80, height, false), TC_OK);
        assert_in_range(canvas.height, 8, height);
        assert_non_null(strstr(row_text(&canvas, canvas.height - 1), "A  6 × 36-breeder"));
    }
    tc_canvas_free(&canvas);
    tc_sheet_free(&sheet);
}

/* Boxes that do not touch in the room never share a cell on the canvas: every letter is seen. */
static void test_boxes_stay_apart(void **state)
{
    (void)state;
    struct tc_random random = draw_from(11);
    for (int n = 0; n < 300; n++) {
        struct tc_sheet sheet;
        struct tc_canvas canvas = TC_CANVAS_EMPTY;
        double x = 0;
        int boxes = 0;
        start(&sheet, 6, 2);
        while (boxes < 20) { /* a row of boxes, end to end, each at least two columns wide */
            double width = draw_between(&random, 0.2, 1.2);
            if (x + width > 6)
                break;
            tc_sheet_box(&sheet,
                         (struct tc_box){x, draw_between(&random, 0, 1), width, 0.6, 'Q', "end to end"});
            x += width;
            boxes++;
        }
        assert_int_equal(tc_drawing_draw(&canvas, sheet.drawing, 100, 0, false), TC_OK);
        int seen = 0, corners = 0, column, row;
        while (find(&canvas, "Q", seen, &column, &row))
            seen++;
        while (find(&canvas, "┐", corners, &column, &row))
            corners++;
        assert_int_equal(seen, boxes + 1); /* and the legend */
        assert_int_equal(corners, boxes);
        tc_canvas_free(&canvas);
        tc_sheet_free(&sheet);
    }
}

/* Equal boxes look equal wherever they stand. */
static void test_equal_boxes_look_equal(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    start(&sheet, 5, 1);
    for (int i = 0; i < 7; i++)
        tc_sheet_box(&sheet, (struct tc_box){i * 0.711, 0.05 * i, 0.63, 0.42, 'Q', "equal"});
    for (int width = 50; width < 200; width++) {
        assert_int_equal(tc_drawing_draw(&canvas, sheet.drawing, width, 0, false), TC_OK);
        int first = 0;
        for (int i = 0; i < 7; i++) {
            int left, right, row, other;
            if (!find(&canvas, "┌", i, &left, &row)) /* too small for frames: then for all */
                break;
            for (right = left; strcmp(text_at(&canvas, right, row), "┐") != 0; right++)
                assert_true(right < canvas.width);
            first = i == 0 ? right - left : first;
            assert_int_equal(right - left, first);
            assert_true(i == 0 || !find(&canvas, "[", 0, &left, &other));
        }
    }
    tc_canvas_free(&canvas);
    tc_sheet_free(&sheet);
}

/* What is too small for a frame is still there. */
static void test_tiny_boxes(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    int column, row;
    start(&sheet, 100, 10);
    tc_sheet_box(&sheet, (struct tc_box){10, 1, 0.1, 0.1, 'Q', "speck"});
    tc_sheet_box(&sheet, (struct tc_box){30, 1, 10, 0.1, 'Z', "strip"});
    tc_sheet_box(&sheet, (struct tc_box){50, 0, 0.01, 10, ' ', NULL});
    tc_sheet_box(&sheet, (struct tc_box){60, 5, 30, 0.01, ' ', NULL});
    tc_sheet_box(&sheet, (struct tc_box){65, 0, 20, 9, ' ', NULL});
    assert_int_equal(tc_drawing_draw(&canvas, sheet.drawing, 80, 0, false), TC_OK);
    assert_true(find(&canvas, "Q", 0, &column, &row));
    assert_true(find(&canvas, "Z", 0, &column, &row));
    assert_string_equal(text_at(&canvas, column - 3, row), "[");
    assert_true(find(&canvas, "║", 0, &column, &row));
    assert_true(find(&canvas, "═", 0, &column, &row));
    assert_true(find(&canvas, "░", 0, &column, &row));
    assert_non_null(strstr(row_text(&canvas, canvas.height - 1), "Q  1 × speck    Z  1 × strip"));
    tc_canvas_free(&canvas);
    tc_sheet_free(&sheet);
}

/* A wall of n boxes of 60 by 36 cm side by side, with posts and a board that runs through. */
static void start_long(struct tc_sheet *sheet, int n, double gap)
{
    start(sheet, n * (0.6 + gap), 2);
    tc_sheet_box(sheet, (struct tc_box){0, 0.5, n * (0.6 + gap), 0.03, ' ', NULL});
    for (int i = 0; i < n; i++)
        tc_sheet_box(sheet, (struct tc_box){i * (0.6 + gap), 0.53, 0.6, 0.36, 'Q', "equal"});
}

/* A long drawing is cut into strips between its boxes: each is there once, and clear to see. */
static void test_strips(void **state)
{
    (void)state;
    for (int n = 1; n <= 70; n++) {
        struct tc_sheet sheet;
        struct tc_canvas canvas = TC_CANVAS_EMPTY;
        int seen = 0, column, row, floors = 0, cells = 0;
        start_long(&sheet, n, n % 3 * 0.05);
        assert_int_equal(tc_drawing_draw(&canvas, sheet.drawing, 80, 0, false), TC_OK);
        while (find(&canvas, "Q", seen, &column, &row)) {
            if (row < canvas.height - 1) { /* not the legend's */
                const char *left = text_at(&canvas, column - 2, row);
                assert_true(strcmp(left, "[") == 0 || strcmp(left, " ") == 0 || strcmp(left, "│") == 0);
                const char *below = text_at(&canvas, column, row + 1); /* the box goes on */
                assert_true(strcmp(below, " ") == 0 || strcmp(below, "─") == 0);
            }
            seen++;
        }
        assert_int_equal(seen, n + 1);
        for (row = 0; row < canvas.height; row++)
            floors += strstr(row_text(&canvas, row), " 0 ╶") != NULL;
        for (int i = 0; find(&canvas, "═", i, &column, &row); i++)
            cells++;
        double clear = 0.36 * 74 / 4; /* m; in longer strips a box is less than two rows high */
        assert_in_range(floors, (int)ceil(sheet.drawing->width / clear - 1e-6),
                        (int)(sheet.drawing->width / (clear - 0.7)) + 1);
        assert_true(cells >= 50 * (floors - 1)); /* the board goes on from strip to strip */
        assert_int_equal(tc_drawing_draw(&canvas, sheet.drawing, 80, 20, false), TC_OK);
        assert_in_range(canvas.height, 8, 20); /* no strips where the height is given */
        tc_canvas_free(&canvas);
        tc_sheet_free(&sheet);
    }
}

/* The ruler below: a figure stands under the place it names. */
static void test_ruler(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    start(&sheet, 4, 2);
    for (int width = 40; width < 160; width += 11) {
        assert_int_equal(tc_drawing_draw(&canvas, sheet.drawing, width, 0, false), TC_OK);
        int floor_row = canvas.height - 4, ticks[64] = {0}, count = 0;
        for (int c = 0; c < canvas.width; c++) {
            const char *text = text_at(&canvas, c, floor_row);
            if (strcmp(text, "┴") == 0 && count < 64)
                ticks[count++] = c;
        }
        assert_in_range(count, 3, 63);
        assert_non_null(strstr(row_text(&canvas, floor_row + 1), "cm"));
        for (int i = 2; i < count - 1; i++) /* evenly spaced, to a cell; the last may be drawn in */
            assert_in_range(abs(ticks[i] - 2 * ticks[i - 1] + ticks[i - 2]), 0, 1);
    }
    tc_canvas_free(&canvas);
    tc_sheet_free(&sheet);
}

static void test_labels(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    sample_wall(&sheet);
    assert_string_equal(tc_drawing_label(sheet.drawing, 'A'), "36-breeder");
    assert_string_equal(tc_drawing_label(sheet.drawing, 'B'), "20-cube × 2 deep");
    assert_string_equal(tc_drawing_label(sheet.drawing, ' '), "");
    assert_string_equal(tc_drawing_label(sheet.drawing, 'C'), "");
    tc_sheet_free(&sheet);
}

static void test_no_extent(void **state)
{
    (void)state;
    const double sizes[][2] = {{0, 1}, {1, 0}, {-1, 1}, {NAN, 1}};
    for (size_t i = 0; i < 4; i++) {
        struct tc_sheet sheet;
        struct tc_canvas canvas = TC_CANVAS_EMPTY;
        start(&sheet, sizes[i][0], sizes[i][1]);
        assert_int_equal(tc_drawing_draw(&canvas, sheet.drawing, 80, 0, false), TC_RANGE);
        tc_canvas_free(&canvas);
        tc_sheet_free(&sheet);
    }
}

/* Very wide or very high drawings, at any size of the canvas. */
static void test_odd_sizes(void **state)
{
    (void)state;
    const double sizes[][2] = {{1000, 0.01}, {0.01, 1000}, {1e-6, 1e-6}, {1e9, 1e9}};
    for (size_t i = 0; i < 4; i++) {
        struct tc_sheet sheet;
        struct tc_canvas canvas = TC_CANVAS_EMPTY;
        start(&sheet, sizes[i][0], sizes[i][1]);
        tc_sheet_box(&sheet, (struct tc_box){0, 0, sizes[i][0], sizes[i][1], 'A', "all of it"});
        for (int width = -3; width < 200; width += 19) {
            assert_int_equal(tc_drawing_draw(&canvas, sheet.drawing, width, width / 2, width % 2), TC_OK);
            assert_in_range(canvas.height, 1, 220);
        }
        tc_canvas_free(&canvas);
        tc_sheet_free(&sheet);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_aspect),           cmocka_unit_test(test_limited_height),
        cmocka_unit_test(test_boxes_stay_apart), cmocka_unit_test(test_equal_boxes_look_equal),
        cmocka_unit_test(test_tiny_boxes),       cmocka_unit_test(test_ruler),
        cmocka_unit_test(test_labels),           cmocka_unit_test(test_strips),
        cmocka_unit_test(test_no_extent),        cmocka_unit_test(test_odd_sizes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
