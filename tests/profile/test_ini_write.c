/* SPDX-License-Identifier: MIT */
/* What is written is read back the same, whatever it is made of. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <string.h>

#include "profile/ini.h"
#include "profile/ini_write.h"
#include "support/draw.h"

static void values_are_written_as_a_person_would(void **state)
{
    (void)state;
    static const struct {
        const char *value, *written; /* NULL: it cannot be */
    } rows[] = {
        {"30 in", "30 in"},
        {"30\"", "30\""},
        {"Joe's", "Joe's"},
        {"C:\\tanks\\new", "C:\\tanks\\new"},
        {"a=b", "a=b"},
        {"[b]", "[b]"},
        {"Gr\xC3\xB6\xC3\x9F"
         "e",
         "Gr\xC3\xB6\xC3\x9F"
         "e"},
        {"", "\"\""},
        {" ", "\" \""},
        {" a", "\" a\""},
        {"a ", "\"a \""},
        {"a ; b", "\"a ; b\""},
        {"#4", "\"#4\""},
        {"=5", "\"=5\""},
        {"'tis", "\"'tis\""},
        {"\"big\"", "'\"big\"'"},
        {"\"", "'\"'"},
        {"the \"big\" #4", "'the \"big\" #4'"},
        {"C:\\", NULL},
        {"C:\\a;b", NULL},
        {"the \"big\" #4 of Joe's", NULL},
        {"a\tb", NULL},
        {"a\nb", NULL},
        {"caf\xE9", NULL},
        {"\xE2\x80\xAE", NULL},
    };

    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct tc_text text = TC_TEXT_EMPTY;
        assert_int_equal(tc_ini_write_value(&text, rows[i].value), rows[i].written != NULL);
        assert_string_equal(tc_text_string(&text), rows[i].written == NULL ? "" : rows[i].written);
        tc_text_free(&text);
    }
}

static void the_longest_value_fits_under_the_longest_key(void **state)
{
    (void)state;
    struct tc_text value = TC_TEXT_EMPTY, file = TC_TEXT_EMPTY;
    struct tc_faults faults = TC_FAULTS_EMPTY;
    struct tc_ini ini;

    tc_text_add(&value, ";");
    tc_text_add_repeated(&value, "x", TC_INI_VALUE_MAX - 1);
    tc_text_add(&file, "[a]\n");
    tc_text_add_repeated(&file, "k", 47);
    tc_text_add(&file, " = ");
    assert_true(tc_ini_write_value(&file, value.data));
    assert_int_equal(tc_ini_read_bytes("f", file.data, file.length, &ini, &faults), TC_OK);
    assert_int_equal(tc_faults_count(&faults), 0);
    assert_string_equal(ini.keys[0].value, value.data);
    tc_ini_free(&ini);
    tc_text_add(&value, "x");
    assert_false(tc_ini_write_value(&file, value.data));
    tc_text_free(&value);
    tc_text_free(&file);
}

/* Many values of the characters that mean something, all in one file. */
static void random_values_are_read_back(void **state)
{
    (void)state;
    static const char *const pieces[] = {"a",  "b c", " ", "\"", "'",        ";",  "#",   "=",
                                         "\\", "[",   "]", ":",  "\xC3\xB6", "%s", "\xFF"};
    const int piece_count = sizeof pieces / sizeof pieces[0];
    static char written[1000][64];
    struct tc_random random = draw_from(7);
    int refused = 0;

    for (int round = 0; round < 20; round++) {
        struct tc_text file = TC_TEXT_EMPTY;
        struct tc_faults faults = TC_FAULTS_EMPTY;
        struct tc_ini ini;
        int count = 0;
        tc_text_add(&file, "[values]\n");
        while (count < 1000) {
            struct tc_text value = TC_TEXT_EMPTY;
            for (int pieces_left = draw_below(&random, 8); pieces_left > 0; pieces_left--)
                tc_text_add(&value, pieces[draw_below(&random, piece_count)]);
            const char *string = tc_text_string(&value);
            size_t start = file.length;
            tc_text_addf(&file, "k%d = ", count);
            if (tc_ini_write_value(&file, string)) {
                tc_text_add_char(&file, '\n');
                snprintf(written[count++], sizeof written[0], "%s", string);
            } else {
                /* Only for the reasons the header gives. */
                assert_true(strchr(string, '\\') != NULL || strstr(string, "\xFF") != NULL ||
                            (strchr(string, '"') != NULL && strchr(string, '\'') != NULL));
                file.length = start;
                refused++;
            }
            tc_text_free(&value);
        }
        assert_int_equal(tc_ini_read_bytes("f", file.data, file.length, &ini, &faults), TC_OK);
        assert_int_equal(tc_faults_count(&faults), 0);
        assert_int_equal(ini.key_count, count);
        for (int i = 0; i < count; i++)
            assert_string_equal(ini.keys[i].value, written[i]);
        tc_ini_free(&ini);
        tc_text_free(&file);
    }
    assert_in_range(refused, 1000, 20000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_are_written_as_a_person_would),
        cmocka_unit_test(the_longest_value_fits_under_the_longest_key),
        cmocka_unit_test(random_values_are_read_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
