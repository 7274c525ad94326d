/* SPDX-License-Identifier: MIT */
/* What the screen shows, cell by cell. The sheets are made by hand, so that only the view matters. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <stdio.h>
#include <string.h>

#include "print/ascii.h"
#include "print/width.h"
#include "screen/keymap.h"
#include "screen/refresh.h"
#include "support/draw.h"
#include "support/golden.h"
#include "support/sample_sheets.h"
#include "support/screen_case.h"
#include "support/step.h"

static struct screen_case c;

static int start(void **state)
{
    (void)state;
    screen_case_start(&c, 80, 24);
    return 0;
}

static int end(void **state)
{
    (void)state;
    screen_case_free(&c);
    return 0;
}

/* Compares the screen with what it should be, but for its first row, which names all sheets there are. */
static void assert_screen(const char *name, bool roles)
{
    struct tc_text kept = TC_TEXT_EMPTY;
    const char *text = roles ? screen_roles(&c) : screen_text(&c);
    char file[96];
    for (int row = 0; *text; row++) {
        size_t length = strcspn(text, "\n") + 1;
        if (row % c.state.frame.height != 0)
            tc_text_add_bytes(&kept, text, length);
        text += length;
    }
    snprintf(file, sizeof file, "screen/%s.txt", name);
    assert_golden(file, tc_text_string(&kept));
    tc_text_free(&kept);
}

static const struct {
    int width, height;
} sizes[] = {{60, 16}, {80, 24}, {120, 40}, {200, 60}};

/* The sheet at each size, with the roles of its cells at one of them. */
static void assert_sizes(const char *name, void (*make)(struct tc_sheet *sheet))
{
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        char file[64];
        tc_keymap_resize(&c.state, sizes[i].width, sizes[i].height);
        screen_case_show(&c, make);
        snprintf(file, sizeof file, "%s-%dx%d", name, sizes[i].width, sizes[i].height);
        assert_screen(file, sizes[i].width == 80);
    }
}

static void test_bill(void **state)
{
    (void)state;
    assert_sizes("bill", sample_bill);
}

static void test_words_and_sentences(void **state)
{
    (void)state;
    assert_sizes("fit", sample_fit);
}

static void test_charts(void **state)
{
    (void)state;
    assert_sizes("years", sample_years);
    screen_type(&c, "c");
    tc_keymap_resize(&c.state, 80, 24);
    assert_screen("years-large-80x24", false);
}

static void test_drawing(void **state)
{
    (void)state;
    assert_sizes("wall", sample_wall);
}

static void test_many_columns(void **state)
{
    (void)state;
    assert_sizes("places", sample_places);
    tc_keymap_resize(&c.state, 80, 24);
    for (int i = 0; i < 5; i++)
        screen_press(&c, TC_EVENT_RIGHT);
    assert_screen("places-right-80x24", false);
}

static void ascii_bill(struct tc_sheet *sheet)
{
    struct tc_sheet made;
    sample_bill(&made);
    assert_int_equal(tc_ascii_sheet(sheet, &made), TC_OK);
    tc_sheet_free(&made);
}

static void test_ascii(void **state)
{
    (void)state;
    c.options.ascii = true;
    screen_case_show(&c, ascii_bill);
    assert_screen("bill-ascii-80x24", false);
    static const char *const layers[] = {"t", "h", "k", "a", "s", "4", "f", "!"};
    for (size_t i = 0; i < sizeof layers / sizeof layers[0]; i++) {
        screen_type(&c, layers[i]);
        for (const char *text = screen_text(&c); *text; text++)
            assert_true((unsigned char)*text < 0x80);
        screen_type(&c, "\033");
    }
}

static void test_first_row(void **state)
{
    char first[512];
    (void)state;
    screen_case_show(&c, sample_bill);
    snprintf(first, sizeof first, "%.*s", (int)strcspn(screen_text(&c), "\n"), screen_text(&c));
    assert_memory_equal(first, "spring  ", 8);
    assert_non_null(strstr(first, "bill  years  sale"));
    tc_keymap_resize(&c.state, 60, 16);
    for (size_t i = 0; tc_question_at(i); i++) { /* the present one is always named */
        snprintf(first, sizeof first, "%.*s", (int)strcspn(screen_text(&c), "\n"), screen_text(&c));
        assert_non_null(strstr(first, tc_question_at(i)->name));
        screen_type(&c, "\t");
    }
}

static void test_lists(void **state)
{
    (void)state;
    screen_case_show(&c, sample_bill);
    screen_type(&c, "t");
    assert_screen("tanks-80x24", true);
    screen_type(&c, "\033klan");
    assert_screen("setups-80x24", false);
    screen_type(&c, "\033g");
    assert_true(screen_shows(&c, "bill            1"));
}

static void test_slip_beside_its_cell(void **state)
{
    (void)state;
    screen_case_show(&c, sample_bill);
    screen_press(&c, TC_EVENT_RIGHT);
    screen_type(&c, "4");
    assert_screen("prompt-80x24", true);
    screen_type(&c, ",\r");
    assert_screen("prompt-refused-80x24", false);
}

static void test_find_marks_what_it_found(void **state)
{
    (void)state;
    screen_case_show(&c, sample_bill);
    screen_type(&c, "ftank");
    assert_screen("find-80x24", true);
}

