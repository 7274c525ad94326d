/* SPDX-License-Identifier: MIT */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <string.h>

#include "print/cell.h"
#include "print/width.h"
#include "support/printed.h"

static void test_golden(void **state)
{
    (void)state;
    assert_samples_golden(TC_PRINT_TEXT, &(struct tc_print_options){.width = 80}, "-80.txt");
    assert_samples_golden(TC_PRINT_TEXT, &(struct tc_print_options){.width = 60, .ascii = true},
                          "-60-ascii.txt");
    assert_samples_golden(TC_PRINT_TEXT, &(struct tc_print_options){.width = 0}, "-wide.txt");
}

/* The narrowest a sample can be: what one figure and the narrowest labels take. */
static int least_width(const char *name)
{
    return strcmp(name, "odd") == 0 ? 48 : 36;
}

static void test_no_line_is_too_wide(void **state)
{
    (void)state;
    struct tc_text out = TC_TEXT_EMPTY;
    for (size_t i = 0; i < sample_count; i++) {
        for (int width = least_width(samples[i].name); width <= 140; width++) {
            const char *text, *line;
            size_t length;
            tc_text_clear(&out);
            print_sample(&out, samples[i].make, TC_PRINT_TEXT,
                         &(struct tc_print_options){.width = width, .ascii = width % 2});
            text = tc_text_string(&out);
            while (next_line(&text, &line, &length)) {
                if (tc_width_bytes(line, length) > width)
                    fail_msg("%s at %d: %.*s", samples[i].name, width, (int)length, line);
            }
        }
    }
    tc_text_free(&out);
}

static void test_lines_are_plain(void **state)
{
    (void)state;
    struct tc_text out = TC_TEXT_EMPTY;
    for (size_t i = 0; i < sample_count; i++) {
        const char *text, *line;
        size_t length;
        tc_text_clear(&out);
        print_sample(&out, samples[i].make, TC_PRINT_TEXT, &(struct tc_print_options){.width = 80});
        text = tc_text_string(&out);
        assert_null(strchr(text, '\033'));
        assert_null(strchr(text, '\r'));
        assert_null(strchr(text, '\t'));
        assert_int_equal(text[out.length - 1], '\n');
        while (next_line(&text, &line, &length))
            assert_true(length == 0 || line[length - 1] != ' ');
    }
    tc_text_free(&out);
}

static void test_ascii_is_ascii(void **state)
{
    (void)state;
    struct tc_text out = TC_TEXT_EMPTY;
    for (size_t i = 0; i < sample_count; i++)
        print_sample(&out, samples[i].make, TC_PRINT_TEXT,
                     &(struct tc_print_options){.width = 80, .ascii = true});
    for (size_t i = 0; i < out.length; i++)
        assert_true(out.data[i] == '\n' || (out.data[i] >= 0x20 && out.data[i] < 0x7F));
    tc_text_free(&out);
}

/* Takes the escape codes "ESC [ digits ; digits m" out of a text, in place; fails on any other. */
static int strip_codes(char *text)
{
    int codes = 0;
    char *to = text;
    for (const char *from = text; *from;) {
        if (*from != '\033') {
            *to++ = *from++;
            continue;
        }
        assert_int_equal(from[1], '[');
        from += 2 + strspn(from + 2, "0123456789;");
        assert_int_equal(*from, 'm');
        from++;
        codes++;
    }
    *to = '\0';
    return codes;
}

static void test_colour_adds_codes_alone(void **state)
{
    (void)state;
    for (size_t i = 0; i < sample_count; i++) {
        struct tc_text plain = TC_TEXT_EMPTY, colour = TC_TEXT_EMPTY;
        print_sample(&plain, samples[i].make, TC_PRINT_TEXT, &(struct tc_print_options){.width = 80});
        print_sample(&colour, samples[i].make, TC_PRINT_TEXT,
                     &(struct tc_print_options){.width = 80, .colour = true});
        assert_in_range(strip_codes(colour.data), 2, 5000);
        assert_string_equal(colour.data, plain.data);
        tc_text_free(&plain);
        tc_text_free(&colour);
    }
}

/* A line never leaves its colour to the next: a pager may show it alone. */
static void test_colour_ends_with_its_line(void **state)
{
    (void)state;
    struct tc_text out = TC_TEXT_EMPTY;
    print_sample(&out, sample_bill, TC_PRINT_TEXT, &(struct tc_print_options){.width = 80, .colour = true});
    const char *text = tc_text_string(&out), *line;
    size_t length;
    while (next_line(&text, &line, &length)) {
        bool on = false;
        for (size_t i = 0; i + 2 < length; i++)
            if (line[i] == '\033')
                on = line[i + 2] != '0';
        assert_false(on);
    }
    tc_text_free(&out);
}

