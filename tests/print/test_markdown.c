/* SPDX-License-Identifier: MIT */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "support/printed.h"

static const struct tc_print_options options = {.width = 80};

static void test_golden(void **state)
{
    (void)state;
    assert_samples_golden(TC_PRINT_MARKDOWN, &options, ".md");
}

/* How many cells a line of a table has: bars that are not escaped, less one. */
static int cells_of(const char *line, size_t length)
{
    int bars = 0;
    for (size_t i = 0; i < length; i++) {
        if (line[i] == '\\')
            i++;
        else if (line[i] == '|')
            bars++;
    }
    return bars - 1;
}

static void test_tables_are_whole(void **state)
{
    (void)state;
    for (size_t i = 0; i < sample_count; i++) {
        struct tc_text out = TC_TEXT_EMPTY;
        struct tc_sheet sheet;
        const char *line;
        size_t length;
        int rows = 0, table_rows = 0;
        print_sample(&out, samples[i].make, TC_PRINT_MARKDOWN, &options);
        samples[i].make(&sheet);
        const char *text = tc_text_string(&out);
        while (next_line(&text, &line, &length)) {
            if (line[0] != '|')
                continue;
            assert_int_equal(cells_of(line, length), (int)sheet.column_count + 1);
            table_rows++;
        }
        for (size_t r = 0; r < sheet.row_count; r++)
            rows += sheet.rows[r].cells && sheet.rows[r].kind != TC_ROW_SENTENCE;
        assert_in_range(table_rows, rows + 2, 3 * rows + 2);
        tc_sheet_free(&sheet);
        tc_text_free(&out);
    }
}

/* A note, alone in its list. */
static void check_note(const char *note, const char *wanted)
{
    struct tc_sheet sheet;
    struct tc_text out = TC_TEXT_EMPTY;
    tc_sheet_start(&sheet, "one", 0);
    tc_sheet_note(&sheet, TC_NOTE_FINDING, "%s", note);
    assert_int_equal(tc_print(&out, &sheet, TC_PRINT_MARKDOWN, &options), TC_OK);
    assert_string_equal(strrchr(tc_text_string(&out), '#') + strlen("# \n\n"), wanted);
    tc_text_free(&out);
    tc_sheet_free(&sheet);
}

/* The signs that CommonMark 0.30 and GitHub's extensions give a meaning. */
static void test_markup_is_escaped(void **state)
{
    (void)state;
    check_note("a|b *c* _d_ `e` [f](g) <h> ~i~",
               "- a\\|b \\*c\\* \\_d\\_ \\`e\\` \\[f\\](g) \\<h\\> \\~i\\~\n");
    check_note("a\\b &amp; $x$", "- a\\\\b \\&amp; \\$x\\$\n");
    check_note("- x", "- \\- x\n");
    check_note("+ x", "- \\+ x\n");
    check_note("1. x", "- 1\\. x\n");
    check_note("12) x", "- 12\\) x\n");
    check_note("1.5 l", "- 1\\.5 l\n");
    check_note("29-high costs least.", "- 29-high costs least.\n");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_golden),
        cmocka_unit_test(test_tables_are_whole),
        cmocka_unit_test(test_markup_is_escaped),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