static void test_too_small(void **state)
{
    (void)state;
    tc_keymap_resize(&c.state, 59, 24);
    assert_true(screen_shows(&c, "This terminal is 59 × 24; tankcost needs 60 × 16."));
    tc_keymap_resize(&c.state, 80, 15);
    assert_true(screen_shows(&c, "80 × 15;"));
    tc_keymap_resize(&c.state, 60, 16);
    assert_false(screen_shows(&c, "tankcost needs"));
    tc_keymap_resize(&c.state, 1, 1);
    assert_int_equal(strlen(screen_text(&c)), 2);
}

/* Every sheet and notice lies within the screen: no line is wider than it. */
static void assert_fits(void)
{
    const char *text = screen_text(&c);
    for (int row = 0; *text; row++) {
        size_t length = strcspn(text, "\n");
        assert_true(tc_width_bytes(text, length) <= c.state.frame.width);
        assert_true(row < c.state.frame.height);
        text += length + 1;
    }
}

static void test_odd_texts_fit(void **state)
{
    (void)state;
    for (size_t i = 0; i < sample_count; i++) {
        for (int width = 60; width < 100; width += 9) {
            tc_keymap_resize(&c.state, width, 20);
            screen_case_show(&c, samples[i].make);
            assert_fits();
            for (int step = 0; step < 60; step++) {
                screen_press(&c, step % 7 == 3 ? TC_EVENT_RIGHT : TC_EVENT_DOWN);
                assert_fits();
            }
        }
    }
}

/* Whatever is pressed, clicked or resized: what is selected is there and in sight, and all can be drawn. */
static void test_any_presses(void **state)
{
    static const uint32_t presses[] = {TC_EVENT_UP,
                                       TC_EVENT_DOWN,
                                       TC_EVENT_DOWN,
                                       TC_EVENT_LEFT,
                                       TC_EVENT_RIGHT,
                                       TC_EVENT_PAGE_UP,
                                       TC_EVENT_END,
                                       TC_EVENT_PAGE_DOWN,
                                       TC_EVENT_HOME,
                                       TC_EVENT_ENTER,
                                       TC_EVENT_ENTER,
                                       TC_EVENT_TAB,
                                       TC_EVENT_ESCAPE,
                                       TC_EVENT_ESCAPE,
                                       TC_EVENT_ESCAPE,
                                       TC_EVENT_BACKSPACE,
                                       TC_EVENT_DELETE,
                                       TC_EVENT_BACK_TAB,
                                       TC_EVENT_CLEAR_LINE,
                                       TC_EVENT_CLICK,
                                       TC_EVENT_WHEEL_UP,
                                       TC_EVENT_WHEEL_DOWN,
                                       TC_EVENT_HELP,
                                       TC_EVENT_REDRAW,
                                       TC_EVENT_NONE,
                                       '1',
                                       '4',
                                       '9',
                                       '0',
                                       't',
                                       'k',
                                       'r',
                                       'b',
                                       'B',
                                       'a',
                                       'p',
                                       'c',
                                       'x',
                                       'u',
                                       'U',
                                       '+',
                                       '-',
                                       'n',
                                       'f',
                                       'v',
                                       'o',
                                       'm',
                                       '!',
                                       'g',
                                       ' ',
                                       'e',
                                       '.',
                                       0xE9,
                                       0x20AC};
    struct tc_random random = draw_from(11);
    (void)state;
    c.options.ask.draws = 1; /* as few as it allows: this is not about doubts */
    for (int i = 0; i < 6000 / test_step(); i++) {
        struct tc_key_event press = {presses[draw_below(&random, sizeof presses / sizeof presses[0])],
                                     draw_below(&random, 140), draw_below(&random, 50)};
        if (draw_below(&random, 60) == 0)
            tc_keymap_resize(&c.state, 1 + draw_below(&random, 140), 1 + draw_below(&random, 50));
        tc_keymap_press(&c.state, press);
        if (tc_refresh_waits(&c.state))
            tc_refresh_do(&c.state, NULL, NULL);
        assert_false(c.state.failed);
        assert_fits();
        const struct tc_tab *tab = tc_state_tab(&c.state);
        if (!tab->made || tab->body.count == 0)
            continue;
        assert_true(tab->position.line < tab->body.count && tc_body_stop(&tab->body, tab->position.line));
        assert_true(tab->position.line >= tab->position.top);
        assert_true(tab->position.line < tab->position.top + (size_t)c.state.frame.body_height);
        assert_true(tab->sheet.column_count == 0 || tab->position.column < tab->sheet.column_count);
        assert_true(tab->position.left <= tab->position.column);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_bill, start, end),
        cmocka_unit_test_setup_teardown(test_words_and_sentences, start, end),
        cmocka_unit_test_setup_teardown(test_charts, start, end),
        cmocka_unit_test_setup_teardown(test_drawing, start, end),
        cmocka_unit_test_setup_teardown(test_many_columns, start, end),
        cmocka_unit_test_setup_teardown(test_ascii, start, end),
        cmocka_unit_test_setup_teardown(test_first_row, start, end),
        cmocka_unit_test_setup_teardown(test_lists, start, end),
        cmocka_unit_test_setup_teardown(test_slip_beside_its_cell, start, end),
        cmocka_unit_test_setup_teardown(test_find_marks_what_it_found, start, end),
        cmocka_unit_test_setup_teardown(test_too_small, start, end),
        cmocka_unit_test_setup_teardown(test_odd_texts_fit, start, end),
        cmocka_unit_test_setup_teardown(test_any_presses, start, end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
