/* SPDX-License-Identifier: MIT */
/* The table of keys: no key means two things, and what it says of itself can be shown. */
#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>
#include <cmocka.h>

#include <string.h>

#include "print/width.h"
#include "screen/binding.h"
#include "support/screen_case.h"

static bool takes(const struct tc_binding *binding, uint32_t press)
{
    return press != TC_EVENT_NONE && (binding->event == press || binding->other == press);
}

static void test_each_key_once(void **state)
{
    struct screen_case c;
    (void)state;
    screen_case_start(&c, 80, 24);
    for (size_t i = 0; tc_binding_at(&c.state, i); i++) {
        const struct tc_binding *a = tc_binding_at(&c.state, i);
        assert_true(a->event != TC_EVENT_NONE && a->event != a->other);
        for (size_t j = i + 1; tc_binding_at(&c.state, j); j++) {
            const struct tc_binding *b = tc_binding_at(&c.state, j);
            bool both = a->layer == b->layer && (takes(b, a->event) || takes(b, a->other));
            if (both)
                fail_msg("bindings %zu and %zu take the same key", i, j);
        }
    }
    screen_case_free(&c);
}

/* Whatever lies on top can be left with Esc, and typing is not disturbed by letters that are keys. */
static void test_ways_out(void **state)
{
    bool leaves[TC_LAYER_CONFIRM + 1] = {[TC_LAYER_SHEET] = true};
    struct screen_case c;
    (void)state;
    screen_case_start(&c, 80, 24);
    for (size_t i = 0; tc_binding_at(&c.state, i); i++) {
        const struct tc_binding *binding = tc_binding_at(&c.state, i);
        if (binding->event == TC_EVENT_ESCAPE)
            leaves[binding->layer] = true;
        if (binding->layer == TC_LAYER_PROMPT || binding->layer == TC_LAYER_LIST) {
            assert_false(tc_event_is_text(binding->event));
            assert_false(tc_event_is_text(binding->other));
        }
    }
    for (int layer = 0; layer <= TC_LAYER_CONFIRM; layer++)
        assert_true(leaves[layer]);
    screen_case_free(&c);
}

static void test_words(void **state)
{
    struct screen_case c;
    (void)state;
    screen_case_start(&c, 80, 24);
    for (size_t i = 0; tc_binding_at(&c.state, i); i++) {
        const struct tc_binding *binding = tc_binding_at(&c.state, i);
        assert_non_null(binding->act);
        if (binding->label)
            assert_true(tc_width(binding->label) <= 24);
        if (binding->help)
            assert_true(binding->help[strlen(binding->help) - 1] != '.');
        assert_true(strlen(tc_binding_layer_title(binding->layer)) > 0);
    }
    screen_case_free(&c);
}

/* Every key that has a help text is in the help; the whole of it can be reached. */
static void test_help_tells_all(void **state)
{
    struct screen_case c;
    (void)state;
    screen_case_start(&c, 80, 24);
    screen_type(&c, "h");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_PAGER);
    const char *text = tc_text_string(&c.state.pager.text);
    for (size_t i = 0; tc_binding_at(&c.state, i); i++) {
        const struct tc_binding *binding = tc_binding_at(&c.state, i);
        char word[24] = "";
        if (!binding->help || binding->layer == TC_LAYER_PAGER || binding->layer == TC_LAYER_CONFIRM)
            continue;
        memcpy(word, binding->help, strcspn(binding->help, " ") < 23 ? strcspn(binding->help, " ") : 23);
        assert_non_null(strstr(text, word));
    }
    screen_press(&c, TC_EVENT_END);
    assert_true(screen_shows(&c, "restores the profile's figure"));
    screen_type(&c, "\033");
    assert_int_equal(tc_state_top(&c.state), TC_LAYER_SHEET);
    screen_case_free(&c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_key_once),
        cmocka_unit_test(test_ways_out),
        cmocka_unit_test(test_words),
        cmocka_unit_test(test_help_tells_all),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
