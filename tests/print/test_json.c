/* SPDX-License-Identifier: MIT */
/* JSON as RFC 8259 has it; tests/print/test_formats.sh reads the golden files with an independent reader. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

#include "core/base/clean.h"
#include "support/printed.h"

static const struct tc_print_options options = {.width = 80};

static void test_golden(void **state)
{
    (void)state;
    assert_samples_golden(TC_PRINT_JSON, &options, ".json");
}

/* Prints a sheet with that title as it is, not cleaned, and looks for the string wanted. */
static void check_string(const char *title, const char *wanted)
{
    struct tc_sheet sheet;
    struct tc_text out = TC_TEXT_EMPTY;
    tc_sheet_start(&sheet, "one", 0);
    sheet.title = title;
    assert_int_equal(tc_print(&out, &sheet, TC_PRINT_JSON, &options), TC_OK);
    const char *found = strstr(tc_text_string(&out), "\"title\": ");
    assert_non_null(found);
    assert_memory_equal(found + strlen("\"title\": "), wanted, strlen(wanted));
    for (size_t i = 0; i < out.length;) { /* all of it is UTF-8 */
        uint32_t code;
        int n = tc_utf8_decode(out.data + i, out.length - i, &code);
        assert_int_not_equal(n, 0);
        i += (size_t)n;
    }
    tc_text_free(&out);
    tc_sheet_free(&sheet);
}

static void test_strings(void **state)
{
    (void)state;
    check_string("", "\"\",");
    check_string("m² / ½", "\"m² / ½\",");
    check_string("say \"hi\" \\ back", "\"say \\\"hi\\\" \\\\ back\",");
    check_string("\x01\t\n\x1F\x7F", "\"\\u0001\\u0009\\u000a\\u001f\\u007f\",");
    check_string("\xFFz\xC3", "\"\xEF\xBF\xBDz\xEF\xBF\xBD\",");
    check_string("\xED\xA0\x80", "\"\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD\","); /* a lone surrogate */
    check_string("🐟", "\"🐟\",");
}

/* A cell with one figure, and how it is written. */
static void check_number(double number, const char *wanted)
{
    struct tc_sheet sheet;
    struct tc_text out = TC_TEXT_EMPTY;
    tc_sheet_start(&sheet, "one", 1);
    tc_sheet_row(&sheet, TC_ROW_LINE, "", "");
    tc_sheet_number(&sheet, 0, number, 1);
    assert_int_equal(tc_print(&out, &sheet, TC_PRINT_JSON, &options), TC_OK);
    assert_non_null(strstr(tc_text_string(&out), wanted));
    tc_text_free(&out);
    tc_sheet_free(&sheet);
}

static void test_numbers(void **state)
{
    (void)state;
    check_number(0.1, "{\"kind\": \"number\", \"value\": 0.1, \"decimals\": 1}");
    check_number(-1.0 / 3, "\"value\": -0.333333333333,");
    check_number(1e300, "\"value\": 1e+300,");
    check_number(NAN, "\"value\": null,");
    check_number(HUGE_VAL, "\"value\": null,");
}

static void test_marks_and_paths(void **state)
{
    (void)state;
    struct tc_text out = TC_TEXT_EMPTY;
    print_sample(&out, sample_bill, TC_PRINT_JSON, &options);
    assert_non_null(strstr(tc_text_string(&out),
                           "{\"kind\": \"money\", \"value\": 65.00, \"currency\": \"USD\", "
                           "\"marks\": [\"typed\"], \"edit\": \"candidate 2/price\"}"));
    assert_non_null(strstr(tc_text_string(&out), "{\"kind\": \"missing\", \"value\": \"none fits\"}"));
    tc_text_free(&out);
}

/* The device makes no difference. */
static void test_ascii_changes_nothing(void **state)
{
    (void)state;
    struct tc_text utf8 = TC_TEXT_EMPTY, ascii = TC_TEXT_EMPTY;
    print_sample(&utf8, sample_odd, TC_PRINT_JSON, &options);
    print_sample(&ascii, sample_odd, TC_PRINT_JSON,
                 &(struct tc_print_options){.ascii = true, .colour = true});
    assert_string_equal(ascii.data, utf8.data);
    tc_text_free(&utf8);
    tc_text_free(&ascii);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_golden),
        cmocka_unit_test(test_strings),
        cmocka_unit_test(test_numbers),
        cmocka_unit_test(test_marks_and_paths),
        cmocka_unit_test(test_ascii_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
