/* SPDX-License-Identifier: MIT */
/* A line being typed, and what presses are. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

#include "core/base/clean.h"
#include "screen/input.h"
#include "support/draw.h"

static void type(struct tc_input *input, const char *text)
{
    for (; *text; text++)
        assert_true(tc_input_press(input, (unsigned char)*text));
}

static void test_typing(void **state)
{
    struct tc_input input;
    (void)state;
    tc_input_start(&input, "", true);
    type(&input, "45");
    assert_string_equal(input.text, "45");
    tc_input_press(&input, TC_EVENT_LEFT);
    type(&input, "0");
    assert_string_equal(input.text, "405");
    tc_input_press(&input, TC_EVENT_HOME);
    tc_input_press(&input, TC_EVENT_DELETE);
    assert_string_equal(input.text, "05");
    tc_input_press(&input, TC_EVENT_END);
    tc_input_press(&input, TC_EVENT_BACKSPACE);
    assert_string_equal(input.text, "0");
    tc_input_press(&input, TC_EVENT_CLEAR_LINE);
    assert_string_equal(input.text, "");
    tc_input_press(&input, TC_EVENT_BACKSPACE); /* nothing to take away at either end */
    tc_input_press(&input, TC_EVENT_DELETE);
    tc_input_press(&input, TC_EVENT_LEFT);
    tc_input_press(&input, TC_EVENT_RIGHT);
    assert_int_equal(input.length, 0);
}

static void test_fresh_text_is_replaced(void **state)
{
    struct tc_input input;
    (void)state;
    tc_input_start(&input, "59.50", true);
    assert_int_equal(input.at, 5);
    type(&input, "4");
    assert_string_equal(input.text, "4");

    tc_input_start(&input, "59.50", true); /* any other key keeps it */
    tc_input_press(&input, TC_EVENT_LEFT);
    type(&input, "5");
    assert_string_equal(input.text, "59.550");

    tc_input_start(&input, "59.50", false);
    type(&input, "1");
    assert_string_equal(input.text, "59.501");
}

static void test_characters_stay_whole(void **state)
{
    struct tc_input input;
    (void)state;
    tc_input_start(&input, "", false);
    tc_input_press(&input, 0xB2);    /* ² */
    tc_input_press(&input, 0x20AC);  /* € */
    tc_input_press(&input, 0x1F41F); /* a fish */
    assert_string_equal(input.text, "\u00B2\u20AC\U0001F41F");
    tc_input_press(&input, TC_EVENT_LEFT);
    tc_input_press(&input, TC_EVENT_BACKSPACE);
    assert_string_equal(input.text, "\u00B2\U0001F41F");
    tc_input_press(&input, TC_EVENT_DELETE);
    assert_string_equal(input.text, "\u00B2");
}

static void test_what_is_no_text(void **state)
{
    struct tc_input input;
    (void)state;
    tc_input_start(&input, "", false);
    assert_false(tc_input_press(&input, 0x1B));
    assert_false(tc_input_press(&input, 0x9B));   /* a control character of C1 */
    assert_false(tc_input_press(&input, 0x202E)); /* turns the direction of a line around */
    assert_false(tc_input_press(&input, 0xD800)); /* half a character of UTF-16 */
    assert_false(tc_input_press(&input, TC_EVENT_UP));
    assert_int_equal(input.length, 0);
}

static void test_full(void **state)
{
    struct tc_input input;
    (void)state;
    tc_input_start(&input, "", false);
    for (int i = 0; i < 2 * TC_INPUT_SIZE; i++)
        tc_input_press(&input, 0x20AC);
    assert_true(input.length < TC_INPUT_SIZE);
    assert_int_equal(input.length % 3, 0);
    assert_true(tc_is_clean(input.text, input.length));
}

/* Whatever is pressed, the text stays clean and the place of typing on a character's border. */
static void test_any_presses(void **state)
{
    static const uint32_t presses[] = {
        'a',           '7',           0xE9,           0x3042,       0x1F420,         TC_EVENT_LEFT,
        TC_EVENT_LEFT, TC_EVENT_HOME, TC_EVENT_RIGHT, TC_EVENT_END, TC_EVENT_DELETE, TC_EVENT_BACKSPACE};
    struct tc_random random = draw_from(7);
    struct tc_input input;
    (void)state;
    tc_input_start(&input, "", false);
    for (int i = 0; i < 20000; i++) {
        tc_input_press(&input, presses[draw_below(&random, sizeof presses / sizeof presses[0])]);
        assert_true(tc_is_clean(input.text, input.length));
        assert_true(input.at <= input.length);
        assert_int_equal(tc_utf8_cut(input.text, input.length, input.at), input.at);
        assert_int_equal(strlen(input.text), input.length);
    }
}

static void test_names_of_presses(void **state)
{
    char name[TC_EVENT_NAME_SIZE];
    (void)state;
    assert_string_equal(tc_event_name(name, 't'), "t");
    assert_string_equal(tc_event_name(name, ' '), "Space");
    assert_string_equal(tc_event_name(name, 0xE9), "\u00E9");
    assert_string_equal(tc_event_name(name, TC_EVENT_NONE), "");
    for (uint32_t code = TC_EVENT_FIRST_KEY; code <= TC_EVENT_RESIZE; code++)
        assert_true(strlen(tc_event_name(name, code)) > 0);
    assert_string_equal(tc_event_name(name, TC_EVENT_RESIZE + 1), "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_typing),
        cmocka_unit_test(test_fresh_text_is_replaced),
        cmocka_unit_test(test_characters_stay_whole),
        cmocka_unit_test(test_what_is_no_text),
        cmocka_unit_test(test_full),
        cmocka_unit_test(test_any_presses),
        cmocka_unit_test(test_names_of_presses),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
