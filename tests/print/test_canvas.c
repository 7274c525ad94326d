/* SPDX-License-Identifier: MIT */
/* The canvas that pictures are drawn on, and the pen that writes lines in tones. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <locale.h>
#include <string.h>

#include "print/canvas.h"

/* Compares a canvas, written as lines. */
static void check(const struct tc_canvas *canvas, bool colour, const char *wanted)
{
    struct tc_text out = TC_TEXT_EMPTY;
    struct tc_pen pen = {.out = &out, .colour = colour};
    tc_canvas_write(canvas, &pen);
    assert_string_equal(tc_text_string(&out), wanted);
    tc_text_free(&out);
}

static void test_sizes(void **state)
{
    (void)state;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    assert_int_equal(tc_canvas_start(&canvas, 3, 2), TC_OK);
    check(&canvas, false, "\n\n");
    assert_int_equal(tc_canvas_start(&canvas, 0, -7), TC_OK); /* made anew */
    assert_int_equal(canvas.width, 1);
    assert_int_equal(canvas.height, 1);
    assert_int_equal(tc_canvas_start(&canvas, TC_CANVAS_MOST + 1, 1), TC_OK);
    assert_int_equal(canvas.width, TC_CANVAS_MOST);
    tc_canvas_free(&canvas);
    assert_null(canvas.glyphs);
    assert_null(tc_canvas_at(&canvas, 0, 0));
}

static void test_grow_and_copy(void **state)
{
    (void)state;
    struct tc_canvas canvas = TC_CANVAS_EMPTY, other = TC_CANVAS_EMPTY;
    assert_int_equal(tc_canvas_start(&canvas, 4, 1), TC_OK);
    tc_canvas_text(&canvas, 0, 0, TC_TONE_BEST, "one");
    assert_int_equal(tc_canvas_grow(&canvas, 3), TC_OK);
    assert_int_equal(tc_canvas_grow(&canvas, 2), TC_OK); /* never lower */
    assert_int_equal(canvas.height, 3);
    assert_string_equal(tc_canvas_at(&canvas, 0, 0)->text, "o");
    assert_string_equal(tc_canvas_at(&canvas, 3, 2)->text, " ");
    assert_int_equal(tc_canvas_start(&other, 3, 2), TC_OK);
    tc_canvas_copy(&other, 1, 1, &canvas, 1, 9, 0); /* beyond the edges is passed over */
    assert_string_equal(tc_canvas_at(&other, 1, 1)->text, "n");
    assert_int_equal(tc_canvas_at(&other, 2, 1)->tone, TC_TONE_BEST);
    assert_string_equal(tc_canvas_at(&other, 1, 0)->text, " ");
    tc_canvas_free(&canvas);
    tc_canvas_free(&other);
}

static void test_edges(void **state)
{
    (void)state;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    assert_int_equal(tc_canvas_start(&canvas, 4, 3), TC_OK);
    tc_canvas_across(&canvas, -2, 1, 20, TC_TONE_PLAIN, "─");
    tc_canvas_down(&canvas, 1, -5, 20, TC_TONE_PLAIN, "│");
    tc_canvas_put(&canvas, 4, 0, TC_TONE_PLAIN, "x");
    tc_canvas_put(&canvas, 0, 3, TC_TONE_PLAIN, "x");
    tc_canvas_across(&canvas, 0, 0, -1, TC_TONE_PLAIN, "x");
    assert_int_equal(tc_canvas_text(&canvas, 2, 2, TC_TONE_PLAIN, "cut off"), 4);
    check(&canvas, false, " │\n─│──\n │cu\n");
    assert_true(tc_canvas_blank(&canvas, 2, 0, 9));
    assert_false(tc_canvas_blank(&canvas, 0, 0, 2));
    tc_canvas_free(&canvas);
}

static void test_wide_and_combining(void **state)
{
    (void)state;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    assert_int_equal(tc_canvas_start(&canvas, 7, 2), TC_OK);
    assert_int_equal(tc_canvas_text(&canvas, 0, 0, TC_TONE_PLAIN, "水e\xCC\x81z\xFF"), 5);
    assert_string_equal(tc_canvas_at(&canvas, 0, 0)->text, "水");
    assert_string_equal(tc_canvas_at(&canvas, 1, 0)->text, ""); /* its right half */
    assert_string_equal(tc_canvas_at(&canvas, 2, 0)->text, "e\xCC\x81");
    assert_string_equal(tc_canvas_at(&canvas, 4, 0)->text, "?");
    assert_int_equal(tc_canvas_text(&canvas, 6, 1, TC_TONE_PLAIN, "水"), 6); /* no half of it is drawn */
    check(&canvas, false, "水e\xCC\x81z?\n\n");
    /* More marks than a cell holds are dropped, and the cell stays ended. */
    tc_canvas_text(&canvas, 0, 1, TC_TONE_PLAIN,
                   "o\xCC\x81\xCC\x82\xCC\x83\xCC\x84\xCC\x85\xCC\x86\xCC\x87\xCC\x88\xCC\x89");
    assert_in_range(strlen(tc_canvas_at(&canvas, 0, 1)->text), 3, sizeof canvas.glyphs->text - 1);
    tc_canvas_free(&canvas);
}