/* Every figure and every word of a sheet is there, and as often as the sheet has it. */
static void test_nothing_is_lost(void **state)
{
    (void)state;
    struct tc_text out = TC_TEXT_EMPTY;
    for (size_t i = 0; i < sample_count; i++) {
        struct tc_sheet sheet;
        tc_text_clear(&out);
        print_sample(&out, samples[i].make, TC_PRINT_TEXT, &(struct tc_print_options){.width = 0});
        samples[i].make(&sheet);
        for (size_t r = 0; r < sheet.row_count; r++) {
            const struct tc_row *row = &sheet.rows[r];
            assert_non_null(strstr(tc_text_string(&out), row->label + strspn(row->label, " ")));
            assert_non_null(strstr(tc_text_string(&out), row->unit));
            for (size_t c = 0; c < sheet.column_count && row->cells; c++) {
                char buffer[TC_NUMBER_SIZE];
                assert_non_null(strstr(tc_text_string(&out), tc_cell_text(buffer, &row->cells[c], true)));
            }
        }
        for (size_t c = 0; c < sheet.column_count; c++) {
            assert_non_null(strstr(tc_text_string(&out), sheet.columns[c].head));
            assert_non_null(strstr(tc_text_string(&out), sheet.columns[c].subhead));
        }
        for (size_t n = 0; n < sheet.note_count; n++)
            assert_non_null(strstr(tc_text_string(&out), sheet.notes[n].text));
        tc_sheet_free(&sheet);
    }
    tc_text_free(&out);
}

static int count(const char *text, const char *what)
{
    int n = 0;
    for (const char *p = text; (p = strstr(p, what)); p += strlen(what))
        n++;
    return n;
}

/* Where the points of a line's amounts stand. */
static int points_of(const char *line, size_t length, int *columns, int most)
{
    int n = 0;
    for (size_t i = 1; i + 1 < length && n < most; i++)
        if (line[i] == '.' && line[i - 1] >= '0' && line[i - 1] <= '9' && line[i + 1] >= '0' &&
            line[i + 1] <= '9')
            columns[n++] = tc_width_bytes(line, i);
    return n;
}

static void test_points_stand_under_points(void **state)
{
    (void)state;
    struct tc_text out = TC_TEXT_EMPTY;
    print_sample(&out, sample_bill, TC_PRINT_TEXT, &(struct tc_print_options){.width = 80});
    const char *text = strstr(tc_text_string(&out), "To buy\n"), *line;
    const char *end = strstr(text, "In today's money\n");
    size_t length;
    int columns[3], first[3] = {0}, lines = 0;
    while (text < end && next_line(&text, &line, &length)) {
        int n = points_of(line, length, columns, 3);
        if (n < 3)
            continue;
        if (lines++ == 0)
            memcpy(first, columns, sizeof first);
        assert_memory_equal(columns, first, sizeof first);
    }
    assert_int_equal(lines, 9); /* all but the row without a lid */
    tc_text_free(&out);
}

/* A table that is too wide comes in blocks: each column once, labels in each, sentences once. */
static void test_blocks(void **state)
{
    (void)state;
    struct tc_text out = TC_TEXT_EMPTY;
    print_sample(&out, sample_places, TC_PRINT_TEXT, &(struct tc_print_options){.width = 60});
    const char *text = tc_text_string(&out);
    int blocks = count(text, "import fee");
    assert_in_range(blocks, 2, 4);
    assert_int_equal(count(text, "to buy"), blocks);
    assert_int_equal(count(text, "29-high"), 3);
    assert_int_equal(count(text, "36-breeder"), 3);
    assert_int_equal(count(text, "48-shallow"), 1);
    assert_int_equal(count(text, "The winner changes"), 1);
    tc_text_free(&out);
}

static void test_legend_names_what_occurs(void **state)
{
    (void)state;
    struct tc_text out = TC_TEXT_EMPTY;
    print_sample(&out, sample_bill, TC_PRINT_TEXT, &(struct tc_print_options){.width = 80});
    for (size_t i = 0; tc_mark_at(i); i++)
        assert_int_equal(count(tc_text_string(&out), tc_mark_meaning(tc_mark_at(i))), 1);
    tc_text_clear(&out);
    print_sample(&out, sample_fit, TC_PRINT_TEXT, &(struct tc_print_options){.width = 80});
    assert_int_equal(count(tc_text_string(&out), tc_mark_meaning(TC_MARK_BEST)), 1);
    assert_int_equal(count(tc_text_string(&out), tc_mark_meaning(TC_MARK_TYPED)), 0);
    tc_text_clear(&out);
    print_sample(&out, sample_energy, TC_PRINT_TEXT, &(struct tc_print_options){.width = 80});
    for (size_t i = 0; tc_mark_at(i); i++)
        assert_int_equal(count(tc_text_string(&out), tc_mark_meaning(tc_mark_at(i))), 0);
    tc_text_free(&out);
}

