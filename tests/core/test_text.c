/* SPDX-License-Identifier: MIT */
/* The growing text: what is added is there, and a failure is remembered. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdlib.h>
#include <string.h>

#include "core/base/text.h"
#include "support/failing_malloc.h"

static void an_empty_text_is_an_empty_string(void **state)
{
    (void)state;
    struct tc_text text = TC_TEXT_EMPTY;

    assert_string_equal(tc_text_string(&text), "");
    char *taken = tc_text_take(&text);
    assert_string_equal(taken, "");
    free(taken);
    tc_text_clear(&text);
    assert_string_equal(tc_text_string(&text), "");
    tc_text_free(&text);
    tc_text_free(&text);
}

static void additions_follow_each_other(void **state)
{
    (void)state;
    struct tc_text text = TC_TEXT_EMPTY;

    tc_text_add(&text, "tank");
    tc_text_add_char(&text, ' ');
    tc_text_addf(&text, "%s is %d of %d%c", "29-high", 1, 3, ':');
    tc_text_add_repeated(&text, "=-", 3);
    tc_text_add_repeated(&text, "x", 0);
    tc_text_add_repeated(&text, "", 1000000000);
    tc_text_add_bytes(&text, "a\0b", 3);
    tc_text_add_bytes(&text, NULL, 0);
    assert_false(text.failed);
    assert_int_equal(text.length, 5 + 18 + 6 + 3);
    assert_memory_equal(tc_text_string(&text), "tank 29-high is 1 of 3:=-=-=-a\0b", text.length + 1);
    tc_text_clear(&text);
    assert_string_equal(tc_text_string(&text), "");
    assert_int_equal(text.length, 0);
    tc_text_add(&text, "again");
    char *taken = tc_text_take(&text);
    assert_string_equal(taken, "again");
    assert_null(text.data);
    free(taken);
}

/* Lengths around each doubling: 64, 128, ... */
static void every_length_fits_with_its_end(void **state)
{
    (void)state;
    struct tc_text all = TC_TEXT_EMPTY;
    char line[600];

    for (size_t length = 0; length < sizeof line; length++) {
        struct tc_text text = TC_TEXT_EMPTY;
        memset(line, 'x', length);
        line[length] = '\0';
        tc_text_addf(&text, "%s", line);
        tc_text_add(&text, "");
        assert_string_equal(tc_text_string(&text), line);
        assert_true(text.length < text.capacity);
        tc_text_free(&text);
        tc_text_add_char(&all, 'x');
        assert_int_equal(strlen(tc_text_string(&all)), length + 1);
    }
    tc_text_free(&all);
}

static void a_failure_is_sticky_and_keeps_what_was_there(void **state)
{
    (void)state;
    struct tc_text text = TC_TEXT_EMPTY;

    tc_text_add(&text, "kept");
    failing_malloc_start(0, false);
    tc_text_add_repeated(&text, "much more than the first piece ", 10);
    assert_true(failing_malloc_stop());
    assert_true(text.failed);
    tc_text_add(&text, "!");
    tc_text_addf(&text, "%d", 1);
    assert_string_equal(tc_text_string(&text), "kept");
    assert_null(tc_text_take(&text));
    assert_false(text.failed);
    tc_text_add(&text, "fresh");
    assert_string_equal(tc_text_string(&text), "fresh");
    tc_text_free(&text);
}

static void a_size_beyond_memory_is_a_failure_not_a_wrap(void **state)
{
    (void)state;
    struct tc_text text = TC_TEXT_EMPTY;

    tc_text_add(&text, "ab");
    tc_text_add_repeated(&text, "four", SIZE_MAX / 4 + 1); /* 4 x that wraps to 0 */
    assert_true(text.failed);
    tc_text_clear(&text);
    assert_false(text.failed);
    tc_text_add_repeated(&text, "x", SIZE_MAX); /* and one for the end wraps as well */
    assert_true(text.failed);
    tc_text_clear(&text);
    tc_text_add_repeated(&text, "x", SIZE_MAX / 4); /* not even tried */
    assert_true(text.failed);
    assert_string_equal(tc_text_string(&text), "");
    tc_text_free(&text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_empty_text_is_an_empty_string),
        cmocka_unit_test(additions_follow_each_other),
        cmocka_unit_test(every_length_fits_with_its_end),
        cmocka_unit_test(a_failure_is_sticky_and_keeps_what_was_there),
        cmocka_unit_test(a_size_beyond_memory_is_a_failure_not_a_wrap),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