static void test_fields(void **state)
{
    (void)state;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    assert_int_equal(tc_canvas_start(&canvas, 12, 8), TC_OK);
    tc_canvas_field(&canvas, 1, 0, 6, TC_ALIGN_LEFT, TC_TONE_PLAIN, "m²", false);
    tc_canvas_field(&canvas, 1, 1, 6, TC_ALIGN_RIGHT, TC_TONE_PLAIN, "m²", false);
    tc_canvas_field(&canvas, 1, 2, 6, TC_ALIGN_RIGHT, TC_TONE_PLAIN, "水槽", false);
    tc_canvas_field(&canvas, 1, 3, 6, TC_ALIGN_RIGHT, TC_TONE_PLAIN, "canister", false);
    tc_canvas_field(&canvas, 1, 4, 6, TC_ALIGN_LEFT, TC_TONE_PLAIN, "canister", true);
    tc_canvas_field(&canvas, 1, 5, 1, TC_ALIGN_LEFT, TC_TONE_PLAIN, "canister", false);
    tc_canvas_field(&canvas, 1, 6, 0, TC_ALIGN_LEFT, TC_TONE_PLAIN, "canister", false);
    tc_canvas_field(&canvas, 1, 7, 4, TC_ALIGN_LEFT, TC_TONE_PLAIN, "e\xCC\x81水水", false);
    check(&canvas, false, " m²\n     m²\n   水槽\n canis…\n cani..\n c\n\n e\xCC\x81水…\n");
    tc_canvas_free(&canvas);
}

/* One code begins a run of a tone, one ends it; blanks at the end of a line are never written. */
static void test_tones(void **state)
{
    (void)state;
    struct tc_canvas canvas = TC_CANVAS_EMPTY;
    assert_int_equal(tc_canvas_start(&canvas, 10, 2), TC_OK);
    tc_canvas_text(&canvas, 0, 0, TC_TONE_STRONG, "ab");
    tc_canvas_text(&canvas, 3, 0, TC_TONE_STRONG, "c");
    tc_canvas_text(&canvas, 5, 0, TC_TONE_PLAIN, "d");
    tc_canvas_text(&canvas, 0, 1, TC_TONE_SOFT, "e");
    check(&canvas, true, "\033[1mab c\033[0m d\n\033[2me\033[0m\n");
    check(&canvas, false, "ab c d\ne\n");
    tc_canvas_free(&canvas);
}

static void test_paragraphs(void **state)
{
    (void)state;
    struct tc_text out = TC_TEXT_EMPTY;
    struct tc_pen pen = {.out = &out};
    tc_pen_write(&pen, TC_TONE_WARN, "Caution: ");
    tc_pen_paragraph(&pen, TC_TONE_PLAIN, "ask an engineer about the floor", 2, 20);
    tc_pen_paragraph(&pen, TC_TONE_PLAIN, "", 2, 20);
    tc_pen_paragraph(&pen, TC_TONE_PLAIN, "no limit of width", 2, 0);
    tc_pen_to(&pen, 30);
    tc_pen_paragraph(&pen, TC_TONE_PLAIN, "ab cd", 25, 20); /* beyond the width: still there */
    assert_string_equal(tc_text_string(&out),
                        "Caution: ask an\n  engineer about the\n  floor\n\nno limit of width\n"
                        "                              a\n"
                        "                         b\n"
                        "                         c\n"
                        "                         d\n");
    tc_text_free(&out);
}

static void test_rules(void **state)
{
    (void)state;
    struct tc_text out = TC_TEXT_EMPTY;
    struct tc_pen pen = {.out = &out};
    tc_pen_rule(&pen, TC_TONE_SOFT, "━", 3);
    tc_pen_to(&pen, 2); /* to the left: stays */
    tc_pen_rule(&pen, TC_TONE_SOFT, "━", 0);
    tc_pen_to(&pen, 5);
    tc_pen_rule(&pen, TC_TONE_SOFT, "━", 2);
    assert_int_equal(pen.column, 7);
    tc_pen_line(&pen);
    assert_string_equal(tc_text_string(&out), "━━━  ━━\n");
    tc_text_free(&out);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sizes),      cmocka_unit_test(test_grow_and_copy),
        cmocka_unit_test(test_edges),      cmocka_unit_test(test_wide_and_combining),
        cmocka_unit_test(test_fields),     cmocka_unit_test(test_tones),
        cmocka_unit_test(test_paragraphs), cmocka_unit_test(test_rules),
    };
    setlocale(LC_CTYPE, "C.UTF-8");
    return cmocka_run_group_tests(tests, NULL, NULL);
}