/* The code of a currency is said once where all money is in one. */
static void test_one_currency_is_said_once(void **state)
{
    (void)state;
    struct tc_text out = TC_TEXT_EMPTY;
    print_sample(&out, sample_list, TC_PRINT_TEXT, &(struct tc_print_options){.width = 80});
    assert_int_equal(count(tc_text_string(&out), "USD"), 1);
    tc_text_free(&out);
}

/* What stands under the heads of all columns alike is said once, in every block. */
static void test_one_subhead_is_said_once(void **state)
{
    (void)state;
    struct tc_text out = TC_TEXT_EMPTY;
    print_sample(&out, sample_years, TC_PRINT_TEXT, &(struct tc_print_options){.width = 80});
    assert_int_equal(count(tc_text_string(&out), "each: sale lowmere-spring\n"), 1);
    assert_int_equal(count(tc_text_string(&out), "lowmere-"), 2); /* and in the assumptions */
    tc_text_clear(&out);
    print_sample(&out, sample_years, TC_PRINT_TEXT, &(struct tc_print_options){.width = 40});
    assert_int_equal(count(tc_text_string(&out), "each: sale lowmere-spring\n"),
                     count(tc_text_string(&out), "at the start"));
    tc_text_free(&out);
}

static void test_empty_sheets(void **state)
{
    (void)state;
    struct tc_sheet sheet;
    struct tc_text out = TC_TEXT_EMPTY;
    tc_sheet_start(&sheet, "none", 0);
    assert_int_equal(tc_print(&out, &sheet, TC_PRINT_TEXT, &(struct tc_print_options){.width = 80}), TC_OK);
    tc_sheet_row(&sheet, TC_ROW_LINE, "a row without columns", "kg");
    tc_sheet_sentence(&sheet, "and", "a sentence");
    assert_int_equal(tc_print(&out, &sheet, TC_PRINT_TEXT, &(struct tc_print_options){.width = 80}), TC_OK);
    assert_non_null(strstr(tc_text_string(&out), "a row without columns"));
    tc_text_free(&out);
    tc_sheet_free(&sheet);
}

/* However narrow, it ends, and every column is shown. */
static void test_hardly_any_width(void **state)
{
    (void)state;
    struct tc_text out = TC_TEXT_EMPTY;
    for (int width = 1; width < 36; width++) {
        tc_text_clear(&out);
        for (size_t i = 0; i < sample_count; i++)
            print_sample(&out, samples[i].make, TC_PRINT_TEXT, &(struct tc_print_options){.width = width});
        assert_non_null(strstr(tc_text_string(&out), "387.34"));
    }
    tc_text_free(&out);
}

static void test_formats_by_name(void **state)
{
    (void)state;
    enum tc_print_format format = TC_PRINT_TEXT;
    for (size_t i = 0; tc_print_format_name(i); i++) {
        assert_true(tc_print_format_find(tc_print_format_name(i), &format));
        assert_int_equal(format, i);
    }
    assert_true(tc_print_format_find("markdown", &format));
    assert_int_equal(format, TC_PRINT_MARKDOWN);
    assert_false(tc_print_format_find("texts", &format));
    assert_false(tc_print_format_find("", &format));
    assert_int_equal(format, TC_PRINT_MARKDOWN);
    assert_true(tc_print_format_find("Text", &format)); /* case counts nowhere */
    assert_int_equal(format, TC_PRINT_TEXT);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_golden),
        cmocka_unit_test(test_no_line_is_too_wide),
        cmocka_unit_test(test_lines_are_plain),
        cmocka_unit_test(test_ascii_is_ascii),
        cmocka_unit_test(test_colour_adds_codes_alone),
        cmocka_unit_test(test_colour_ends_with_its_line),
        cmocka_unit_test(test_nothing_is_lost),
        cmocka_unit_test(test_points_stand_under_points),
        cmocka_unit_test(test_blocks),
        cmocka_unit_test(test_legend_names_what_occurs),
        cmocka_unit_test(test_one_currency_is_said_once),
        cmocka_unit_test(test_one_subhead_is_said_once),
        cmocka_unit_test(test_empty_sheets),
        cmocka_unit_test(test_hardly_any_width),
        cmocka_unit_test(test_formats_by_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
