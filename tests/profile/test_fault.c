/* SPDX-License-Identifier: MIT */
/* The list of faults: form, order, cleaning, and what it does without memory. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "core/base/clean.h"
#include "profile/fault.h"
#include "support/failing_malloc.h"

static void assert_written(const struct tc_faults *faults, const char *wanted)
{
    struct tc_text text = TC_TEXT_EMPTY;

    tc_faults_write(faults, &text);
    assert_string_equal(tc_text_string(&text), wanted);
    tc_text_free(&text);
}

static void a_fault_says_place_and_text(void **state)
{
    (void)state;
    struct tc_faults faults = TC_FAULTS_EMPTY;

    assert_int_equal(tc_faults_count(&faults), 0);
    tc_faults_error(&faults, (struct tc_place){"a.ini", 12, "tank 29-high", "length"},
                    "has no unit; write '%d in'", 30);
    tc_faults_error(&faults, (struct tc_place){"a.ini", 11, "tank 29-high", NULL}, "no price");
    tc_faults_error(&faults, (struct tc_place){"a.ini", 11, NULL, "length"}, "no section");
    tc_faults_error(&faults, (struct tc_place){"a.ini", 0, NULL, NULL}, "the file is empty");
    tc_faults_error(&faults, (struct tc_place){NULL, 5, "setup", "x"}, "typed by hand");
    tc_faults_note(&faults, (struct tc_place){"a.ini", 3, "tank b", "price"}, "replaces that of b.ini:4");
    tc_faults_error(&faults, (struct tc_place){NULL, 0, NULL, NULL}, "bare");
    assert_int_equal(tc_faults_count(&faults), 7);
    assert_int_equal(tc_faults_errors(&faults), 6);
    assert_written(&faults, "a.ini:12: [tank 29-high] length: has no unit; write '30 in'\n"
                            "a.ini:11: [tank 29-high]: no price\n"
                            "a.ini:11: length: no section\n"
                            "a.ini: the file is empty\n"
                            "[setup] x: typed by hand\n"
                            "a.ini:3: note: [tank b] price: replaces that of b.ini:4\n"
                            "bare\n");
    tc_faults_free(&faults);
    assert_int_equal(tc_faults_count(&faults), 0);
}

static void all_its_texts_are_cleaned_copies(void **state)
{
    (void)state;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    char file[] = "a\x1B.ini", section[] = "t\xE2\x80\xAEt", key[] = "k\xFFk";

    tc_faults_error(&faults, (struct tc_place){file, 1, section, key}, "bad\n%s", "\x07");
    memset(file, 'x', 3);
    memset(section, 'x', 3);
    memset(key, 'x', 3);
    assert_written(&faults, "a?.ini:1: [t?t] k?k: bad??\n");
    tc_faults_free(&faults);
}

static void a_long_text_is_cut_at_a_character(void **state)
{
    (void)state;
    static char long_text[2 * TC_FAULT_TEXT_SIZE + 1];

    /* Characters of one to four bytes, each with the cut at every place within it. */
    static const char *const letters[] = {"x", "\xC3\xB6", "\xE6\xB0\xB4", "\xF0\x9F\x90\x9F"};
    for (size_t kind = 0; kind < 4; kind++)
        for (size_t lead = 0; lead < 4; lead++) {
            struct tc_faults faults = TC_FAULTS_EMPTY;
            size_t length = strlen(letters[kind]), at = lead;
            memset(long_text, '.', lead);
            while (at + length < sizeof long_text) {
                memcpy(long_text + at, letters[kind], length);
                at += length;
            }
            long_text[at] = '\0';
            tc_faults_error(&faults, (struct tc_place){NULL, 0, NULL, NULL}, "%s", long_text);
            const char *text = tc_faults_at(&faults, 0)->text;
            assert_true(tc_is_clean(text, strlen(text)));
            assert_null(strchr(text, '?'));
            assert_true(strlen(text) < TC_FAULT_TEXT_SIZE && strlen(text) + 8 > TC_FAULT_TEXT_SIZE);
            assert_memory_equal(text, long_text, strlen(text));
            tc_faults_free(&faults);
        }
}

static void sorting_keeps_files_together_and_lines_in_order(void **state)
{
    (void)state;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    static const struct {
        const char *file;
        int line;
    } rows[] = {{"b", 7}, {"b", 3}, {NULL, 0}, {"a", 2},  {"b", 5},
                {"b", 3}, {"a", 0}, {"b", 0},  {NULL, 0}, {"a", 9}};

    tc_faults_sort(&faults); /* nothing in it */
    for (int i = 0; i < (int)(sizeof rows / sizeof rows[0]); i++)
        tc_faults_error(&faults, (struct tc_place){rows[i].file, rows[i].line, NULL, NULL}, "%d", i);
    tc_faults_sort(&faults);
    assert_written(&faults, "b: 7\nb:3: 1\nb:3: 5\nb:5: 4\nb:7: 0\n2\n8\na: 6\na:2: 3\na:9: 9\n");
    tc_faults_free(&faults);
}

/* Lets the n-th allocation fail, for every n, once and for good. */
static void running_out_of_memory_is_said_in_the_list(void **state)
{
    (void)state;
    for (int lasting = 0; lasting < 2; lasting++)
        for (long n = 0;; n++) {
            struct tc_faults faults = TC_FAULTS_EMPTY;
            failing_malloc_start(n, lasting != 0);
            for (int i = 0; i < 40; i++)
                tc_faults_note(&faults, (struct tc_place){"a.ini", i, NULL, NULL}, "%d", i);
            bool failed = failing_malloc_stop();
            size_t count = tc_faults_count(&faults);
            assert_int_equal(faults.lost, failed);
            assert_int_equal(tc_faults_errors(&faults), failed ? 1 : 0);
            if (!failed) {
                assert_int_equal(count, 40);
                tc_faults_free(&faults);
                break;
            }
            tc_faults_sort(&faults);
            assert_string_equal(tc_faults_at(&faults, count - 1)->text,
                                "out of memory: further faults could not be recorded");
            if (lasting == 0)
                assert_int_equal(count, 40); /* 39 and the word about the lost one */
            tc_faults_free(&faults);
            assert_int_equal(tc_faults_count(&faults), 0);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_fault_says_place_and_text),
        cmocka_unit_test(all_its_texts_are_cleaned_copies),
        cmocka_unit_test(a_long_text_is_cut_at_a_character),
        cmocka_unit_test(sorting_keeps_files_together_and_lines_in_order),
        cmocka_unit_test(running_out_of_memory_is_said_in_the_list),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
